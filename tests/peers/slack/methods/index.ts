/** Every Web API method that the peer knows; any other is `unknown_method`. */
import { CHAT } from './chat.ts';
import { CONVERSATIONS } from './conversations.ts';
import { FILES } from './files.ts';
import type { Method } from './method.ts';
import { PEOPLE } from './people.ts';
import { SCHEDULED } from './scheduled.ts';
import { VIEWS } from './views.ts';

const ALL: ReadonlyMap<string, Method> = new Map(
  [CHAT, SCHEDULED, VIEWS, CONVERSATIONS, PEOPLE, FILES].flatMap((group) => Object.entries(group)),
);

export function methodCalled(name: string): Method | undefined {
  return ALL.get(name);
}

/** The one method that takes the app's token and not the bot's. */
export function wantsAppToken(name: string): boolean {
  return name === 'apps.connections.open';
}

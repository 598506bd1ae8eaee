import type { Message } from '../../src/message/message.ts';
import { glance } from '../../src/views/glance.ts';
import { unknownPerson } from './refused.ts';
import type { ChatServices } from './services.ts';
import type { Visit } from './visit.ts';

/** Today as one person sees it now. */
export function todayMessage(services: Pick<ChatServices, 'pack' | 'clock'>, visit: Visit): Message {
  const { person, shift, texts } = visit;
  if (person === null) return unknownPerson(visit);
  return glance({ pack: services.pack(), shift, now: services.clock.now(), texts, viewer: person.id });
}

import { insist } from '../chat/insist.ts';
import type { Visit } from '../chat/visit.ts';
import type { Card } from './render-card.ts';
import type { Sender } from './sender.ts';
import type { Content } from './sender-post.ts';
import type { TeamsServices } from './services.ts';

export interface Shown {
  readonly summary: string;
  readonly card: Card;
}

/** Cards below one another in somebody's own chat. `id` is unique to what they answer. False when not all stand. */
export async function postDirectly(
  services: TeamsServices,
  out: Pick<Sender, 'post' | 'openPersonal'>,
  { member }: Pick<Visit, 'member'>,
  id: string,
  cards: readonly Content[],
): Promise<boolean> {
  const opened = await insist(services, () => out.openPersonal(member));
  if (opened.kind !== 'ok') return unanswered(opened);
  for (const [at, card] of cards.entries()) {
    const post = { ...card, conversation: opened.value, marker: `${id}.${at}` };
    const sent = await insist(services, () => out.post(post));
    if (sent.kind !== 'ok') return unanswered(sent);
  }
  return true;

  function unanswered(outcome: { readonly kind: string }): boolean {
    services.log.error({ part: 'teams', member, outcome }, 'somebody could not be answered');
    return false;
  }
}

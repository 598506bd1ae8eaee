import { words } from './messages.ts';
import type { ChatServices } from './services.ts';
import type { Showing } from './showing.ts';
import { visitOf } from './visit.ts';

/** Nobody is left without an answer: a fault is logged under a number, and that number is told. `title` names the platform. */
export async function guarded(
  services: ChatServices,
  title: string,
  member: string,
  show: Pick<Showing, 'pressId' | 'tell'>,
  work: () => Promise<void>,
): Promise<void> {
  const { log } = services;
  try {
    await work();
  } catch (error) {
    const ref = show.pressId.slice(0, 6);
    log.error({ err: error, ref, member }, `something from ${title} could not be worked out`);
    const visit = await visitOf(services, member);
    await show
      .tell(visit, words('danger', visit.texts.say('talk.fault', { ref })))
      .catch((again: unknown) => log.error({ err: again, ref }, 'nor could that be told'));
  }
}

import type { HomeView } from '@slack/types';
import { glance } from '../../src/views/glance.ts';
import { hashed } from './inbound.ts';
import { limits } from './limits.ts';
import { blocksOf, optionsFor } from './look.ts';
import { unknownPerson } from './refused.ts';
import type { Sender } from './sender.ts';
import { SLACK, type SlackServices } from './services.ts';
import { type Visit, visitOf } from './visit.ts';

/** What a member's Home says now. */
export function homeView(services: Pick<SlackServices, 'pack' | 'words' | 'clock'>, visit: Visit): HomeView {
  const { person, shift, texts } = visit;
  const now = services.clock.now();
  const message =
    person === null
      ? unknownPerson(visit)
      : glance({ pack: services.pack(), shift, now, texts, viewer: person.id });
  const marker = hashed([visit.member, now]);
  const blocks = blocksOf(message, optionsFor(services, texts, marker, 'inline'));
  if (blocks.length > limits.blocksInModal.most)
    throw new RangeError(`the Home of ${visit.member} makes ${blocks.length} blocks; the platform takes 100`);
  return { type: 'home', blocks: [...blocks] };
}

/**
 * Everybody's Home, kept up to date for who has opened it. Commits come in bursts: one picture is made of each burst,
 * and one that could not be published is made again with the next.
 */
export function createHomes(services: SlackServices, out: Sender) {
  let again: Promise<void> | null = null;
  let wanted = false;

  async function publish(member: string): Promise<void> {
    const sent = await out.publishHome(member, homeView(services, await visitOf(services, member)));
    if (sent.kind !== 'ok')
      services.log.warn({ member, outcome: sent.kind }, 'a Home could not be published');
  }

  async function publishAll(): Promise<void> {
    while (wanted) {
      wanted = false;
      for (const { key } of await services.memory.list(SLACK, 'home:'))
        await publish(key.slice('home:'.length));
    }
  }

  return {
    async opened(member: string): Promise<void> {
      await services.memory.put(SLACK, `home:${member}`, '{}');
      await publish(member);
    },
    /** Call after every commit. */
    changed(): void {
      wanted = true;
      again ??= publishAll()
        .catch((error: unknown) => services.log.error({ err: error }, 'the Homes could not be published'))
        .finally(() => {
          again = null;
        });
    },
    async settled(): Promise<void> {
      await again;
    },
  };
}

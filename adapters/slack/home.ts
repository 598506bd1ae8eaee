import type { HomeView } from '@slack/types';
import { heading, list } from '../../src/message/build.ts';
import { MINUTE } from '../../src/model/time.ts';
import { type Again, onTimer } from '../chat/again.ts';
import { markerOf } from '../chat/marks.ts';
import { todayMessage } from '../chat/today.ts';
import { type Visit, visitOf } from '../chat/visit.ts';
import { limits } from './limits.ts';
import { blocksOf, optionsFor } from './look.ts';
import type { Sender } from './sender.ts';
import { SLACK, type SlackServices } from './services.ts';

/** Who looks at their Home longer than this opens it anew at the next look. */
const LOOKED_AT_MS = 15 * MINUTE;
/** Commits come in bursts; people read no faster. */
const LEAST_BETWEEN_MS = 3_000;
/** docs.slack.dev/reference/methods/views.publish (tier 4): 100+ a minute, of which openings get their share. */
const MOST_A_MINUTE = 80;
const AFTER_FAILURE_MS = 30_000;

/** What a member's Home says now. */
export function homeView(
  services: Pick<SlackServices, 'pack' | 'words' | 'clock'>,
  visit: Visit,
  notices: readonly string[],
): HomeView {
  const { person, shift, texts } = visit;
  const now = services.clock.now();
  const today = todayMessage(services, visit);
  const message =
    notices.length === 0 || person?.roles.includes('foreman') !== true
      ? today
      : { ...today, blocks: [...today.blocks, heading(texts.say('talk.notices')), list(notices)] };
  const marker = markerOf(shift?.id ?? null, [visit.member, now]);
  const blocks = blocksOf(message, optionsFor(services, texts, marker, 'inline'));
  if (blocks.length > limits.blocksInModal.most)
    throw new RangeError(`the Home of ${visit.member} makes ${blocks.length} blocks; the platform takes 100`);
  return { type: 'home', blocks: [...blocks] };
}

/**
 * The Homes of those who look at them, kept up to date. One picture is made of each burst of commits, and what could not
 * be published is published with the next burst, or by itself when none comes.
 */
export function createHomes(services: SlackServices, out: Sender, again: Again = onTimer) {
  const { memory, clock, log } = services;
  let underWay: Promise<void> | null = null;
  let callOff: (() => void) | null = null;
  let wanted = false;
  let notBefore = 0;

  /** How long to wait before the next try, ms; null when it stands, or never will. */
  async function publish(member: string): Promise<number | null> {
    const sent = await out.publishHome(
      member,
      homeView(services, await visitOf(services, member), await services.notices()),
    );
    if (sent.kind === 'ok') return null;
    log.warn({ member, outcome: sent.kind }, 'a Home could not be published');
    if (sent.kind === 'gone') await memory.remove(SLACK, homeKey(member));
    if (sent.kind === 'gone') return null;
    return 'afterMs' in sent && sent.afterMs !== undefined ? sent.afterMs : AFTER_FAILURE_MS;
  }

  async function publishAll(): Promise<void> {
    wanted = false;
    const began = clock.now();
    await memory.forget(SLACK, homeKey(''), began - LOOKED_AT_MS);
    const open = await memory.list(SLACK, homeKey(''));
    notBefore = began + Math.max(LEAST_BETWEEN_MS, (open.length * MINUTE) / MOST_A_MINUTE);
    let failed = 0;
    for (const { key } of open) {
      const wait = await publish(key.slice(homeKey('').length));
      if (wait === null) continue;
      wanted = true;
      notBefore = Math.max(notBefore, clock.now() + wait);
      failed += 1;
      // One can be that one's own trouble; after two the others would hear the same.
      if (failed === 2) return;
    }
  }

  function turn(): void {
    if (underWay !== null || callOff !== null || !wanted) return;
    const wait = notBefore - clock.now();
    if (wait > 0) {
      callOff = again(wait, () => {
        callOff = null;
        notBefore = Math.min(notBefore, clock.now());
        turn();
      });
      return;
    }
    underWay = publishAll()
      .catch((error: unknown) => log.error({ err: error }, 'the Homes could not be published'))
      .finally(() => {
        underWay = null;
        turn();
      });
  }

  return {
    async opened(member: string): Promise<void> {
      await memory.put(SLACK, homeKey(member), '{}');
      const wait = await publish(member);
      if (wait === null) return;
      wanted = true;
      notBefore = Math.max(notBefore, clock.now() + wait);
      turn();
    },
    /** Call after every commit. */
    changed(): void {
      wanted = true;
      turn();
    },
    /** Nothing more is published after this. */
    async settled(): Promise<void> {
      callOff?.();
      wanted = false;
      await underWay;
      callOff?.();
    },
  };
}

const homeKey = (member: string) => `home:${member}`;

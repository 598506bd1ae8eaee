import { setImmediate as nextTurn } from 'node:timers/promises';
import { chatSurface } from '../../adapters/chat/deliver.ts';
import type { Sent } from '../../adapters/chat/outcome.ts';
import type { Platform } from '../../adapters/chat/platform.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import type { Person } from '../../src/model/site.ts';
import type { ClaimedDelivery } from '../../src/ports.ts';
import { announcements } from '../../src/views/announce.ts';
import { mixed } from '../flow/harness.ts';
import { handTimers } from '../slack/by-hand.ts';

/** A part of a platform of no kind: what opens a message says its summary, the next parts one block each. */
interface Part {
  readonly text: string;
  readonly thread: boolean;
}

/** What stands of a message: its opening, how many parts it has besides, and whether it can be pressed. */
export interface Stood {
  readonly channel: string;
  text: string;
  pressed: boolean;
}

const { textsFor } = loadTexts();
/** The bell of the shift below that rings on and on; it is due at 09:46. */
const START = 'start-flush:rig-1:line:rig-1-1';
/** Speaks Spanish and works on the rig: has each ring alone as well. */
export const DIRECT = 'direct-pia';

const unanswered: Sent<never> = { kind: 'unclear', why: 'HTTP 503' };

/** One bell of a real shift that nobody answers, in a chat of no kind. */
export function older() {
  const play = mixed();
  const { state, pack } = play;
  const pia = { ...state.day.people.pia, language: 'es' } as Person;
  play.shift = { ...state, day: { ...state.day, people: { ...state.day.people, pia } } };
  play.pack = { ...pack, people: pack.people.map((one) => (one.id === pia.id ? pia : one)) };
  const timers = handTimers();
  const clock = { now: () => play.now };
  const memory = memorySurfaceMemory(clock);
  const stands = new Map<string, Stood>();
  const calls: string[] = [];
  const warned: string[] = [];
  /** What the next calls are answered with; null is yes, as is nothing. */
  const answers: Record<'post' | 'update' | 'remove', (Sent<never> | null)[]> = {
    post: [],
    update: [],
    remove: [],
  };
  /** Messages that cannot be changed. */
  const stuck = new Set<string>();
  let made = 0;

  const platform: Platform<Part> = {
    title: 'Yard',
    bellsApart: false,
    crewChannel: () => 'crew',
    directsAMinute: 100,
    openDirect: async (member) => ({ kind: 'ok', value: `direct-${member}` }),
    parts: ({ message }) => [
      { text: message.summary, thread: false },
      ...message.blocks
        .filter(({ kind }) => kind === 'note' || kind === 'buttons')
        .map(({ kind }) => ({ text: kind, thread: true })),
    ],
    async post({ channel, part }) {
      const refused = answers.post.shift();
      if (refused) return refused;
      made += 1;
      stands.set(`m${made}`, { channel, text: part.text, pressed: part.text === 'buttons' });
      calls.push(`post m${made}`);
      return { kind: 'ok', value: { id: `m${made}` } };
    },
    async update({ id, part }) {
      const refused = stuck.has(id) ? unanswered : answers.update.shift();
      if (refused) return refused;
      const one = stands.get(id);
      if (one === undefined) return { kind: 'gone', code: 'lost', why: 'It is not there.' };
      one.text = part.text;
      calls.push(`update ${id}`);
      return { kind: 'ok', value: null };
    },
    async remove({ id }) {
      const refused = answers.remove.shift();
      if (refused) return refused;
      stands.delete(id);
      calls.push(`remove ${id}`);
      return { kind: 'ok', value: null };
    },
    meaning: (code) => (code === 'lost' ? 'message-lost' : code === 'out' ? 'shut-out' : null),
  };
  const open = () =>
    chatSurface(
      {
        surface: 'yard',
        memberOf: (_pack, id) => id,
        memory,
        clock,
        pack: () => play.pack,
        texts: textsFor,
        shift: async () => play.state,
        following: async () => null,
        again: timers.again,
        log: {
          info: () => undefined,
          warn: (_facts: object, text: string) => void warned.push(text),
          error: (_facts: object, text: string) => void warned.push(text),
        },
      },
      platform,
    );
  let surface = open();

  function said(act: () => void): readonly ClaimedDelivery[] {
    const { state } = play;
    const from = play.journal.length;
    act();
    const all = announcements(state, play.state, play.journal.slice(from), textsFor);
    return all
      .map(({ seq, ...outgoing }, index) => ({
        ...outgoing,
        id: `${state.id}:${seq}:${index}:yard`,
        shift: state.id,
        surface: 'yard',
        queuedAt: play.now,
        attempt: 1,
        possibleRepeat: false,
      }))
      .filter(({ key }) => key.startsWith(`bell:${START}`));
  }

  return {
    play,
    memory,
    stands,
    calls,
    warned,
    answers,
    stuck,
    timers,
    deliver: (one: ClaimedDelivery) => surface.deliver(one),
    /** What the next ring of the bell is to say, each to its place. */
    nextRing(): readonly ClaimedDelivery[] {
      for (let round = 0; round < 200; round += 1) {
        play.at(Math.max(play.now, nextRingAt(play.state, play.now) ?? Number.NaN));
        const rings = said(() => play.ring());
        if (rings.length > 0) return rings;
      }
      throw new Error('the bell does not ring');
    },
    answer: (): readonly ClaimedDelivery[] =>
      said(() => play.do({ type: 'answer-bell', bell: START }, 'pia')),
    /** Another process in its place. */
    async restart(): Promise<void> {
      await surface.settled();
      surface = open();
    },
    stop: () => surface.settled(),
    turn,
    /** All that waits for a timer is done; how often one went off. */
    async rest(most = 100): Promise<number> {
      for (let turns = 0; turns < most; turns += 1) {
        await settle();
        if (timers.waits().length === 0) return turns;
        await turn(Math.max(...timers.waits()));
      }
      return most;
    },
    openings: (channel: string): readonly string[] =>
      [...stands.values()]
        .filter((one) => one.channel === channel && one.text !== 'note' && one.text !== 'buttons')
        .map(({ text }) => text),
    /** How many messages can be pressed there. */
    buttons: (channel: string): number =>
      [...stands.values()].filter((one) => one.channel === channel && one.pressed).length,
  };

  /** Time goes by and the timers go off. */
  async function turn(ms: number): Promise<void> {
    await settle();
    play.at(play.now + ms);
    timers.goOff();
    await settle();
  }
}

/** Everything here answers at once, so what has been begun is done after a few turns. */
async function settle(): Promise<void> {
  for (let turns = 0; turns < 5; turns += 1) await nextTurn();
}

export type World = ReturnType<typeof older>;

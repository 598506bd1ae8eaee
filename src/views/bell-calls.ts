import { fanDueAt } from '../flow/bells/fan.ts';
import { nameOf } from '../flow/decision.ts';
import type { BellLevel, BellRings } from '../model/shift.ts';
import type { RungBell } from './bell-words.ts';
import { at, type View } from './context.ts';

/** What a bell that rings again says of that; null on its first ring. */
export interface CallWords {
  /** Which call it is and since when: goes before its words, so that nobody takes it for a new one. */
  readonly again: string | null;
  /** Whom it was for before, and who answered. */
  readonly before: string | null;
}

/** BE11: which call this is, who was called before, and that nobody answered or who did. */
export function callWords(view: View, rung: RungBell): CallWords {
  const { texts, shift } = view;
  const rings = ringsSoFar(view, rung);
  const first = rings[0];
  if (!first || rings.length < 2) return { again: null, before: null };
  const again = texts.say('bell.again', { count: rings.length, time: at(view, first.at) });
  // A test fan is asked for and waits for no answer.
  if (rung.kind === 'fan-due') return { again, before: null };
  const levels = new Map<BellLevel, string>();
  for (const ring of rings.slice(0, -1))
    if (!levels.has(ring.level)) levels.set(ring.level, at(view, ring.at));
  const who = [...levels].map(([level, time]) => `${calledName(view, rung, level)} ${time}`).join('; ');
  const answer = shift.bells[rung.bell]?.answers?.findLast((one) => one.at <= rung.calledAt);
  if (!answer) return { again, before: texts.say('bell.before', { who }) };
  const person = nameOf(shift, answer.by);
  return { again, before: texts.say('bell.before-taken', { who, person, time: at(view, answer.at) }) };
}

/** Whom a level means: a bell to one person alone is for them, and once for the foreman as well. */
export function calledName({ texts, shift }: View, { person }: RungBell, level: BellLevel): string {
  const name = texts.say(`word.level.${level}`);
  if (person === null) return name;
  return level === 'crew' ? nameOf(shift, person) : `${nameOf(shift, person)}, ${name}`;
}

/** The rings for the present cause up to the one that is said. A test fan not done is asked for as a bell of its own. */
function ringsSoFar({ shift }: View, rung: RungBell): BellRings {
  const state = shift.bells[rung.bell];
  if (!state) return [];
  const from = rung.kind === 'fan-due' ? fanDueAt(shift, rung.rig ?? '') : null;
  const rings =
    from === null ? state.rings : [...state.past, ...state.rings].filter((ring) => ring.at >= from);
  return rings.filter((ring) => ring.at <= rung.calledAt);
}

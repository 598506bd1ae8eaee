import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { replay } from '../../src/engine.ts';
import { type RigClock, rigClocks, usedUp } from '../../src/flow/clocks.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import { asCounted } from '../../src/flow/standing.ts';
import type { CommandInput } from '../../src/model/command.ts';
import type { Mixed, RigState } from '../../src/model/shift.ts';
import { MINUTE } from '../../src/model/time.ts';
import { mixed, type Play } from './harness.ts';

const RIG = 'rig-1';
/** The coldest line of the test epoxy. */
const COLDEST_C = 20;
const times = ['useBy', 'startFlushBy', 'deadAt'] as const;
const places = ['pot', 'line'] as const;

type Move =
  | { readonly type: 'pot-temperature' | 'hose-temperature'; readonly c: number }
  | { readonly type: 'hose-warm' | 'pause' | 'resume' | 'reading' }
  | { readonly type: 'mix'; readonly pot: 'fresh' | 'on-top'; readonly paintC: number };

const c = fc.integer({ min: 5, max: 60 });
const move: fc.Arbitrary<Move> = fc.oneof(
  fc.record({ type: fc.constantFrom('pot-temperature' as const, 'hose-temperature' as const), c }),
  fc.record({
    type: fc.constantFrom('hose-warm' as const, 'pause' as const, 'resume' as const, 'pause' as const),
  }),
  fc.record({ type: fc.constant('reading' as const) }),
  fc.record({
    type: fc.constant('mix' as const),
    pot: fc.constantFrom('fresh' as const, 'on-top' as const),
    paintC: c,
  }),
);
const moves = fc.array(fc.record({ after: fc.integer({ min: 1, max: 25 }), move }), {
  minLength: 1,
  maxLength: 8,
});

function commandOf(one: Move): CommandInput {
  if (one.type === 'reading') return { type: 'take-reading', airC: 30, rhPct: 55, steelC: 24 };
  if (one.type === 'mix')
    return { ...one, type: 'mix-batch', rig: RIG, coating: 'epoxy', litres: 20 } as CommandInput;
  return { ...one, rig: RIG } as CommandInput;
}

const day = (sun: boolean) => mixed({ weather: { airC: 25, rhPct: 60, steelC: 20, sun } });
const clocksOf = (play: Play): ReadonlyMap<string, RigClock> =>
  new Map(rigClocks(play.state, RIG).map((clock) => [`${clock.where} ${clock.mixed.batch}`, clock]));

/** The warmest that paint is counted as from a moment on. */
function warmestAhead(paint: Mixed | null, now: number): number {
  if (!paint) return Number.NEGATIVE_INFINITY;
  const { history } = asCounted(paint);
  const ahead = history.filter((_step, i) => (history[i + 1]?.at ?? Number.POSITIVE_INFINITY) > now);
  return Math.max(...ahead.map((step) => step.c));
}

/** A reading that is cooler than what some paint was counted as: the only thing that may give time. */
function cooler(one: Move, state: RigState, now: number): boolean {
  if (one.type !== 'pot-temperature' && one.type !== 'hose-temperature') return false;
  const seen = one.type === 'pot-temperature' ? places.map((place) => state[place]) : [state.line];
  return seen.some((paint) => one.c < warmestAhead(paint, now));
}

describe('clocks on news, through the one door', () => {
  test('PL7, PL8, PL9, PL12 no time moves later but by a cooler reading, or by the end of a stand in the sun', () => {
    let asked = 0;
    fc.assert(
      fc.property(fc.boolean(), moves, (sun, run) => {
        const play = day(sun);
        for (const { after, move: one } of run) {
          play.now += after * MINUTE;
          const before = clocksOf(play);
          const state = play.rig();
          const done = play.try(commandOf(one), 'max');
          if (done.refused || cooler(one, state, play.now)) continue;
          const endOfStand = one.type === 'resume' && sun;
          for (const [key, { times: is }] of clocksOf(play)) {
            const was = before.get(key)?.times;
            if (!was || endOfStand) continue;
            asked += 1;
            for (const time of times) expect(is[time], `${one.type} ${time}`).toBeLessThanOrEqual(was[time]);
          }
        }
      }),
      { seed: 20, numRuns: 150 },
    );
    expect(asked).toBeGreaterThan(300);
  });

  test('PL7, PL8 a reading colder than the sheet gives no more time than its coldest line', () => {
    fc.assert(
      fc.property(
        fc.boolean(),
        moves,
        fc.integer({ min: 0, max: 19 }),
        fc.boolean(),
        (sun, run, cold, hose) => {
          const [play, other] = [day(sun), day(sun)];
          for (const one of [play, other])
            for (const { after, move: what } of run) {
              one.now += after * MINUTE;
              one.try(commandOf(what), 'max');
            }
          const type = hose ? 'hose-temperature' : 'pot-temperature';
          for (const one of [play, other]) one.now += MINUTE;
          play.do({ type, rig: RIG, c: cold }, 'max');
          other.do({ type, rig: RIG, c: COLDEST_C }, 'max');
          for (const [key, { times: is }] of clocksOf(play)) {
            const at = clocksOf(other).get(key)?.times;
            for (const time of times) expect(is[time]).toBeLessThanOrEqual(at?.[time] ?? is[time]);
          }
        },
      ),
      { seed: 20, numRuns: 80 },
    );
  });

  test('PL12, PL14 with sun the line is never later than the same day without, whatever is measured', () => {
    let earlier = 0;
    fc.assert(
      fc.property(moves, (run) => {
        const [sunny, shade] = [day(true), day(false)];
        for (const { after, move: one } of run) {
          for (const play of [sunny, shade]) {
            play.now += after * MINUTE;
            play.try(commandOf(one), 'max');
          }
          const without = clocksOf(shade);
          for (const [key, clock] of clocksOf(sunny)) {
            const was = without.get(key)?.times;
            if (!was) continue;
            for (const time of times) expect(clock.times[time]).toBeLessThanOrEqual(was[time]);
            if (clock.times.deadAt < was.deadAt) earlier += 1;
          }
        }
      }),
      { seed: 20, numRuns: 120 },
    );
    expect(earlier).toBeGreaterThan(50);
  });

  test('PL13 going on makes no paint younger, and gives no more time than the stand took', () => {
    let asked = 0;
    fc.assert(
      fc.property(moves, fc.integer({ min: 1, max: 90 }), (run, stood) => {
        const play = day(true);
        for (const { after, move: one } of run) {
          play.now += after * MINUTE;
          play.try(commandOf(one), 'max');
        }
        if (play.rig().pausedAt === null) play.do({ type: 'pause', rig: RIG }, 'max');
        play.now += stood * MINUTE;
        const before = clocksOf(play);
        const used = new Map(
          [...before].map(([key, clock]) => [key, usedUp(play.state.day, clock, play.now)]),
        );
        play.do({ type: 'resume', rig: RIG }, 'max');
        for (const [key, clock] of clocksOf(play)) {
          const was = used.get(key);
          if (was === undefined) continue;
          asked += 1;
          expect(usedUp(play.state.day, clock, play.now)).toBeCloseTo(was, 9);
        }
      }),
      { seed: 20, numRuns: 80 },
    );
    expect(asked).toBeGreaterThan(80);
  });

  test('EN3, PL12 the journal alone rebuilds the same clocks and the same next ring', () => {
    fc.assert(
      fc.property(moves, (run) => {
        const play = day(true);
        for (const { after, move: one } of run) {
          play.now += after * MINUTE;
          play.try(commandOf(one), 'max');
        }
        const again = replay(play.id, null, JSON.parse(JSON.stringify(play.journal)));
        expect(again).toEqual(play.state);
        if (!again) return;
        expect(rigClocks(again, RIG)).toEqual(rigClocks(play.state, RIG));
        expect(nextRingAt(again, play.now)).toBe(nextRingAt(play.state, play.now));
      }),
      { seed: 20, numRuns: 40 },
    );
  });
});

import fc from 'fast-check';
import type { PotLifePoint } from '../../src/trade/pot-life.ts';

/** Coating sheets with one to four points, 4 to 15 °C apart, each point's figure at most its colder neighbour's. */
export const anySheet: fc.Arbitrary<readonly PotLifePoint[]> = fc
  .record({
    firstC: fc.integer({ min: 0, max: 20 }),
    firstMinutes: fc.integer({ min: 120, max: 1440 }),
    steps: fc.array(
      fc.record({
        warmerBy: fc.integer({ min: 4, max: 15 }),
        q10: fc.double({ min: 1, max: 4, noNaN: true }),
      }),
      { maxLength: 3 },
    ),
  })
  .map(({ firstC, firstMinutes, steps }) => {
    let last = { c: firstC, minutes: firstMinutes };
    const points = [last];
    for (const { warmerBy, q10 } of steps) {
      last = { c: last.c + warmerBy, minutes: Math.max(1, last.minutes * q10 ** (-warmerBy / 10)) };
      points.push(last);
    }
    return points;
  });

/** Paint temperatures a site can see, in the sheet's range and well beyond it. */
export const anyPaintC = fc.double({ min: -5, max: 70, noNaN: true });

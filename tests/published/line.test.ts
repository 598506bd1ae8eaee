import { describe, expect, test } from 'vitest';
import { barToPsi, psiToBar } from '../../src/trade/convert.ts';
import { flushPlan, hoseVolumeL, stallBar } from '../../src/trade/line.ts';
import type { Sourced } from './row.ts';

const PUMP: Sourced = {
  source: 'force balance on the two pistons of an air-driven pump',
  mark: 'definition',
};
const CYLINDER: Sourced = { source: 'volume of a cylinder', mark: 'definition' };

describe('stall pressure', () => {
  const rows: readonly ({ ratio: number; air: number; bar: number; psi: number } & Sourced)[] = [
    { ratio: 30, air: 6, bar: 180, psi: 2611, ...PUMP },
    { ratio: 45, air: 5, bar: 225, psi: 3263, ...PUMP },
    { ratio: 56, air: 4, bar: 224, psi: 3249, ...PUMP },
    { ratio: 68, air: 4, bar: 272, psi: 3945, ...PUMP },
    { ratio: 30, air: 5, bar: 150, psi: 2176, ...PUMP },
    { ratio: 73, air: 4, bar: 292, psi: 4235, ...PUMP },
  ];
  test.each(rows)('$ratio:1 at $air bar: $bar bar, $psi psi [$mark: $source]', ({ ratio, air, bar, psi }) => {
    expect(stallBar(ratio, air)).toBe(bar);
    expect(Math.abs(barToPsi(stallBar(ratio, air)) - psi)).toBeLessThan(1);
  });

  test('30:1 at 80 psi of air: 2400 psi', () => {
    expect(barToPsi(stallBar(30, psiToBar(80)))).toBeCloseTo(2400, 6);
  });

  test.each([
    { psi: 100, bar: 6.895 },
    { psi: 1000, bar: 68.948 },
    { psi: 3000, bar: 206.843 },
  ])('$psi psi is $bar bar (NIST SP 811, factor 6.894 757 kPa, from memory)', ({ psi, bar }) => {
    expect(Math.abs(psiToBar(psi) - bar)).toBeLessThan(0.001);
  });

  test('UFC 3-190-06 atomises at 1000 to 3000 psi, which it also prints as 69 to 207 bar', () => {
    expect(psiToBar(1000)).toBeCloseTo(69, 0);
    expect(psiToBar(3000)).toBeCloseTo(207, 0);
  });
});

describe('hose volume', () => {
  const rows: readonly ({ boreMm: number; lengthM: number; litres: number } & Sourced)[] = [
    { boreMm: 6, lengthM: 15, litres: 0.4241, ...CYLINDER },
    { boreMm: 6.35, lengthM: 15.24, litres: 0.4826, ...CYLINDER },
    { boreMm: 9.525, lengthM: 15.24, litres: 1.0859, ...CYLINDER },
    { boreMm: 9.525, lengthM: 30.48, litres: 2.1719, ...CYLINDER },
    { boreMm: 10, lengthM: 30, litres: 2.3562, ...CYLINDER },
    { boreMm: 12, lengthM: 20, litres: 2.2619, ...CYLINDER },
    { boreMm: 12.7, lengthM: 30.48, litres: 3.8611, ...CYLINDER },
  ];
  test.each(rows)('$boreMm mm × $lengthM m: $litres L [$mark: $source]', ({ litres, ...section }) => {
    expect(Math.abs(hoseVolumeL([section]) - litres)).toBeLessThan(0.0005);
  });

  test('9.525 mm × 30.48 m at 1.2 L/min takes 1.810 min for one line volume', () => {
    const plan = flushPlan({
      hoses: [{ boreMm: 9.525, lengthM: 30.48 }],
      pumpAndFilterL: 0,
      drainLineL: 0,
      lineVolumesPrimary: 1,
      lineVolumesSecondary: 1,
      litresPerCycle: 0.06,
      cyclesPerMinute: 20,
      fixedMinutes: 0,
    });
    expect(Math.abs(plan.primaryMinutes - 1.81)).toBeLessThan(0.005);
  });
});

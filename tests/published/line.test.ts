import { describe, expect, test } from 'vitest';
import { freeAirLPerMin } from '../../src/trade/air.ts';
import { barToPsi, feetToMetres, psiToBar } from '../../src/trade/convert.ts';
import { flushPlan } from '../../src/trade/flush.ts';
import { gunBar, highestLineBar, STANDARD_GRAVITY, staticHeadBar } from '../../src/trade/head.ts';
import { hoseVolumeL, stallBar } from '../../src/trade/line.ts';
import { pressureAtHPa } from '../../src/trade/pressure-at.ts';
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

describe('static head', () => {
  const HYDROSTATICS: Sourced = { source: 'p = ρ·g·h with g = 9.80665 m/s²', mark: 'definition' };

  test('the standard acceleration of free fall is 9.80665 m/s² exactly (3rd CGPM, 1901)', () => {
    expect(STANDARD_GRAVITY).toBe(9.80665);
  });

  const rows: readonly ({ density: number; lift: number; bar: number } & Sourced)[] = [
    // The conventional metre and foot of water: 9806.65 Pa and 2989.067 Pa (NIST SP 811, appendix B).
    {
      density: 1000,
      lift: 1,
      bar: 0.0980665,
      source: 'NIST SP 811, conventional metre of water',
      mark: 'memory',
    },
    {
      density: 1000,
      lift: feetToMetres(1),
      bar: 0.02989067,
      source: 'NIST SP 811, conventional foot of water',
      mark: 'memory',
    },
    { density: 1000, lift: 10.19716, bar: 1, ...HYDROSTATICS },
    {
      density: 1000,
      lift: feetToMetres(2.3067),
      bar: psiToBar(1),
      source: 'handbook rule 2.31 ft a psi',
      mark: 'memory',
    },
    { density: 1400, lift: 30, bar: 4.118793, ...HYDROSTATICS },
    { density: 1400, lift: -30, bar: -4.118793, ...HYDROSTATICS },
    { density: 2800, lift: 50, bar: 13.72931, ...HYDROSTATICS },
  ];
  test.each(rows)('$density kg/m³ over $lift m: $bar bar [$mark: $source]', ({ density, lift, bar }) => {
    expect(Math.abs(staticHeadBar(density, lift) - bar)).toBeLessThan(2e-6);
  });

  test('45:1 at 5 bar, gun 40 m under the pump, 1.4 kg/L: 230.49 bar at the gun [definition]', () => {
    const line = { pumpBar: stallBar(45, 5), densityKgPerM3: 1400, liftM: -40 };
    expect(highestLineBar(line)).toBeCloseTo(225 + 5.491724, 5);
    expect(gunBar({ ...line, liftM: 40 })).toBeCloseTo(225 - 5.491724, 5);
  });
});

describe('free air', () => {
  const BOYLE: Sourced = { source: "equal strokes and Boyle's law", mark: 'definition' };
  const rows: readonly ({
    ratio: number;
    fluid: number;
    air: number;
    ambient: number;
    free: number;
  } & Sourced)[] = [
    // One litre of paint draws `ratio` litres of air at gauge + ambient: 45 × 1.2 × 6.013 ÷ 1.013.
    { ratio: 45, fluid: 1.2, air: 5, ambient: 1.013, free: 320.533, ...BOYLE },
    { ratio: 30, fluid: 0.6, air: 4, ambient: 1.013, free: 89.076, ...BOYLE },
    { ratio: 68, fluid: 2.5, air: 6, ambient: 1.013, free: 1176.91, ...BOYLE },
    { ratio: 45, fluid: 1.2, air: 5, ambient: 0.795, free: 393.623, ...BOYLE },
  ];
  test.each(rows)(
    '$ratio:1, $fluid L/min, $air bar, $ambient bar around: $free L/min [$mark: $source]',
    ({ ratio, fluid, air, ambient, free }) => {
      const found = freeAirLPerMin({ ratio, fluidLPerMin: fluid, airBar: air, ambientBar: ambient });
      expect(Math.abs(found - free)).toBeLessThan(0.005);
    },
  );

  test('at 2000 m the air around has 795 hPa (ISO 2533 standard atmosphere, from memory: 794.95)', () => {
    expect(Math.abs(pressureAtHPa(2000) - 794.95)).toBeLessThan(0.1);
  });
});

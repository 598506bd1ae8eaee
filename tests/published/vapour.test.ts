import { describe, expect, test } from 'vitest';
import { usGallonsToLitres } from '../../src/trade/convert.ts';
import { commonSolvents, type SolventId, worstCommonSolvent } from '../../src/trade/solvents.ts';
import {
  dilutionAirM3PerL,
  litresToLelFraction,
  molarVolumeL,
  pctOfLel,
  ppmAtLelFraction,
  type SolventVapour,
  vapourLitresPerLitre,
  vapourPct,
} from '../../src/trade/vapour.ts';
import type { Sourced } from './row.ts';

/** 70 °F, at which the regulation's table gives vapour volumes. */
const AT_70_F = (70 - 32) / 1.8;
const M3_PER_FT3 = 0.3048 ** 3;

const IDEAL_GAS: Sourced = {
  source: 'ideal gas law with the molar gas constant of the SI',
  mark: 'definition',
};
const OSHA: Sourced = {
  source: '29 CFR 1910.94(c)(6)(ii), table G-11 and its formula',
  mark: 'memory',
};
const BY_HAND: Sourced = {
  source: 'ideal gas at 70 °F and 1 atm, even mixing, vapour pushing no air out',
  mark: 'definition',
};
const NIOSH: Sourced = { source: 'NIOSH Pocket Guide, exposure limit of xylene 100 ppm', mark: 'read' };

const solventOf = (id: SolventId, lelPct?: number): SolventVapour => {
  const found = commonSolvents.find((one) => one.id === id);
  if (!found) throw new Error(`no ${id} among the common solvents`);
  return lelPct === undefined ? found : { ...found, lelPct };
};

/** A solvent by molar mass (g/mol) and density (kg/L): vapour density is molar mass over that of air. */
const substance = (molar: number, densityKgPerL: number, lelPct = 1): SolventVapour => ({
  lelPct,
  densityKgPerL,
  vapourDensity: molar / 28.96,
});

describe('molar volume', () => {
  const rows: readonly ({ c: number; litres: number } & Sourced)[] = [
    { c: 0, litres: 22.41396954, source: 'CODATA molar volume of an ideal gas at 273.15 K', mark: 'memory' },
    { c: 25, litres: 24.4654, ...IDEAL_GAS },
    { c: AT_70_F, litres: 24.146, ...IDEAL_GAS },
  ];
  test.each(rows)('$c °C, 1 atm: $litres L [$mark: $source]', ({ c, litres }) => {
    expect(Math.abs(molarVolumeL({ c }) - litres)).toBeLessThan(0.001);
  });

  test('at 1000 hPa and 0 °C it is 22.711 L, the older standard state of IUPAC (from memory)', () => {
    expect(molarVolumeL({ c: 0, pressureHPa: 1000 })).toBeCloseTo(22.711, 3);
  });
});

describe('vapour of a US gallon at 70 °F, ft³, against the table of the regulation', () => {
  // Isopropanol, n-propanol and n-propyl acetate differ from the table by 3 to 4 % and are left out; molar masses and
  // densities from handbooks, from memory.
  const rows: readonly ({ name: string; molar: number; density: number; ft3: number } & Sourced)[] = [
    { name: 'acetone', molar: 58.08, density: 0.791, ft3: 44, ...OSHA },
    { name: 'benzene', molar: 78.11, density: 0.876, ft3: 36.8, ...OSHA },
    { name: 'n-butyl acetate', molar: 116.16, density: 0.882, ft3: 24.8, ...OSHA },
    { name: 'n-butyl alcohol', molar: 74.12, density: 0.81, ft3: 35.2, ...OSHA },
    { name: 'cyclohexanone', molar: 98.14, density: 0.948, ft3: 31.2, ...OSHA },
    { name: 'ethyl acetate', molar: 88.11, density: 0.902, ft3: 32.8, ...OSHA },
    { name: 'ethyl alcohol', molar: 46.07, density: 0.789, ft3: 55.2, ...OSHA },
    { name: 'methyl alcohol', molar: 32.04, density: 0.792, ft3: 80.8, ...OSHA },
    { name: 'methyl ethyl ketone', molar: 72.11, density: 0.805, ft3: 36, ...OSHA },
    { name: 'toluene', molar: 92.14, density: 0.867, ft3: 30.4, ...OSHA },
    { name: 'xylene (o)', molar: 106.17, density: 0.88, ft3: 26.4, ...OSHA },
  ];
  test.each(rows)('$name: $ft3 ft³ within 2 % [$mark: $source]', ({ molar, density, ft3 }) => {
    const litres = vapourLitresPerLitre(substance(molar, density), { c: AT_70_F }) * usGallonsToLitres(1);
    expect(Math.abs(litres / 1000 / M3_PER_FT3 / ft3 - 1)).toBeLessThan(0.02);
  });
});

describe('air to stay under 25 % of the limit, ft³ for a US gallon', () => {
  /** What the table says of a solvent, turned into a density that gives exactly its vapour volume. */
  const tabled = (lelPct: number, ft3PerGallon: number): SolventVapour => {
    const litresPerLitre = (ft3PerGallon * M3_PER_FT3 * 1000) / usGallonsToLitres(1);
    const unit = vapourLitresPerLitre({ lelPct, vapourDensity: 3, densityKgPerL: 1 }, { c: AT_70_F });
    return { lelPct, vapourDensity: 3 * (unit / litresPerLitre), densityKgPerL: 1 };
  };
  const rows: readonly ({ name: string; lel: number; ft3: number; air: number; perL: number } & Sourced)[] = [
    { name: 'toluene (printed example)', lel: 1.4, ft3: 30.4, air: 8564, perL: 64.06, ...OSHA },
    { name: 'xylene (o)', lel: 1, ft3: 26.4, air: 10454.4, perL: 78.2, ...OSHA },
    { name: 'methyl ethyl ketone', lel: 1.8, ft3: 36, air: 7856, perL: 58.77, ...OSHA },
    { name: 'acetone', lel: 2.6, ft3: 44, air: 6593.2, perL: 49.32, ...OSHA },
    { name: 'n-butyl acetate', lel: 1.7, ft3: 24.8, air: 5736.1, perL: 42.91, ...OSHA },
    { name: 'n-butyl alcohol', lel: 1.4, ft3: 35.2, air: 9916.3, perL: 74.18, ...OSHA },
    { name: 'ethyl acetate', lel: 2.5, ft3: 32.8, air: 5116.8, perL: 38.28, ...OSHA },
    { name: 'isopropyl alcohol', lel: 2, ft3: 44, air: 8624, perL: 64.51, ...OSHA },
    { name: 'cyclohexanone', lel: 1.1, ft3: 31.2, air: 11220.7, perL: 83.94, ...OSHA },
    { name: '100-flash naphtha', lel: 1, ft3: 23.2, air: 9187.2, perL: 68.73, ...OSHA },
  ];
  test.each(rows)('$name: $air ft³, $perL m³ a litre [$mark: $source]', ({ lel, ft3, air, perL }) => {
    const found = dilutionAirM3PerL({ solvent: tabled(lel, ft3), fractionPct: 25, c: AT_70_F });
    expect(Math.abs(found.regulatoryM3 - perL)).toBeLessThan(0.01);
    const ft3Air = (found.regulatoryM3 / M3_PER_FT3) * usGallonsToLitres(1);
    expect(Math.abs(ft3Air - air)).toBeLessThan(0.2);
  });

  test('the exact balance needs about 1 % more: toluene 8655 ft³ (worked out by hand from the balance of volumes)', () => {
    const found = dilutionAirM3PerL({ solvent: tabled(1.4, 30.4), fractionPct: 25, c: AT_70_F });
    // (100 − 0.35) × 30.4 ÷ 0.35
    expect((found.exactM3 / M3_PER_FT3) * usGallonsToLitres(1)).toBeCloseTo(8655.3, 0);
    expect(found.neededM3).toBe(found.exactM3);
  });
});

describe('vapour in a closed space', () => {
  interface Row extends Sourced {
    readonly name: string;
    readonly solvent: SolventVapour;
    readonly litres: number;
    readonly spaceM3: number;
    readonly pct: number;
    readonly ofLel: number;
    readonly tenthLitres: number;
  }
  const xylene = substance(106.17, 0.864);
  const rows: readonly Row[] = [
    {
      name: 'm-xylene',
      solvent: { ...xylene, lelPct: 1 },
      litres: 1,
      spaceM3: 20,
      pct: 0.983,
      ofLel: 98.3,
      tenthLitres: 0.102,
      ...BY_HAND,
    },
    {
      name: 'm-xylene',
      solvent: { ...xylene, lelPct: 1.1 },
      litres: 1,
      spaceM3: 20,
      pct: 0.983,
      ofLel: 89.4,
      tenthLitres: 0.112,
      ...BY_HAND,
    },
    {
      name: 'toluene',
      solvent: solventOf('toluene', 1.1),
      litres: 1,
      spaceM3: 20,
      pct: 1.136,
      ofLel: 103.3,
      tenthLitres: 0.097,
      ...BY_HAND,
    },
    {
      name: 'MEK',
      solvent: solventOf('mek', 1.4),
      litres: 1,
      spaceM3: 20,
      pct: 1.349,
      ofLel: 96.3,
      tenthLitres: 0.104,
      ...BY_HAND,
    },
    {
      name: 'acetone',
      solvent: solventOf('acetone', 2.5),
      litres: 1,
      spaceM3: 50,
      pct: 0.657,
      ofLel: 26.3,
      tenthLitres: 0.381,
      ...BY_HAND,
    },
    {
      name: 'n-butyl acetate',
      solvent: solventOf('n-butyl-acetate', 1.7),
      litres: 1,
      spaceM3: 30,
      pct: 0.611,
      ofLel: 36,
      tenthLitres: 0.278,
      ...BY_HAND,
    },
    {
      name: 'n-butyl acetate',
      solvent: solventOf('n-butyl-acetate', 1.2),
      litres: 1,
      spaceM3: 30,
      pct: 0.611,
      ofLel: 50.9,
      tenthLitres: 0.196,
      ...BY_HAND,
    },
  ];
  test.each(rows)(
    '$litres L of $name in $spaceM3 m³: $pct %, $ofLel % of its limit [$mark: $source]',
    (row) => {
      const { pct, ofLel, tenthLitres, solvent, spaceM3, litres } = row;
      const at = { solvent, spaceM3, c: AT_70_F };
      expect(Math.abs(vapourPct({ ...at, litres }) / pct - 1)).toBeLessThan(0.02);
      expect(Math.abs(pctOfLel({ ...at, litres }) / ofLel - 1)).toBeLessThan(0.02);
      expect(Math.abs(litresToLelFraction({ ...at, fractionPct: 10 }) / tenthLitres - 1)).toBeLessThan(0.02);
    },
  );
});

describe('an explosive-limit meter is no health monitor', () => {
  test(`25 % of the limit of xylene is more than 20 times its exposure limit [${NIOSH.mark}: ${NIOSH.source}]`, () => {
    const xylene = solventOf('xylene');
    expect(ppmAtLelFraction(xylene.lelPct, 25)).toBeCloseTo(2250, 6);
    expect(ppmAtLelFraction(1.1, 25)).toBeCloseTo(2750, 6);
    expect(ppmAtLelFraction(xylene.lelPct, 25) / 100).toBeGreaterThan(20);
  });

  test('every common solvent is over its exposure limit at 10 % of its explosive limit, most of them far over', () => {
    for (const { lelPct, exposureLimitPpm } of commonSolvents)
      if (exposureLimitPpm !== null)
        expect(ppmAtLelFraction(lelPct, 10)).toBeGreaterThan(4 * exposureLimitPpm);
  });

  test('10 % of the limit in ppm: MEK 1400, n-butanol 1400, acetone 2500 (NIOSH immediately-dangerous sheets, read)', () => {
    expect(ppmAtLelFraction(solventOf('mek').lelPct, 10)).toBeCloseTo(1400, 6);
    expect(ppmAtLelFraction(solventOf('n-butanol').lelPct, 10)).toBeCloseTo(1400, 6);
    expect(ppmAtLelFraction(solventOf('acetone').lelPct, 10)).toBeCloseTo(2500, 6);
  });
});

test('the worst of the common solvents is the one that needs most air a litre: ethylbenzene (worked out by hand)', () => {
  // 867 ÷ 106.17 × 24.146 = 197 L of vapour over a limit of 0.8 %: 246; toluene 227, white spirit 224, xylene 218.
  expect(worstCommonSolvent().id).toBe('ethylbenzene');
});

import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { type SitePack, sitePackSchema } from '../../src/model/site.ts';
import { batchMessage } from '../../src/views/batch.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { refusalText } from '../../src/views/refusal.ts';
import { whyItems } from '../../src/views/why/index.ts';
import { aBatch, mixed, type Play, ready } from '../flow/harness.ts';
import { aJob, aPack } from '../flow/pack.ts';

const { textsFor } = loadTexts();
const texts = textsFor('en');
const viewOf = (play: Play) => ({ shift: play.state, texts, now: play.now });

/** The invented epoxy with a dry film range; null is a sheet without one. */
function withRange(dft: { min: number; max: number } | null): SitePack {
  const pack = aPack();
  const coatings = pack.coatings.map((sheet) => (sheet.id === 'epoxy' && dft ? { ...sheet, dft } : sheet));
  return sitePackSchema.parse({ ...pack, coatings });
}
const range = withRange({ min: 100, max: 250 });
const brief = (play: Play) => plainText(briefingMessage(viewOf(play)));
const batchOf = (play: Play) => {
  const batch = play.rig().batches.at(-1);
  if (!batch) throw new Error('no batch');
  return plainText(batchMessage(viewOf(play), batch));
};

describe('wet film and litres in the briefing', () => {
  // 60 m² × 150 µm ÷ 800 ÷ 0.7 = 16.07 L; 150 ÷ 0.8 = 187.5 µm, 100 ÷ 0.8 = 125, 250 ÷ 0.8 = 312.5.
  test('the job line has the wet film with its band, rounded inwards, and litres with the loss', () => {
    expect(brief(ready({}, range))).toContain(
      '150 µm dry, wet film 188 µm (125 µm to 312 µm). 60 m²: about 17 L of paint, 30 % of it lost. Rig One.',
    );
  });

  test('the loss, profile and thinner of the job go before those of the site', () => {
    // 60 × (150 + 20) ÷ 800 ÷ 0.6 = 21.25 L, and 5 % of it 1.06 L.
    const jobs = [aJob({ lossPct: 40, profileUm: 20, thinnerPct: 5 })];
    expect(brief(ready({ jobs }, range))).toContain('about 22 L of paint and 1 L thinner, 40 % of it lost');
  });

  test.each([
    [100, '125 µm, never less: thin end of the sheet (125 µm to 312 µm)'],
    [250, '312 µm, never more: thick end of the sheet (125 µm to 312 µm)'],
  ])('a target of %d µm at an end of the range says which way there is no room', (dftUm, words) => {
    expect(brief(ready({ jobs: [aJob({ dftUm })] }, range))).toContain(`wet film ${words}`);
  });

  test('no range and a range of one figure are said', () => {
    expect(brief(ready({}, withRange(null)))).toContain('wet film 188 µm (no range on the sheet)');
    expect(brief(ready({}, withRange({ min: 150, max: 150 })))).toContain(
      'the sheet leaves no room to either side',
    );
  });
});

describe('wet film when a batch is logged', () => {
  test('counts the thinner that really went in', () => {
    const play = ready({}, range).at('08:00');
    play.mix({ thinnerL: 1 });
    // 150 × 105 ÷ 80 = 196.9, 100 × 105 ÷ 80 = 131.25, 250 × 105 ÷ 80 = 328.1.
    expect(batchOf(play)).toContain('Wet film target: 197 µm (132 µm to 328 µm) for 150 µm dry');
  });

  test('names the areas when they are to get different films', () => {
    const jobs = [aJob(), aJob({ area: 'Gate 2', dftUm: 200 }), aJob({ area: 'Gate 3' })];
    const said = batchOf(mixed({ jobs }, range));
    expect(said).toContain('Wet film, Gate 1, Gate 3: 188 µm');
    expect(said).toContain('Wet film, Gate 2: 250 µm');
  });
});

describe('a refused mix in words', () => {
  const said = (more: object) => refusalText(ready().refused({ ...aBatch, ...more }, 'max'), texts);

  test('BA3 names the nearest whole kits', () => {
    expect(said({ litres: 30 })).toContain('Mix 1 kit (20 L) or 2 kits (40 L), or measure both parts');
    expect(said({ litres: 70 })).toContain('Mix 3 kits (60 L) or 4 kits (80 L)');
    expect(said({ litres: 10 })).toContain('Mix 1 kit (20 L), or measure both parts');
  });

  test('BA3 names the hardener that was needed, and whether it is short or too much', () => {
    expect(said({ litres: 10, aL: 8.16, bL: 1.84 })).toContain(
      '8.16 L base need 2.04 L hardener, but it is 1.84 L: 9.8 % short.',
    );
    expect(said({ litres: 10, aL: 7.84, bL: 2.16 })).toContain('10.2 % too much.');
  });
});

describe('where the figures of paint come from', () => {
  const space = { volumeM3: 60, airM3PerMin: 20 };
  const vapour = { lelPct: 1, vapourDensity: 3.7, densityKgPerL: 0.87 };
  const coatings = range.coatings.map((sheet) => ({ ...sheet, vapour: { paint: vapour, flush: vapour } }));
  const play = mixed({ surroundings: 'confined', space }, sitePackSchema.parse({ ...range, coatings }));
  const item = (topic: string, from: Play = play) =>
    whyItems(viewOf(from)).find((one) => one.topic === topic);

  test('wet film, litres and the kit are shown with figures that can be worked out again', () => {
    expect(item('wet-film')?.formula).toContain('150 µm × (100 + 0) ÷ 80 = 187.5 µm');
    expect(item('wet-film')?.source).toMatch(/inspector.*ISO 19840/);
    expect(item('litres')?.formula).toContain(
      '60 m² × (150 + 0) µm ÷ (10 × 80) ÷ (1 − 30 ÷ 100) = 16.1 L, thinner not counted. 30 % of the paint used is 42.9 %',
    );
    // 10 × 80 ÷ 150 = 5.33; 5.333 ÷ 0.0245424 = 217.3 ft²/US gal.
    expect(item('litres')?.formula).toContain('In theory 5.33 m²/L (217 ft²/US gal)');
    expect(item('kit')?.formula).toContain('20 × 4 ÷ (4 + 1) = 16 L; 20 × 1 ÷ (4 + 1) = 4 L.');
  });

  test('the air shows both formulas and says what it is not', () => {
    const found = item('vapour-air');
    // 870 ÷ (3.7 × 28.96) × 24.055 = 195.3 L; (100 − 0.1) × 195.3 ÷ 0.1 ÷ 1000 = 195.1; 10 × 99 × 195.3 ÷ 1 ÷ 1000 = 193.4.
    expect(found?.formula).toContain('× 24.055 L = 195.3 L');
    expect(found?.formula).toMatch(/exact: .* = 195\.1 m³; by the regulation’s formula: .* = 193\.4 m³/);
    expect(found?.source).toMatch(/from memory.*pockets are worse.*no gas test/);
    expect(item('vapour-fill')?.formula).toContain('60 m³ × 1000 × 1 ÷ 100 × 10 ÷ 100 ÷ 195.3 = 0.307 L.');
  });

  test('in the open there is no such figure', () => {
    const open = mixed({ surroundings: 'open-air', space }, range);
    expect(item('vapour-air', open)).toBeUndefined();
    expect(item('vapour-fill', open)).toBeUndefined();
  });
});

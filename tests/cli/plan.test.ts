import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { planJsonSchema } from '../../adapters/cli/plan-schema.ts';
import { demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { tempDir } from '../files/temp-dir.ts';
import { expectNoPin, expectRefusal, expectResult, run } from './potbell.ts';

const dayOne = join(demoSiteFolder(), 'days', 'day-1.yaml');

/** The demo day with one word changed. */
function dayWith(from: string, to: string): { readonly file: string; readonly line: number } {
  const file = join(tempDir(), 'day.yaml');
  copyFileSync(dayOne, file);
  const text = readFileSync(file, 'utf8');
  expect(text).toContain(from);
  writeFileSync(file, text.replace(from, to));
  return { file, line: text.slice(0, text.indexOf(from)).split('\n').length };
}

describe.concurrent('potbell plan', () => {
  test('prints what to mix when, as a picture of characters and in words', async () => {
    const end = await run(['plan', dayOne]);
    expectResult(end);
    expectNoPin(end.out);
    expect(end.out).toMatch(/^Plan: Rig 1 \(large pump\): all of it fits, flushed by \d\d:\d\d\./);
    expect(end.out).toContain('A plan, not a permission and not an order.');
    expect(end.out).toMatch(/^ {4}\|\/+ *=+f+/m);
    // The forecast is outside the limits until eight; three kits of 20 L, no pot over 40 L.
    expect(end.out).toContain('1. Mix 08:00: 40 L. 2 full kits. Base 32 L, hardener 8 L, thinner 1.2 L.');
    expect(end.out).toContain('20 L. 1 full kit. Base 16 L, hardener 4 L, thinner 0.6 L.');
    expect(end.out).toMatch(/Last mix to spray and flush before the end 16:30: 15:\d\d/);
  });

  test('--json is the documented shape, whose numbers agree with each other', async () => {
    const end = await run(['plan', dayOne, '--json']);
    expectResult(end);
    const plan = planJsonSchema.parse(JSON.parse(end.out));
    expect(plan).toMatchObject({ version: 1, date: '2026-06-08', timeZone: 'Europe/Lisbon' });
    expect(plan.startsAt).toBe('2026-06-08T07:30:00+01:00');
    const [rig] = plan.rigs;
    if (!rig || 'refused' in rig) throw new Error('rig 1 has no plan');
    expect(rig.feasible).toBe(true);
    for (const batch of rig.batches) {
      expect(batch.baseL + batch.hardenerL).toBeCloseTo(batch.mixedL, 3);
      expect(batch.outOfLineAt <= (batch.useBy ?? '')).toBe(true);
    }
    const mixed = rig.batches.reduce((sum, { mixedL }) => sum + mixedL, 0);
    expect(rig.totals.coatings[0]).toMatchObject({ coating: 'epoxy-mid', mixedL: mixed, kits: 3 });
  });

  test('every field of the shape is in the page that describes it', () => {
    const page = readFileSync(join(demoSiteFolder(), '..', '..', 'docs', 'plan.md'), 'utf8');
    const source = readFileSync(
      join(demoSiteFolder(), '..', '..', 'adapters', 'cli', 'plan-schema.ts'),
      'utf8',
    );
    const batch = /const batchSchema = z\.strictObject\(\{([\s\S]*?)\}\)/.exec(source)?.[1] ?? '';
    const fields = [...batch.matchAll(/^ {2}(\w+):/gm)].map(([, name]) => name ?? '');
    expect(fields.length).toBeGreaterThan(15);
    for (const field of fields.filter((name) => !['number', 'area', 'coating'].includes(name)))
      expect(page).toContain(`\`${field}\``);
  });

  test('a day that does not fit is answered with why and what would help, and that is no fault', async () => {
    const { file } = dayWith('areaM2: 224', 'areaM2: 2000');
    const end = await run(['plan', file]);
    expectResult(end);
    expect(end.out).toMatch(/! It does not all fit: \d+ m² of 2000 m²\./);
    expect(end.out).toContain('Nearest change: ');
    expect(end.out).toMatch(/leave \d+ m² for another day/);
  });

  test('a broken day is refused with file, line and field', async () => {
    const { file, line } = dayWith('areaM2: 224', 'areaM2: lots');
    expectRefusal(await run(['plan', file]), new RegExp(`${file}:${line}:\\d+ .*areaM2`));
  });

  test('a forecast line that is no time of day is refused with its line', async () => {
    const { file, line } = dayWith('at: "08:00"', 'at: "8:00"');
    expectRefusal(await run(['plan', file]), new RegExp(`${file}:${line}:\\d+ .*forecast`));
  });

  test('a file that is not there is said so', async () => {
    expectRefusal(await run(['plan', join(tempDir(), 'no-day.yaml')]), /no-day\.yaml/);
  });
});

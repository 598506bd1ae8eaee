import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { fieldUnit } from '../../src/forms/field-units.ts';
import { buildForm, readForm } from '../../src/forms/forms.ts';
import type { FormRef } from '../../src/message/action.ts';
import { isQuantityUnit, type Units } from '../../src/units/quantity.ts';
import { mixed, ready } from '../flow/harness.ts';
import { aPack } from '../flow/pack.ts';

const ref = (id: FormRef['id'], about: FormRef['about'] = {}): FormRef => ({ id, about });

function site(units: Units) {
  const base = aPack();
  const pack = { ...base, site: { ...base.site, units } };
  const texts = loadTexts(undefined, { units }).textsFor('en');
  const play = mixed({}, pack);
  return { pack, shift: play.state, previous: null, now: play.now, texts, viewer: 'finn' };
}

const reading = { airC: '68', rhPct: '60', wetC: '', steelC: '70', wbgtC: '', place: '' };

describe('forms in the units of the site', () => {
  test('a US site is asked in °F and its answer is kept in °C', () => {
    const context = site('us');
    const built = buildForm(ref('take-reading'), context);
    const units = built.ok
      ? built.form.fields.flatMap((one) => (one.kind === 'number' ? [one.unit] : []))
      : [];
    expect(units).toEqual(expect.arrayContaining(['°F', '%']));
    expect(units).not.toContain('°C');
    const read = readForm(ref('take-reading'), reading, context);
    expect(read).toMatchObject({ ok: true, command: { airC: 20, rhPct: 60 } });
  });

  test('a unit that is typed goes before the unit of the site', () => {
    const typed = { ...reading, airC: '20 C', steelC: '70 F' };
    for (const units of ['us', 'metric'] as const) {
      const read = readForm(ref('take-reading'), typed, site(units));
      expect(read.ok && read.command.type === 'take-reading' ? read.command.airC : null).toBe(20);
      expect(read.ok && read.command.type === 'take-reading' ? read.command.steelC : null).toBeCloseTo(
        21.11,
        2,
      );
    }
  });

  test('a wrong unit, an imperial gallon and a limit are said in the units of the site', () => {
    const context = site('us');
    const problems = (values: Record<string, string>, form: FormRef) => {
      const read = readForm(form, values, context);
      return read.ok ? [] : read.problems.map(({ message }) => message);
    };
    expect(problems({ ...reading, airC: '20 bar' }, ref('take-reading'))).toEqual([
      'That unit does not belong here. Write one of °C, °F, or no unit.',
    ]);
    expect(problems({ ...reading, airC: '400' }, ref('take-reading'))).toEqual([
      'At most 176 °F. Is it the right unit?',
    ]);
    expect(problems({ sprayedL: '5 imp gal' }, ref('line-renewed', { rig: 'rig-1' }))).toEqual([
      'Imperial gallons are not known here. Write litres or US gallons.',
    ]);
  });

  test('what a day form is filled with comes back as it was, so that a change changes nothing by itself', () => {
    const context = site('us');
    const about = { base: String(context.shift.briefing.revision) };
    const built = buildForm(ref('post-day', about), context);
    if (!built.ok) throw new Error('no form');
    const values = Object.fromEntries(
      built.form.fields.flatMap((field) => {
        if (field.kind === 'group') return [];
        const { value } = field;
        return [[field.name, Array.isArray(value) ? value : String(value ?? '')] as const];
      }),
    );
    const read = readForm(ref('post-day', about), values, context);
    if (!read.ok || read.command.type !== 'post-day') throw new Error(JSON.stringify(read));
    expect(read.command.entry).toEqual(context.shift.day.entry);
  });

  test('every number field of every form that is there now has the unit its name stands for', () => {
    const context = site('metric');
    const ids: readonly FormRef['id'][] = [
      'post-day',
      'take-reading',
      'mix-batch',
      'pot-temperature',
      'hose-temperature',
      'pot-empty',
      'line-renewed',
      'test-fan',
      'mend-mix-temperature',
    ];
    const fields = ids.flatMap((id) => {
      const built = buildForm(ref(id, { rig: 'rig-1' }), context);
      return built.ok ? built.form.fields : [];
    });
    const numbers = fields.flatMap((one) => (one.kind === 'number' ? [one] : []));
    expect(numbers.length).toBeGreaterThan(20);
    for (const { name, unit } of numbers)
      expect([name, fieldUnit(name)]).toEqual([name, isQuantityUnit(unit) ? unit : null]);
  });

  test('a metric site without paint in a line asks in °C', () => {
    const play = ready();
    const built = buildForm(ref('take-reading'), { ...site('metric'), shift: play.state });
    expect(built.ok && built.form.fields.some((one) => one.kind === 'number' && one.unit === '°C')).toBe(
      true,
    );
  });
});

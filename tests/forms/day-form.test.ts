import { expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { buildForm, type FormContext, readForm } from '../../src/forms/forms.ts';
import type { Form, FormValues } from '../../src/message/form.ts';
import { formIds } from '../../src/message/form-ids.ts';
import type { Shift } from '../../src/model/shift.ts';
import { mixed, type Play, posted, ready } from '../flow/harness.ts';
import { aJob, aPack, t } from '../flow/pack.ts';

const texts = loadTexts().textsFor('en');

function context(play: Play | null, more: Partial<FormContext> = {}): FormContext {
  return {
    pack: play?.pack ?? aPack(),
    shift: play?.shift ?? null,
    previous: null,
    now: play?.now ?? t('06:00'),
    texts,
    viewer: 'finn',
    ...more,
  };
}

function built(id: (typeof formIds)[number], at: FormContext, about: Record<string, string> = {}): Form {
  const made = buildForm({ id, about }, at);
  if (!made.ok) throw new Error(made.shown.summary);
  return made.form;
}

/** What a person sends who changes nothing on the form. */
function untouched(form: Form): FormValues {
  return Object.fromEntries(
    form.fields.flatMap((field) =>
      field.kind === 'group'
        ? []
        : [[field.name, field.kind === 'choices' ? field.value : String(field.value ?? '')] as const],
    ),
  );
}

test('DE6 the form of a running day, sent untouched, is that day', () => {
  const play = posted({ breaks: [{ from: '09:30', to: '09:45' }], notes: 'Crane' });
  const at = context(play);
  const read = readForm({ id: 'post-day', about: {} }, untouched(built('post-day', at)), at);
  expect(read).toEqual({ ok: true, command: { type: 'post-day', entry: play.state.day.entry } });
  expect(play.refused({ type: 'post-day', entry: play.state.day.entry }).text).toBe('refusal.day-unchanged');
});

test('DE6 what a job seldom needs and the space of the day come back as they were', () => {
  const job = aJob({ lossPct: 45, profileUm: 25, liftM: -12.5, tip: '517', preparedAt: '06:00' });
  const play = posted({
    surroundings: 'confined',
    space: { volumeM3: 40, airM3PerMin: 0 },
    jobs: [job, aJob({ area: 'Gate 2' })],
  });
  const at = context(play);
  const form = built('post-day', at);
  const read = readForm({ id: 'post-day', about: {} }, untouched(form), at);
  expect(read).toEqual({ ok: true, command: { type: 'post-day', entry: play.state.day.entry } });
  const folded = form.fields.filter((field) => field.kind === 'group' && field.folded === true);
  expect(folded.map(({ name }) => name)).toEqual(['jobs.0.more', 'jobs.1.more', 'jobs.2.more', 'space']);
});

test('DE6 emptied they are left out, so that the site and the sheet count again', () => {
  const play = posted({
    surroundings: 'enclosed',
    space: { volumeM3: 40, airM3PerMin: 9 },
    jobs: [aJob({ lossPct: 45, tip: '517' })],
  });
  const at = context(play);
  const values = { ...untouched(built('post-day', at)), 'jobs.0.lossPct': '', 'jobs.0.tip': '' };
  const read = readForm(
    { id: 'post-day', about: {} },
    { ...values, 'space.volumeM3': '', 'space.airM3PerMin': '' },
    at,
  );
  const entry = read.ok && read.command.type === 'post-day' ? read.command.entry : null;
  expect(entry).not.toBeNull();
  expect(entry).not.toHaveProperty('space');
  expect(entry?.jobs[0]).not.toHaveProperty('lossPct');
  expect(entry?.jobs[0]).not.toHaveProperty('tip');
});

test.each([
  ['a space without its air', { 'space.volumeM3': '40' }, 'space.airM3PerMin'],
  ['air without the space', { 'space.airM3PerMin': '9' }, 'space.volumeM3'],
  ['a space of no size', { 'space.volumeM3': '0', 'space.airM3PerMin': '9' }, 'space.volumeM3'],
  ['air that is a word', { 'space.volumeM3': '40', 'space.airM3PerMin': 'lots' }, 'space.airM3PerMin'],
  ['a time of preparation that is a word', { 'jobs.0.preparedAt': 'this morning' }, 'jobs.0.preparedAt'],
  ['a loss over what can be', { 'jobs.0.lossPct': '95' }, 'jobs.0.lossPct'],
])('DE6 %s is a problem of its own field', (_what, typed, field) => {
  const at = context(posted());
  const read = readForm({ id: 'post-day', about: {} }, { ...untouched(built('post-day', at)), ...typed }, at);
  expect(read.ok ? [] : read.problems.map((problem) => problem.field)).toEqual([field]);
});

test('DE6 after the last day it is filled in with it, for today', () => {
  const last = ready();
  const at = context(null, { previous: last.shift as Shift, now: t('06:00', '2026-05-13') });
  const read = readForm({ id: 'post-day', about: {} }, untouched(built('post-day', at)), at);
  expect(read).toMatchObject({
    ok: true,
    command: { entry: { ...last.state.day.entry, date: '2026-05-13' } },
  });
});

test('DE6 the time at which bare steel was prepared is not taken over from the day before', () => {
  const jobs = [aJob({ coat: 'primer', preparedAt: '06:00' })];
  const at = context(null, { previous: posted({ jobs }).state, now: t('06:00', '2026-05-13') });
  const read = readForm({ id: 'post-day', about: {} }, untouched(built('post-day', at)), at);
  const entry = read.ok && read.command.type === 'post-day' ? read.command.entry : null;
  expect(entry?.jobs[0]?.coat).toBe('primer');
  expect(entry?.jobs[0]).not.toHaveProperty('preparedAt');
});

test('DE6 a comma is a decimal point and a word is a problem of its field', () => {
  const play = ready();
  const at = context(play);
  const about = { rig: 'rig-1' };
  const values = { coating: 'epoxy', litres: '20', paintC: '21,5', thinnerL: '', pot: 'fresh', mixedAt: '' };
  expect(readForm({ id: 'mix-batch', about }, values, at)).toMatchObject({
    ok: true,
    command: { paintC: 21.5, thinnerL: 0 },
  });
  expect(readForm({ id: 'mix-batch', about }, { ...values, paintC: 'warm' }, at)).toMatchObject({
    ok: false,
    problems: [{ field: 'paintC' }],
  });
  expect(readForm({ id: 'mix-batch', about }, { ...values, paintC: '280' }, at)).toEqual({
    ok: false,
    problems: [{ field: 'paintC', message: 'At most 80 °C. Is it the right unit?' }],
  });
});

test('DE6 problems of a day stand at the fields they were typed in', () => {
  const at = context(null);
  const values = { ...untouched(built('post-day', at)), airC: '80', breaks: 'noon', 'jobs.0.area': '' };
  const read = readForm({ id: 'post-day', about: {} }, values, at);
  expect(read.ok ? [] : read.problems.map(({ field }) => field)).toEqual(
    expect.arrayContaining(['breaks', 'jobs.0.area', 'jobs.0.dftUm']),
  );
});

test.each(formIds)('EN1 the form %s opens or says why it does not, in every state of a day', (id) => {
  const flushing = mixed();
  flushing.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  const tagged = ready();
  tagged.do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'leaks' }, 'pia');
  for (const play of [null, posted(), ready(), mixed(), flushing, tagged]) {
    for (const about of [
      { rig: 'rig-1', flush: 'rig-1-flush-1', step: 'lock-trigger', concern: 'concern-1', person: 'pia' },
      {},
      { rig: 'rig-9' },
    ]) {
      const made = buildForm({ id, about }, context(play));
      const words = JSON.stringify(made.ok ? made.form : made.shown);
      expect(words).not.toMatch(/undefined|NaN|\{[a-z]+\}/);
      if (made.ok)
        expect(
          made.form.fields.filter((field) => field.kind !== 'group').every((field) => field.label.length > 0),
        ).toBe(true);
    }
  }
});

test('DE6 what was typed is shown again beside its problem', () => {
  const play = ready();
  const made = buildForm({ id: 'mix-batch', about: { rig: 'rig-1' } }, context(play), {
    paintC: 'warm',
    litres: '7',
  });
  const values = made.ok
    ? made.form.fields.map((field) => [field.name, 'value' in field ? field.value : null])
    : [];
  expect(values).toEqual(
    expect.arrayContaining([
      ['paintC', 'warm'],
      ['litres', '7'],
    ]),
  );
});

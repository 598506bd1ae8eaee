import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { DayEntryInput } from '../../src/model/day-entry.ts';
import type { Policy, SitePack } from '../../src/model/site.ts';
import { announcements } from '../../src/views/announce.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { dayChanges } from '../../src/views/day-changed.ts';
import { fieldAt } from '../../src/views/day-fields.ts';
import { doneMessage } from '../../src/views/done.ts';
import { briefed, type Play, posted } from '../flow/harness.ts';
import { aDay, aJob, aPack } from '../flow/pack.ts';

const { textsFor } = loadTexts();
const texts = textsFor('en');
type Entry = Partial<DayEntryInput>;

/** The lines between the day posted with one entry and the same day posted with another. */
function lines(before: Entry, after: Entry, pack: SitePack = aPack(), packAfter = pack): readonly string[] {
  const one = posted(before, pack).state.day;
  const other = posted(after, packAfter).state.day;
  return dayChanges(texts, one, other);
}
const job = aJob();
const title = 'Gate 1: Test epoxy, intermediate coat';

describe('what is different between two entries of a day', () => {
  test('nothing, when nothing is', () => {
    expect(lines({}, {})).toEqual([]);
  });

  test.each<[string, Entry, Entry, readonly string[]]>([
    ['the end', {}, { end: '17:30' }, ['End: 17:30 (was 16:00)']],
    [
      'a break more',
      { breaks: [{ from: '09:30', to: '09:45' }] },
      {
        breaks: [
          { from: '09:30', to: '09:45' },
          { from: '12:00', to: '12:30' },
        ],
      },
      ['Breaks: 09:30–09:45, 12:00–12:30 (was 09:30–09:45)'],
    ],
    ['the first break', {}, { breaks: [{ from: '12:00', to: '12:30' }] }, ['Breaks: 12:00–12:30 (was –)']],
    ['the place', {}, { surroundings: 'enclosed' }, ['Surroundings: enclosed (was open air)']],
    ['who else is there', {}, { others: ['saga'] }, ['Also on site: Saga (was Saga, Hal)']],
    ['the notes', {}, { notes: 'Crane at noon' }, ["Foreman's notes: Crane at noon (was –)"]],
  ])('of the day: %s', (_what, before, after, expected) => {
    expect(lines(before, after)).toEqual(expected);
  });

  test('of the weather: each figure with its unit, what was not known as a dash', () => {
    expect(lines({}, { weather: { airC: 24, rhPct: 80, steelC: 20, windMps: 6, sun: true } })).toEqual([
      'Expected air: 24 °C (was 20 °C)',
      'Expected humidity: 80 % (was 60 %)',
      'Expected wind: 6 m/s (was –)',
      'Sun on hoses or steel: Yes (was No)',
    ]);
  });

  test('of a job: all that changed in one line, named by the job', () => {
    const changed = aJob({ airBar: 5.5, sprayers: ['lou'], dftUm: 200 });
    expect(lines({}, { jobs: [changed] })).toEqual([
      `${title}. Dry film: 200 µm (was 150 µm); Air pressure at the pump: 5.5 bar (was 5 bar); Spray: Lou (was Pia)`,
    ]);
  });

  test('a job on another rig: its pressure is another kind', () => {
    const [line = ''] = lines({}, { jobs: [aJob({ rig: 'rig-2', airBar: undefined })] });
    expect(line).toContain('Rig: Rig Two (was Rig One)');
    expect(line).toContain('Air pressure at the pump: – (was 5 bar)');
    expect(line).toContain('Fluid pressure: 180 bar (was –)');
  });

  test('a job more, and one taken off, in whatever order they stand', () => {
    const gate2 = aJob({ area: 'Gate 2', areaM2: 12 });
    expect(lines({ jobs: [job] }, { jobs: [gate2, job] })).toEqual([
      'New job: Gate 2: Test epoxy, intermediate coat. 12 m², 150 µm dry. Rig One, 5 bar. Spray: Pia. Mix: Max.',
    ]);
    expect(lines({ jobs: [gate2, job] }, { jobs: [job] })).toEqual([
      'Job taken off: Gate 2: Test epoxy, intermediate coat',
    ]);
    expect(lines({ jobs: [gate2, job] }, { jobs: [job, gate2] })).toEqual([]);
  });

  test('a job whose area was written wrong is the same job', () => {
    expect(lines({}, { jobs: [aJob({ area: 'Gate 7' })] })).toEqual([
      'Gate 7: Test epoxy, intermediate coat. Area: Gate 7 (was Gate 1)',
    ]);
  });

  test('what came with an edited site pack is named', () => {
    const pack = aPack();
    const edited: SitePack = {
      ...aPack({ policy: { lossPct: 40 } as Partial<Policy> }),
      coatings: pack.coatings.map((one) => (one.id === 'epoxy' ? { ...one, volumeSolids: 70 } : one)),
      site: { ...pack.site, emergency: { ...pack.site.emergency, eyewash: 'the new shed' } },
    };
    expect(lines({}, {}, pack, edited)).toEqual([
      'Coating sheet changed: Test epoxy',
      "The site's own limits and times were changed.",
      'Emergency details were changed. Look at them.',
    ]);
  });
});

describe('a day changed after its briefing', () => {
  function changed(play: Play = briefed()) {
    const before = play.state;
    const from = play.journal.length;
    play.at('08:10').do(aDay({ end: '15:00' }));
    const events = play.journal.slice(from);
    return { play, events, said: announcements(before, play.state, events, () => texts) };
  }

  test('DE5 is told to the crew in words, once, before the briefing that follows', () => {
    const { said } = changed();
    const toCrew = said.filter(({ audience }) => audience.kind === 'crew').map(({ message }) => message);
    expect(toCrew[0]?.summary).toBe('The day was changed by Finn. End: 15:00 (was 16:00)');
    expect(plainText(toCrew[0] ?? { summary: '', tone: 'plain', blocks: [] })).toContain(
      'End: 15:00 (was 16:00)',
    );
    expect(toCrew).toHaveLength(2);
  });

  test('DE5 stands in the changed briefing, on the board as well', () => {
    const { play } = changed();
    const text = plainText(briefingMessage({ shift: play.state, texts, now: play.now }));
    expect(text).toMatch(/WHAT HAS CHANGED IN THE DAY\s+- End: 15:00 \(was 16:00\)/);
  });

  test('DE5 is what the foreman who changed it is shown', () => {
    const { play, events, said } = changed();
    const shown = doneMessage(
      { shift: play.state, texts, now: play.now },
      aDay({ end: '15:00' }) as never,
      events.map(({ body }) => body),
      () => said,
    );
    expect(shown.summary).toContain('End: 15:00 (was 16:00)');
  });

  test('DE5 a change nobody had heard otherwise is told to nobody', () => {
    const { said, play } = changed(posted());
    expect(said.map(({ message }) => message.summary).join()).not.toContain('was changed by');
    expect(plainText(briefingMessage({ shift: play.state, texts, now: play.now }))).not.toContain(
      '(was 16:00)',
    );
  });
});

test.each([
  ['end', 'end', null],
  ['weather.airC', 'airC', null],
  ['jobs.3.airBar', 'airBar', 3],
])('the field at %s is found by its place', (path, field, place) => {
  expect(fieldAt(path)).toMatchObject({ field, job: place });
});

test.each(['jobs', 'jobs.0', 'breaks.0.from', 'airBar', 'weather.end', 'constructor', ''])(
  'there is no field at "%s"',
  (path) => {
    expect(fieldAt(path)).toBeNull();
  },
);

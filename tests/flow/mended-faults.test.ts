import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import { replay } from '../../src/engine.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { rigClocks } from '../../src/flow/clocks.ts';
import { applyCarriedOver } from '../../src/flow/day-entry.ts';
import { holdsOf } from '../../src/flow/holds.ts';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import { readForm } from '../../src/forms/forms.ts';
import { canonicalJson } from '../../src/journal/canonical-json.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import { recordSummary } from '../../src/views/record.ts';
import { rigMessage } from '../../src/views/rig.ts';
import { recordingSurface, World } from '../scenarios/world.ts';
import { mixed, nobody, type Play, person, ready } from './harness.ts';
import { aDay, aJob, aPack, t } from './pack.ts';

/** Faults that were found in review; each stays mended. */
const texts = loadTexts().textsFor('en');
const dead = (play: Play) => Math.min(...rigClocks(play.state, 'rig-1').map(({ times }) => times.deadAt));

async function hosted(now = '06:40') {
  const world = new World(memoryStore(), [recordingSurface().surface], t(now));
  const go = (command: CommandInput, id = 'finn') =>
    world.take({ at: world.now, by: person(id), command }, `c-${Math.round(performance.now() * 1e6)}`);
  return { world, go };
}

describe('clocks that could be told too late', () => {
  test('PL4 paint put on top that was mixed before what is in the pot loses the heat the pot has seen', () => {
    const play = mixed().at('08:10');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    play.at('08:12').mix({ pot: 'on-top', mixedAt: t('07:55') });
    const pot = play.rig().pot;
    expect(pot?.history.map(({ c }) => c)).toContain(30);
  });

  test('PL4 cooler paint on top gives the older batch no time', () => {
    const play = mixed().at('08:10');
    play.mix({ paintC: 30 });
    const potDead = () =>
      rigClocks(play.state, 'rig-1').find(({ where }) => where === 'pot')?.times.deadAt ?? 0;
    const before = potDead();
    play.at('08:20').mix({ pot: 'on-top', paintC: 20 });
    expect(potDead()).toBeLessThanOrEqual(before);
  });

  test('PL3 a fresh batch logged late, mixed before what is in the line, makes the line as old as it', () => {
    const play = mixed().at('09:00');
    play.mix({ mixedAt: t('07:30') });
    play.do({ type: 'pot-empty', rig: 'rig-1' }, 'max');
    expect(dead(play)).toBe(t('09:30'));
  });

  test('PL10 the temperature of an empty pot gives the line no time', () => {
    const play = mixed().at('08:05');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    play.do({ type: 'pot-empty', rig: 'rig-1' }, 'max');
    const before = dead(play);
    play.at('08:10').try({ type: 'pot-temperature', rig: 'rig-1', c: 20 }, 'max');
    expect(dead(play)).toBeLessThanOrEqual(before);
  });

  test('BA5 a mixing time the form cannot read is a problem of that field, not "now"', () => {
    const play = ready().at('09:45');
    const context = {
      pack: play.pack,
      shift: play.state,
      previous: null,
      now: play.now,
      texts,
      viewer: 'max',
    };
    const typed = {
      coating: 'epoxy',
      litres: '20',
      paintC: '20',
      thinnerL: '0',
      pot: 'fresh',
      mixedAt: 'half past',
    };
    expect(readForm({ id: 'mix-batch', about: { rig: 'rig-1' } }, typed, context)).toMatchObject({
      ok: false,
      problems: [{ field: 'mixedAt' }],
    });
  });
});

describe('bells', () => {
  test('BE1 no bell is wanted twice when pot and line hold one batch', () => {
    const play = ready({ breaks: [{ from: '08:40', to: '09:30' }] }).at('08:00');
    play.mix({ paintC: 30 });
    play.at('08:01').do({ type: 'hose-temperature', rig: 'rig-1', c: 20 }, 'pia');
    const keys = wantedBells(play.state).map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test('BE3 somebody pressing something else does not make an overdue bell punctual', () => {
    const play = mixed().at('09:50');
    play.do({ type: 'pause', rig: 'rig-1' }, 'pia');
    const soon = play.ring().find(({ kind }) => kind === 'start-flush');
    expect(soon).toMatchObject({ late: true, dueAt: soon?.scheduledFor });
    expect(Math.floor((soon?.scheduledFor ?? 0) / 60_000)).toBe(t('09:46') / 60_000);
  });

  test('BE3 no ring counts as missed when foreman and safety contact are due at the same minute', () => {
    const play = mixed({}, aPack({ policy: { foremanAfterMinutes: 8, safetyAfterMinutes: 8 } }));
    expect(play.ringUntil('10:30').filter(({ missedRings }) => missedRings > 0)).toEqual([]);
  });
});

describe('bad input that throws or poisons', () => {
  test('CO1 air of 70 °C is refused, not thrown', async () => {
    const { go } = await hosted();
    await go(aDay());
    expect((await go({ type: 'take-reading', airC: 70, rhPct: 50, steelC: 20 })).ok).toBe(false);
  });

  test.each([
    ['dry film of 0.5 µm', aJob({ dftUm: 0.5 })],
    ['a surface of 0.001 m²', aJob({ areaM2: 0.001 })],
  ])('DE2 %s is refused, not thrown', (_what, job) => {
    expect(commandSchema.safeParse(aDay()).success).toBe(true);
    expect(commandSchema.safeParse(aDay({ jobs: [job] })).success).toBe(false);
  });

  test.each([
    { type: 'start-flush', rig: 'constructor' },
    { type: 'mix-batch', rig: 'rig-1', coating: 'constructor', litres: 20, paintC: 20, pot: 'fresh' },
    { type: 'answer-bell', bell: 'toString' },
    { type: 'arrive', person: 'constructor' },
  ] as const)('EN1 a name that every JavaScript object inherits is unknown: $type', (command) => {
    const read = commandSchema.safeParse(command);
    expect(read.success && !ready().try(command, 'pia').refused).toBe(false);
  });

  test('BE7 an inherited name as a bell does not keep the shift from being closed', () => {
    const play = ready();
    play.try({ type: 'answer-bell', bell: 'toString' }, 'pia');
    expect(() => recordSummary({ shift: play.state, texts, now: play.now })).not.toThrow();
  });

  test('EN4 a lost message is noted by the outbox only, and nobody outside the pack puts people on the list', () => {
    const play = ready();
    const lost = { type: 'note-undelivered', message: 'x', to: 'pia', surface: 'chat', why: 'x' } as const;
    expect(play.try(lost, nobody).refused).toBe(true);
    expect(play.try(lost, 'pia').refused).toBe(true);
    expect(play.try({ type: 'arrive', person: 'lou' }, 'zoe').refused).toBe(true);
  });

  test('BA3 a fiftieth of a kit is no whole number of kits, and one measured part alone is not ignored', () => {
    const batch = { type: 'mix-batch', rig: 'rig-1', coating: 'epoxy', paintC: 20, pot: 'fresh' } as const;
    expect(ready().try({ ...batch, litres: 0.2 }, 'max').refused).toBe(true);
    expect(ready().try({ ...batch, litres: 20, aL: 3 }, 'max').refused).toBe(true);
  });
});

describe('what is kept and carried', () => {
  test('EN3 the journal as stored rebuilds the state, the order of signed cautions included', () => {
    const play = ready();
    const stored = JSON.parse(canonicalJson(play.journal)) as JournalEvent[];
    expect(replay(play.id, null, stored)).toEqual(JSON.parse(canonicalJson(play.state)));
  });

  test('DE5 a change of nothing is refused after the shift has been in a store', async () => {
    const { go } = await hosted('06:00');
    await go(aDay());
    expect((await go(aDay())).ok).toBe(false);
  });

  test('DE5 a rig taken out of the pack and put back keeps its tag', () => {
    const play = ready();
    const { pack } = play;
    play.do({ type: 'report-defect', rig: 'rig-2', part: 'gun', text: 'cracked' }, 'pia');
    play.pack = { ...pack, rigs: pack.rigs.filter(({ id }) => id !== 'rig-2') };
    play.try(aDay({ notes: 'a' }));
    play.pack = pack;
    play.try(aDay({ notes: 'b' }));
    expect(play.rig('rig-2').tag?.text).toBe('gun: cracked');
  });

  test('SR3 a standing stop-work and a flush half done go on to the next day', () => {
    const play = mixed();
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo('primary-flush');
    play.do({ type: 'stop-work', text: 'Crane' }, 'hal');
    const left = JSON.stringify(carryOverOf(play.state, play.now));
    expect(left).toContain('Crane');
    expect(left).toContain('secondary-flush');
  });

  test('SR3 a concern nobody answered is still there on the third day', () => {
    const first = ready();
    first.do({ type: 'raise-concern', text: 'Ladder' }, 'hal');
    const carriedIn = carryOverOf(first.state, first.now);
    const event = {
      type: 'carried-over',
      carriedIn,
      previousHead: '',
      briefing: first.state.briefing,
    } as const;
    const meta = { at: first.now, by: { kind: 'system', part: 'bells' } } as const;
    const second = applyCarriedOver({ ...first.state, concerns: [] }, event, meta);
    expect(carryOverOf(second, first.now).concerns).toEqual(carriedIn.concerns);
    expect(carriedIn.concerns).toHaveLength(1);
  });
});

describe('what people are shown', () => {
  test('HO1 paint past its life is a hold of the day on a rig without a job as well', () => {
    const play = ready().at('08:00');
    play.mix({ rig: 'rig-2' });
    play.at('11:00');
    expect(holdsOf(play.state, play.now).map(({ kind }) => kind)).toContain('past-pot-life');
  });

  test('RC2 a tagged rig with mixed paint in it can still be flushed from its panel', () => {
    const play = mixed();
    play.do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'leaks' }, 'pia');
    expect(plainText(rigMessage({ shift: play.state, texts, now: play.now }, 'rig-1'))).toContain(
      '[Start the flush]',
    );
  });

  test('SO6 the record does not count a signature of an old revision', () => {
    const play = ready();
    play.do(aDay({ surroundings: 'enclosed' }));
    expect(plainText(recordSummary({ shift: play.state, texts, now: play.now }))).toContain('0 of 5 signed');
  });

  test('PL5 a fresh batch sprayed out before anybody pressed "through" is what the line counts as', () => {
    const play = mixed().at('08:30');
    play.mix();
    play.at('08:55').do({ type: 'pot-empty', rig: 'rig-1', sprayedL: 19 }, 'max');
    expect(play.rig()).toMatchObject({ pot: null, line: { batch: 'rig-1-2' } });
  });

  test('SO1 the briefing of a night shift does not go out in the morning before it', () => {
    const play = ready();
    play.shift = null;
    play.at('12:00');
    expect(play.do(aDay({ start: '22:00', end: '05:00' })).map(({ type }) => type)).not.toContain(
      'briefing-issued',
    );
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { needsFreshPin } from '../../adapters/board/press.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { replay } from '../../src/engine.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { rigClocks } from '../../src/flow/clocks.ts';
import { tooSoon } from '../../src/flow/flush-pace.ts';
import { carryOverOf } from '../../src/flow/shift-record.ts';
import { buildForm, readForm } from '../../src/forms/forms.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { flushSteps } from '../../src/model/checks.ts';
import type { CommandInput } from '../../src/model/command.ts';
import { commandSchema } from '../../src/model/command.ts';
import type { Mixed } from '../../src/model/shift.ts';
import { MINUTE } from '../../src/model/time.ts';
import { announcements } from '../../src/views/announce.ts';
import { rigMessage } from '../../src/views/rig.ts';
import { mixed, type Play } from './harness.ts';
import { t } from './pack.ts';

const { textsFor } = loadTexts();
const texts = textsFor('en');
const RIG = 'rig-1';
const REASON = 'Logged twice, both of us did';
const takeBack = (batch: string, reason = REASON) =>
  ({ type: 'void-batch', rig: RIG, batch, reason }) as const;
const warmth = (c: number) => ({ type: 'pot-temperature', rig: RIG, c }) as const;
const hose = (c: number) => ({ type: 'hose-temperature', rig: RIG, c }) as const;

/** What a batch leaves in a rig; when it was last told something is no part of it. */
function paint(play: Play) {
  const { pot, line, renewLitres, pausedAt, batches } = play.rig();
  const told = (one: Mixed | null) => one && { ...one, notedAt: 0 };
  return { pot: told(pot), line: told(line), renewLitres, pausedAt, batches };
}
const times = (play: Play) =>
  rigClocks(play.state, RIG).map(({ where, mixed, times }) => ({ where, batch: mixed.batch, ...times }));
const said = (play: Play, since: number) =>
  announcements(null, play.state, play.journal.slice(since), () => texts).map(({ message }) =>
    plainText(message),
  );
const context = (play: Play) => ({
  pack: play.pack,
  shift: play.state,
  previous: null,
  now: play.now,
  texts,
  viewer: 'finn',
});
const formText = (play: Play, id: 'void-batch' | 'abandon-flush' | 'confirm-step', about: object) => {
  const built = buildForm({ id, about: { rig: RIG, ...about } }, context(play));
  if (!built.ok) return plainText(built.shown);
  return `${built.form.title}\n${plainText({ summary: '', tone: 'plain', blocks: built.form.intro })}`;
};

describe('a batch taken back', () => {
  test('BA8 the only batch of a rig is gone with its clock and its bells', () => {
    const play = mixed().at('08:20');
    play.do(takeBack('rig-1-1'), 'finn');
    expect(paint(play)).toEqual({ pot: null, line: null, renewLitres: null, pausedAt: null, batches: [] });
    expect(wantedBells(play.state).filter(({ rig }) => rig === RIG)).toEqual([]);
    expect(play.rig().voided).toMatchObject([{ batch: { id: 'rig-1-1' }, by: 'finn', reason: REASON }]);
  });

  test('BA8 a second log of the same mix leaves the first as it was, with all its bells', () => {
    const once = mixed().at('08:20');
    const twice = mixed().at('08:10');
    twice.mix();
    expect(paint(twice)).not.toEqual(paint(once));
    twice.at('08:20').do(takeBack('rig-1-2'), 'finn');
    expect(paint(twice)).toEqual(paint(once));
    const bells = (play: Play) => wantedBells(play.state).map(({ key, dueAt }) => [key, dueAt]);
    expect(bells(twice)).toEqual(bells(once));
  });

  test('BA8 its number is not used again, so that no bell of the next batch counts as rung', () => {
    const play = mixed().at('08:20');
    play.do(takeBack('rig-1-1'), 'finn');
    play.at('08:30').mix();
    expect(play.rig().batches.map(({ id }) => id)).toEqual(['rig-1-2']);
  });

  test('BA8 it is the foreman’s, whoever logged it, and wants the PIN again', () => {
    const play = mixed().at('08:01');
    expect(play.refused(takeBack('rig-1-1'), 'max').text).toBe('refusal.foreman-only');
    expect(needsFreshPin(commandSchema.parse(takeBack('rig-1-1')))).toBe(true);
    expect(() => play.do(takeBack('rig-1-1', '  '), 'finn')).toThrow();
  });

  test('BA8 only the last one, and only once', () => {
    const play = mixed().at('08:10');
    play.mix();
    expect(play.refused(takeBack('rig-1-1'), 'finn').text).toBe('refusal.void-not-last');
    play.do(takeBack('rig-1-2'), 'finn');
    expect(play.refused(takeBack('rig-1-2'), 'finn')).toMatchObject({
      text: 'refusal.already-voided',
      params: { person: 'Finn', time: '08:10' },
    });
    expect(play.refused(takeBack('rig-1-1'), 'finn').text).toBe('refusal.void-too-late');
    expect(play.refused(takeBack('rig-1-7'), 'finn').text).toBe('refusal.void-not-last');
  });

  test.each<[string, readonly CommandInput[]]>([
    ['its pot was emptied', [{ type: 'pot-empty', rig: RIG }]],
    ['the line was renewed', [{ type: 'line-renewed', rig: RIG, sprayedL: 18 }]],
    [
      'a flush has opened the line',
      [
        { type: 'start-flush', rig: RIG },
        { type: 'confirm-step', rig: RIG, flush: 'rig-1-flush-1', step: 'lock-trigger' },
        { type: 'confirm-step', rig: RIG, flush: 'rig-1-flush-1', step: 'power-off' },
        { type: 'confirm-step', rig: RIG, flush: 'rig-1-flush-1', step: 'relieve-gun' },
      ],
    ],
  ])('BA8 not once %s', (_what, commands) => {
    const play = mixed().at('08:10');
    play.mix();
    play.at('08:40');
    for (const command of commands) play.do(command, 'pia');
    expect(play.refused(takeBack('rig-1-2'), 'finn').text).toBe('refusal.void-too-late');
  });

  test('BA8 a flush that was begun by mistake is given up first', () => {
    const play = mixed().at('08:10');
    play.mix();
    play.do({ type: 'start-flush', rig: RIG }, 'pia');
    play.do({ type: 'confirm-step', rig: RIG, flush: 'rig-1-flush-1', step: 'lock-trigger' }, 'pia');
    expect(play.refused(takeBack('rig-1-2'), 'finn').text).toBe('refusal.void-flushing');
    play.do({ type: 'abandon-flush', rig: RIG, flush: 'rig-1-flush-1', reason: 'Wrong rig' }, 'pia');
    play.do(takeBack('rig-1-2'), 'finn');
    expect(play.rig()).toMatchObject({ pot: { batch: 'rig-1-1' }, pausedAt: t('08:10') });
  });

  test('BA8 a warmer temperature noted since counts for the older paint, a cooler one gives it no time', () => {
    const twice = mixed().at('08:10');
    twice.mix();
    twice.at('08:20').do(warmth(30), 'max');
    twice.at('08:25').do(warmth(22), 'max');
    twice.do(takeBack('rig-1-2'), 'finn');
    const once = mixed().at('08:20');
    once.do(warmth(30), 'max');
    expect(times(twice)).toEqual(times(once));
  });

  test('BA8 paint that was never here brings no heat: the older paint has its own time back', () => {
    const play = mixed().at('08:10');
    const before = times(play);
    play.mix({ paintC: 30 });
    expect(rigClocks(play.state, RIG)[0]?.times.deadAt).toBeLessThan(before[0]?.deadAt ?? 0);
    play.at('08:20').do(takeBack('rig-1-2'), 'finn');
    expect(times(play)).toEqual(before);
  });

  test('BA8 a hose felt warm since counts from the older paint, where that was the warmer', () => {
    const slipped = mixed({ weather: { airC: 20, rhPct: 60, steelC: 20, sun: true } }).at('08:06');
    const without = mixed({ weather: { airC: 20, rhPct: 60, steelC: 20, sun: true } }).at('08:06');
    for (const play of [slipped, without]) {
      play.do({ type: 'pause', rig: RIG });
      play.at('08:07').do(warmth(21));
      play.at('08:08').do(hose(10));
      if (play === slipped) play.at('08:09').mix({ paintC: 5, pot: 'fresh' });
      play.at('08:10').do({ type: 'hose-warm', rig: RIG });
    }
    slipped.at('08:11').do(takeBack('rig-1-2'), 'finn');
    expect(times(slipped)).toEqual(times(without));
  });

  test('BA8 a bell of older paint that came due meanwhile rings at once and is not late', () => {
    // The line is measured cool, so the warm pot has a clock of its own: a fresh pot logged over it hides that.
    const play = mixed().at('08:05');
    play.do(warmth(30), 'max');
    play.do(hose(15), 'max');
    const old = rigClocks(play.state, RIG).find(({ where }) => where === 'pot')?.times.startFlushBy ?? 0;
    expect(rigClocks(play.state, RIG)[0]?.where).toBe('pot');
    play.mix({ paintC: 10 });
    const key = 'start-flush:rig-1:pot:rig-1-1';
    expect(play.ringUntil(old + 2 * MINUTE).map(({ bell }) => bell)).not.toContain(key);
    play.do(takeBack('rig-1-2'), 'finn');
    const rang = play.ring();
    expect(rang.map(({ bell }) => bell)).toEqual(expect.arrayContaining([key, 'induction-over:rig-1-1']));
    expect(rang.filter(({ late }) => late)).toEqual([]);
  });

  test('BA8 the coat of a batch taken back is not carried over', () => {
    const play = mixed().at('08:20');
    play.do(takeBack('rig-1-1'), 'finn');
    expect(carryOverOf(play.state, play.now)).toMatchObject({ coats: [], unflushed: [] });
  });

  test('BA8 the form says what it takes away, what counts then and when to leave it', () => {
    const play = mixed().at('08:10');
    play.mix();
    const text = formText(play, 'void-batch', { batch: 'rig-1-2' });
    expect(text).toContain('Take back a batch: rig-1-2, Rig One');
    expect(text).toContain(
      'takes away batch rig-1-2 (20 L Test epoxy, mixed 08:10), its clock (dead at 10:10) and its bells.',
    );
    expect(text).toContain('Batch rig-1-1 counts again: use by');
    expect(text).toContain('Any of it in pot or line? Then leave it and flush.');
    const sent = readForm(
      { id: 'void-batch', about: { rig: RIG, batch: 'rig-1-2' } },
      { reason: REASON },
      context(play),
    );
    expect(sent).toEqual({ ok: true, command: takeBack('rig-1-2') });
    expect(formText(play, 'void-batch', { batch: 'rig-1-1' })).toContain('is not the last one logged');
  });

  test('BA8 the crew hears what is gone, what counts, and to log the paint where it is', () => {
    const play = mixed().at('08:20');
    const before = play.journal.length;
    play.do(takeBack('rig-1-1'), 'finn');
    const [text = ''] = said(play, before);
    expect(text).toContain(
      `batch rig-1-1 was taken back by Finn. Its clock and its bells are gone. Reason: ${REASON}`,
    );
    expect(text).toContain('Rig One counts as empty');
    expect(text).toContain('log it there now with the time it was mixed');
  });

  test('BA8 the button is there as long as it can be done', () => {
    const label = 'Last batch never went in';
    const shows = (play: Play) =>
      plainText(rigMessage({ shift: play.state, texts, now: play.now }, RIG)).includes(label);
    const play = mixed();
    expect(shows(play)).toBe(true);
    play.do({ type: 'pot-empty', rig: RIG }, 'max');
    expect(shows(play)).toBe(false);
  });
});

/** Temperatures and pauses as people note them between a log and its taking back, a minute apart. */
const note: fc.Arbitrary<CommandInput> = fc.oneof(
  fc.integer({ min: 5, max: 40 }).map(warmth),
  fc.integer({ min: 5, max: 40 }).map(hose),
  fc.constantFrom<CommandInput>(
    { type: 'hose-warm', rig: RIG },
    { type: 'pause', rig: RIG },
    { type: 'resume', rig: RIG },
    { type: 'take-reading', airC: 22, rhPct: 60, steelC: 22 },
  ),
);
const logged = fc.record({
  paintC: fc.integer({ min: 5, max: 40 }),
  pot: fc.constantFrom('fresh' as const, 'on-top' as const),
  agoMin: fc.integer({ min: 0, max: 60 }),
});

/** The same day twice: with a batch that was logged and taken back, and without it. */
function bothDays(
  before: readonly CommandInput[],
  extra: { readonly paintC: number; readonly pot: 'fresh' | 'on-top'; readonly agoMin: number },
  since: readonly CommandInput[],
  sun: boolean,
) {
  const days = [true, false].map((slip) => {
    const play = mixed({ weather: { airC: 20, rhPct: 60, steelC: 20, sun } }).at('08:05');
    const notes = (commands: readonly CommandInput[]) => {
      for (const command of commands) play.at(play.now + MINUTE).try(command, 'max');
    };
    notes(before);
    const { paintC, pot, agoMin } = extra;
    play.at(play.now + MINUTE);
    if (slip) play.mix({ paintC, pot, mixedAt: play.now - agoMin * MINUTE });
    notes(since);
    play.at(play.now + MINUTE);
    if (slip) play.do(takeBack('rig-1-2'), 'finn');
    return play;
  });
  const [slipped, without] = days;
  if (!slipped || !without) throw new Error('two days were asked for');
  return { slipped, without };
}

describe('a batch taken back, whatever came between', () => {
  const notes = fc.array(note, { maxLength: 6 });

  test('BA8 with nothing but pauses and readings since, the rig is as if it had never been logged', () => {
    const quiet = fc.array(
      fc.constantFrom<CommandInput>(
        { type: 'pause', rig: RIG },
        { type: 'take-reading', airC: 22, rhPct: 60, steelC: 22 },
      ),
      { maxLength: 3 },
    );
    fc.assert(
      fc.property(notes, logged, quiet, fc.boolean(), (before, extra, since, sun) => {
        const { slipped, without } = bothDays(before, extra, since, sun);
        // A pause of a rig that is paused already is refused without the batch, which had ended that pause.
        expect(paint(slipped)).toEqual(paint(without));
      }),
    );
  });

  test('BA8 with temperatures since, no clock is later than if it had never been logged', () => {
    fc.assert(
      fc.property(notes, logged, notes, fc.boolean(), (before, extra, since, sun) => {
        const { slipped, without } = bothDays(before, extra, since, sun);
        for (const where of ['pot', 'line'] as const) {
          const [had, has] = [without.rig()[where], slipped.rig()[where]];
          expect(has?.batch).toBe(had?.batch);
          expect(has?.mixedAt).toBe(had?.mixedAt);
        }
        const earliest = (play: Play, time: 'useBy' | 'startFlushBy' | 'deadAt') =>
          Math.min(...rigClocks(play.state, RIG).map(({ times }) => times[time]));
        for (const time of ['useBy', 'startFlushBy', 'deadAt'] as const)
          expect(earliest(slipped, time)).toBeLessThanOrEqual(earliest(without, time));
      }),
      { numRuns: 200 },
    );
  });

  test('BA8 the journal replays to the same rig', () => {
    fc.assert(
      fc.property(notes, logged, notes, fc.boolean(), (before, extra, since, sun) => {
        const { slipped } = bothDays(before, extra, since, sun);
        const again = replay(slipped.id, null, slipped.journal);
        expect(again).toEqual(slipped.state);
      }),
      { numRuns: 30 },
    );
  });
});

function flushBegun(at = '08:30'): Play {
  const play = mixed().at(at);
  play.do({ type: 'start-flush', rig: RIG }, 'pia');
  return play;
}
const giveUp = { type: 'abandon-flush', rig: RIG, flush: 'rig-1-flush-1', reason: 'Meant Rig Two' } as const;
const confirm = (step: 'lock-trigger' | 'power-off' | 'relieve-gun', flush = 'rig-1-flush-1') =>
  ({ type: 'confirm-step', rig: RIG, flush, step }) as const;

describe('a flush begun by mistake', () => {
  test('FL6 the clock has run on all the time and the bells for spraying come back', () => {
    const play = mixed().at('08:30');
    const before = {
      times: times(play),
      bells: wantedBells(play.state).map(({ key, dueAt }) => [key, dueAt]),
    };
    play.do({ type: 'start-flush', rig: RIG }, 'pia');
    expect(wantedBells(play.state).map(({ kind }) => kind)).not.toContain('use-by');
    play.at('08:33').do(giveUp, 'pia');
    expect(times(play)).toEqual(before.times);
    expect(wantedBells(play.state).map(({ key, dueAt }) => [key, dueAt])).toEqual(before.bells);
    expect(play.rig()).toMatchObject({ flush: null, flushes: [], pausedAt: t('08:30') });
    expect(play.rig().abandoned).toMatchObject([{ id: 'rig-1-flush-1', by: 'pia', reason: 'Meant Rig Two' }]);
  });

  test('FL6 with trigger and power confirmed it can be given up, once the relief has begun it goes on', () => {
    const play = flushBegun();
    play.do(confirm('lock-trigger'), 'pia');
    play.do(confirm('power-off'), 'pia');
    const closed = play.shift;
    play.do(giveUp, 'pia');
    play.shift = closed;
    play.do(confirm('relieve-gun'), 'pia');
    expect(play.refused(giveUp, 'pia').text).toBe('refusal.abandon-relieved');
  });

  test('FL6 who began it or the foreman gives it up, nobody else', () => {
    const play = flushBegun();
    expect(play.refused(giveUp, 'max')).toMatchObject({
      text: 'refusal.abandon-whose',
      params: { people: 'Pia, Finn' },
    });
    play.do(giveUp, 'finn');
  });

  test('FL6 paint past its use-by has to come out: the flush goes on', () => {
    const play = mixed();
    const { useBy = 0 } = times(play)[0] ?? {};
    play.at(useBy - 1000).do({ type: 'start-flush', rig: RIG }, 'pia');
    expect(play.at(useBy).refused(giveUp, 'pia').text).toBe('refusal.abandon-past');
  });

  test('FL6 a bell that came due while it ran rings when it is given up, and is not late', () => {
    const play = mixed();
    play.ringUntil('09:10');
    play.do({ type: 'start-flush', rig: RIG }, 'pia');
    const rang = play.ringUntil('09:18').map(({ kind }) => kind);
    expect(rang).not.toContain('use-by-soon');
    play.do(giveUp, 'pia');
    expect(play.ring()).toMatchObject([{ kind: 'use-by-soon', late: false }]);
  });

  test('FL6 its number is not used again: an old button does not press a step of the next flush', () => {
    const play = flushBegun();
    play.do(giveUp, 'pia');
    expect(play.refused(giveUp, 'pia').text).toBe('refusal.old-flush');
    play.at('08:40').do({ type: 'start-flush', rig: RIG }, 'pia');
    expect(play.rig().flush?.id).toBe('rig-1-flush-2');
    expect(play.refused(confirm('lock-trigger'), 'pia').text).toBe('refusal.old-flush');
  });

  test('FL6 a flush given up is no flush: what the last shift left stays as it was', () => {
    const play = flushBegun();
    play.do(giveUp, 'pia');
    expect(carryOverOf(play.state, play.now)).toMatchObject({ unflushed: [{ rig: RIG }], skippedSteps: [] });
  });

  test('FL6 the form and what is said name the times, and that the rig counts as paused', () => {
    const play = flushBegun();
    const form = formText(play, 'abandon-flush', { flush: 'rig-1-flush-1' });
    expect(form).toContain('Flush begun by mistake: Rig One');
    expect(form).toContain('The clock ran on all the time: use by 09:30');
    const before = play.journal.length;
    play.at('08:33').do(giveUp, 'pia');
    const [text = ''] = said(play, before);
    expect(text).toContain(
      'the flush was given up by Pia before the pressure was relieved. Nothing was taken out. Reason: Meant Rig Two',
    );
    expect(text).toContain('use by 09:30');
    expect(text).toContain('paused since 08:30');
    expect(formText(play, 'abandon-flush', { flush: 'rig-1-flush-1' })).toContain('another flush');
  });

  test('FL6 the button goes when the relief has begun', () => {
    const play = flushBegun();
    const shows = () =>
      plainText(rigMessage({ shift: play.state, texts, now: play.now }, RIG)).includes(
        'Flush begun by mistake',
      );
    expect(shows()).toBe(true);
    play.flushTo('relieve-gun');
    expect(shows()).toBe(false);
  });
});

/**
 * Worked out by hand: 30 m of 10 mm bore hold 30 × π × 0.005² m³ = 2.356 L; three line volumes are 7.069 L; Rig One moves
 * 0.1 L × 20 a minute, so 3.534 min = 212.06 s.
 */
describe('a step confirmed sooner than the pump can be', () => {
  const soon = (play: Play) => {
    const flush = play.rig().flush ?? play.rig().flushes.at(-1);
    if (!flush) throw new Error('no flush');
    return flushSteps.flatMap((step) => {
      const answer = flush.steps[step];
      const found = answer && tooSoon(play.state.day, RIG, flush, step, answer.at);
      return found ? [[step, found.minutes, found.needs]] : [];
    });
  };
  const pumped = (play: Play, seconds: number, step: 'primary-flush' | 'secondary-flush') => {
    play.at(play.now + seconds * 1000);
    return play.do({ type: 'confirm-step', rig: RIG, flush: 'rig-1-flush-1', step, litres: 5 }, 'pia');
  };

  test('FL7 it is taken and noted, with the minutes it took and the minutes it needs', () => {
    const play = flushBegun();
    play.flushTo('suction-out');
    pumped(play, 59, 'primary-flush');
    expect(soon(play)).toEqual([['primary-flush', 0, 4]]);
    expect(rigClocks(play.state, RIG)).toEqual([]);
  });

  test('FL7 to the second: just too soon, and just not', () => {
    for (const [seconds, found] of [
      [212, 1],
      [213, 0],
    ] as const) {
      const play = flushBegun();
      play.flushTo('suction-out');
      pumped(play, seconds, 'primary-flush');
      expect(soon(play)).toHaveLength(found);
    }
  });

  test('FL7 the second flush too; steps without pumping never', () => {
    const play = flushBegun();
    play.flushTo('suction-out');
    pumped(play, 1200, 'primary-flush');
    pumped(play, 60, 'secondary-flush');
    play.flushTo();
    expect(soon(play).map(([step, minutes]) => [step, minutes])).toEqual([['secondary-flush', 1]]);
  });

  test('FL7 the form says so before, and says nothing once there was time', () => {
    const play = flushBegun();
    play.flushTo('suction-out');
    const form = () => formText(play, 'confirm-step', { flush: 'rig-1-flush-1', step: 'primary-flush' });
    play.at(play.now + 61_000);
    expect(form()).toContain(`confirmed 1 min ago. This pump needs about 4 min`);
    play.at(play.now + 20 * MINUTE);
    expect(form()).not.toContain('This pump needs');
  });

  test('FL7 the flush says it where the step is ticked off', () => {
    const play = flushBegun();
    play.flushTo('suction-out');
    pumped(play, 30, 'primary-flush');
    const text = plainText(rigMessage({ shift: play.state, texts, now: play.now }, RIG));
    expect(text).toContain(
      `confirmed less than 1 min after the step before; this pump needs about 4 min for it`,
    );
  });
});

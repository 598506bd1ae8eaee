import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import { replay } from '../../src/engine.ts';
import { ringingBells } from '../../src/flow/ringing.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { flushSteps } from '../../src/model/checks.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import { MINUTE } from '../../src/model/time.ts';
import { announcements } from '../../src/views/announce.ts';
import { allChecks, briefed, nobody, type Play, person, posted } from '../flow/harness.ts';
import { aDay, aJob, t } from '../flow/pack.ts';
import { recordingSurface, World } from '../scenarios/world.ts';

const { textsFor } = loadTexts();
const people = ['finn', 'saga', 'pia', 'max', 'hal', 'lou', 'zoe'] as const;

const who = fc.constantFrom(...people, 'nobody');
const rig = fc.constantFrom('rig-1', 'rig-2', 'rig-9');
const c = fc.integer({ min: 0, max: 45 });
const words = fc.constantFrom('Ladder is loose', 'New gauge fitted', 'x');

/** Things people press, sensible and not. Questions and steps are filled in when the shift is there. */
const press: fc.Arbitrary<CommandInput | ((play: Play) => CommandInput | null)> = fc.oneof(
  fc.constant<CommandInput>({ type: 'ring' }),
  fc.constant<CommandInput>({ type: 'issue-briefing' }),
  fc.record({ type: fc.constant('arrive' as const), person: fc.constantFrom(...people) }),
  fc.record({ type: fc.constant('raise-concern' as const), text: words }),
  fc.record({
    type: fc.constant('resolve-concern' as const),
    concern: fc.constantFrom('concern-1', 'concern-2'),
    text: words,
  }),
  fc.record({
    type: fc.constant('check-rig' as const),
    rig,
    results: fc.constantFrom(allChecks(), allChecks(['gauge'])),
  }),
  fc.record({ type: fc.constant('report-defect' as const), rig, part: words, text: words }),
  fc.record({ type: fc.constant('clear-tag' as const), rig, text: words }),
  fc.record({
    type: fc.constant('take-reading' as const),
    airC: c,
    rhPct: fc.integer({ min: 20, max: 100 }),
    steelC: c,
  }),
  fc.record({
    type: fc.constant('mix-batch' as const),
    rig,
    coating: fc.constantFrom('epoxy', 'finish', 'one-pack', 'glitter'),
    litres: fc.constantFrom(20, 40, 7),
    paintC: c,
    thinnerL: fc.constantFrom(0, 0.5, 5),
    pot: fc.constantFrom('fresh' as const, 'on-top' as const),
  }),
  fc.record({ type: fc.constantFrom('pot-temperature' as const, 'hose-temperature' as const), rig, c }),
  fc.record({
    type: fc.constantFrom(
      'hose-warm' as const,
      'pause' as const,
      'resume' as const,
      'pot-empty' as const,
      'start-flush' as const,
    ),
    rig,
  }),
  fc.record({ type: fc.constant('line-renewed' as const), rig, sprayedL: fc.integer({ min: 1, max: 30 }) }),
  fc.record({
    type: fc.constant('void-batch' as const),
    rig,
    batch: fc.constantFrom('rig-1-1', 'rig-1-2', 'rig-2-1'),
    reason: words,
  }),
  fc.record({
    type: fc.constant('abandon-flush' as const),
    rig,
    flush: fc.constantFrom('rig-1-flush-1', 'rig-1-flush-2'),
    reason: words,
  }),
  fc.record({ type: fc.constant('stop-work' as const), text: words }),
  fc.record({ type: fc.constant('clear-stop-work' as const), text: words }),
  fc.constantFrom<CommandInput>({ type: 'close-shift' }, { type: 'close-shift', reason: 'Storm' }),
  fc.constantFrom<CommandInput>(
    aDay({ notes: 'Crane' }),
    aDay({ surroundings: 'enclosed' }),
    aDay({ jobs: [aJob({ rig: 'rig-2' })] }),
  ),
  fc.constantFrom(...people).map((id) => (play: Play): CommandInput | null => {
    const open = play.shift ? openQuestion(play.shift, id) : null;
    return (
      open && {
        type: 'answer',
        revision: play.state.briefing.revision,
        question: questionId(open),
        choice: open.order.indexOf(0),
        witnessFor: id,
      }
    );
  }),
  fc.constantFrom(...people).map(
    (id) =>
      (play: Play): CommandInput => ({
        type: 'sign',
        revision: play.state.briefing.revision,
        witnessFor: id,
      }),
  ),
  fc.constantFrom(...flushSteps).map((step) => (play: Play): CommandInput | null => {
    const flush = play.rig().flush;
    return flush && { type: 'confirm-step', rig: 'rig-1', flush: flush.id, step };
  }),
  fc.constant((play: Play): CommandInput | null => {
    const flush = play.rig().flush;
    const next = flush && flushSteps.find((step) => flush.steps[step] === undefined);
    return flush && next
      ? { type: 'confirm-step', rig: 'rig-1', flush: flush.id, step: next, litres: 3 }
      : null;
  }),
  fc.constant((play: Play): CommandInput | null => {
    const first = ringingBells(play.state, play.now)[0];
    return first ? { type: 'answer-bell', bell: first.key } : null;
  }),
);
const presses = fc.array(fc.record({ press, who, after: fc.integer({ min: 0, max: 25 }) }), {
  maxLength: 40,
});

type Presses = readonly {
  readonly press: CommandInput | ((play: Play) => CommandInput | null);
  readonly who: string;
  readonly after: number;
}[];

function pressed(play: Play, list: Presses, each: (before: string) => void = () => {}): void {
  for (const one of list) {
    play.now += one.after * MINUTE;
    const command = typeof one.press === 'function' ? one.press(play) : one.press;
    if (!command) continue;
    const before = JSON.stringify(play.shift);
    play.try(command, one.who === 'nobody' ? nobody : one.who);
    each(before);
  }
}

describe('the one door', () => {
  test('EN1 a refusal changes nothing and has words that end as a sentence', () => {
    fc.assert(
      fc.property(presses, (list) => {
        const play = posted();
        for (const one of list) {
          play.now += one.after * MINUTE;
          const command = typeof one.press === 'function' ? one.press(play) : one.press;
          if (!command) continue;
          const [before, lines] = [JSON.stringify(play.shift), play.journal.length];
          const done = play.try(command, one.who === 'nobody' ? nobody : one.who);
          if (!done.refused) continue;
          expect(JSON.stringify(play.shift)).toBe(before);
          expect(play.journal.length).toBe(lines);
        }
      }),
      { seed: 1, numRuns: 60 },
    );
  });

  test('EN3 after any presses the journal rebuilds the state, and the state is plain JSON', () => {
    fc.assert(
      fc.property(presses, (list) => {
        const play = posted();
        pressed(play, list, () => {
          expect(JSON.parse(JSON.stringify(play.shift))).toEqual(play.shift);
        });
        expect(replay(play.id, null, play.journal)).toEqual(play.shift);
        expect(play.journal.map(({ seq }) => seq)).toEqual(play.journal.map((_, index) => index + 1));
      }),
      { seed: 2, numRuns: 80 },
    );
  });

  test('EN3 a journal with a line left out is not folded', () => {
    const { journal, id } = briefed();
    expect(journal.length).toBeGreaterThan(1);
    expect(() => replay(id, null, journal.slice(1))).toThrow(/begins with/);
    const play = briefed();
    play.sign('pia');
    expect(() =>
      replay(
        id,
        null,
        play.journal.filter(({ seq }) => seq !== 2),
      ),
    ).toThrow('line 3 follows line 1');
  });

  test('EN3 what is said is whole: a summary, no holes, and the summary in the text', () => {
    fc.assert(
      fc.property(presses, (list) => {
        const play = posted();
        for (const one of list) {
          play.now += one.after * MINUTE;
          const command = typeof one.press === 'function' ? one.press(play) : one.press;
          if (!command) continue;
          const before = play.shift;
          const done = play.try(command, one.who === 'nobody' ? nobody : one.who);
          if (done.refused) continue;
          for (const { message, key } of announcements(before, done.shift, done.events, textsFor)) {
            const text = plainText(message);
            expect(key).not.toMatch(/undefined|NaN/);
            expect(message.summary.trim()).not.toBe('');
            expect(text).toContain(message.summary);
            expect(text).not.toMatch(/undefined|NaN|\bnull\b|[{}]|\[object/);
          }
        }
      }),
      { seed: 3, numRuns: 60 },
    );
  });

  test('EN2 the same command a second time changes nothing and says so', async () => {
    const world = new World(memoryStore(), [recordingSurface().surface], t('06:40'));
    const day = { at: world.now, by: person('finn'), command: aDay() };
    await world.take(day, 'one');
    const before = await world.store.journal('weir:2026-05-12');
    const again = await world.take(day, 'one');
    expect(again).toMatchObject({ ok: true, repeated: true, events: [] });
    const stop = { at: world.now, by: nobody, command: { type: 'stop-work' } as const };
    expect(await world.take(stop, 'two')).toMatchObject({ ok: true, repeated: false });
    expect(await world.take(stop, 'two')).toMatchObject({ ok: true, repeated: true });
    const after = await world.store.journal('weir:2026-05-12');
    expect(after.length).toBe(before.length + 1);
  });

  test('EN1 two different presses for one thing: the second is told it is done', async () => {
    const world = new World(memoryStore(), [recordingSurface().surface], t('06:40'));
    await world.take({ at: world.now, by: person('finn'), command: aDay() }, 'one');
    const stop = { at: world.now, by: nobody, command: { type: 'stop-work' } as const };
    const both = await Promise.all([world.take(stop, 'a'), world.take(stop, 'b')]);
    expect(both.map(({ ok }) => ok)).toEqual([true, false]);
    expect(both[1]?.shown.summary).toContain('Work is stopped already');
  });

  test('EN1 a command for a shift that does not exist is refused in words', async () => {
    const world = new World(memoryStore(), [recordingSurface().surface], t('06:40'));
    const done = await world.host.handle({
      shift: 'weir:1999-01-01',
      command: commandSchema.parse({ type: 'stop-work' }),
      actor: nobody,
      commandId: 'x',
    });
    expect(done).toMatchObject({
      ok: false,
      shown: { summary: expect.stringContaining('No day has been posted') },
    });
  });
});

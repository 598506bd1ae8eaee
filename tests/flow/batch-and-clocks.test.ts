import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { conflictsOf, rigClocks, usedUp } from '../../src/flow/clocks.ts';
import { holdsOf } from '../../src/flow/holds.ts';
import { MINUTE } from '../../src/model/time.ts';
import { aBatch, briefed, mixed, type Play, ready } from './harness.ts';
import { aPack, t } from './pack.ts';

const refusedMix = (play: Play, more: object) => play.refused({ ...aBatch, ...more }, 'max');
const clocks = (play: Play) => rigClocks(play.state, 'rig-1');
const governing = (play: Play) => {
  const clock = clocks(play)[0];
  if (!clock) throw new Error('no clock');
  return clock;
};

describe('batch', () => {
  test('BA1 a batch under holds is logged with them', () => {
    const play = briefed().at('08:00');
    const [event] = play.mix();
    expect(event).toMatchObject({
      type: 'batch-mixed',
      batch: { underHolds: ['unsigned', 'no-reading', 'rig-unchecked'] },
    });
    expect(clocks(play)).toHaveLength(1);
  });

  test('BA1 a batch without holds says none', () => {
    expect(mixed().rig().batches[0]).toMatchObject({
      id: 'rig-1-1',
      underHolds: [],
      aL: 16,
      bL: 4,
      at: t('08:00'),
    });
  });

  describe('a two-pack whose pot life nobody knows', () => {
    const pack = aPack();
    const coatings = pack.coatings.map(({ potLife, ...sheet }) =>
      sheet.id === 'epoxy' ? sheet : { ...sheet, potLife },
    );
    const play = () => ready({}, { ...pack, coatings });

    test('HO4 holds the rig it is for, and no other', () => {
      const { state, now } = play();
      expect(holdsOf(state, now, 'rig-1')).toEqual([{ kind: 'pot-life-unknown', coating: 'epoxy' }]);
      expect(holdsOf(state, now, 'rig-2').map(({ kind }) => kind)).not.toContain('pot-life-unknown');
    });

    test('HO4 BA1 a batch of it is logged, has no time and rings at once', () => {
      const mixing = play().at('08:00');
      mixing.mix();
      expect(mixing.rig().batches[0]).toMatchObject({ underHolds: ['pot-life-unknown'] });
      const { useBy, startFlushBy, deadAt, tooShort } = governing(mixing).times;
      expect([useBy, startFlushBy]).toEqual([t('08:00'), t('08:00')]);
      expect(tooShort).toBe(true);
      expect(deadAt - t('08:00')).toBeLessThan(5_000);
      const rang = mixing.ringUntil('08:01').map(({ bell }) => bell);
      expect(rang.map((key) => key.split(':')[0])).toContain('dead');
    });

    test('HO4 in the cold it has no more time', () => {
      const mixing = play().at('08:00');
      mixing.mix({ paintC: -20 });
      expect(governing(mixing).times.deadAt - t('08:00')).toBeLessThan(60_000);
    });
  });

  test('BA2 no batch on a rig that is tagged out', () => {
    const play = ready();
    play.do({ type: 'report-defect', rig: 'rig-1', part: 'hose', text: 'bulge' }, 'hal');
    expect(refusedMix(play, {}).text).toBe('refusal.tagged-out');
  });

  test.each([
    ['half a kit without measures', { litres: 10 }, 'refusal.part-kit'],
    ['hardener a tenth short', { litres: 10, aL: 8.16, bL: 1.84 }, 'refusal.off-ratio'],
    ['hardener a tenth too much', { litres: 10, aL: 7.84, bL: 2.16 }, 'refusal.off-ratio'],
    ['no hardener to speak of', { litres: 10, aL: 10, bL: 0.001 }, 'refusal.out-of-range'],
    ['parts that do not make the sum', { litres: 12, aL: 8, bL: 2 }, 'refusal.parts-do-not-add'],
  ])('BA3 %s is refused', (_what, more, text) => {
    expect(refusedMix(ready(), more).text).toBe(text);
  });

  test('BA3 a part kit measured in ratio, and two kits, are taken', () => {
    const play = ready();
    play.mix({ litres: 10, aL: 8, bL: 2 });
    play.mix({ litres: 40 });
    expect(play.rig().batches.map(({ aL, bL }) => [aL, bL])).toEqual([
      [8, 2],
      [32, 8],
    ]);
  });

  test('BA3 a refused part kit names the nearest kits, a wrong ratio the hardener that was needed', () => {
    const two = { below: 1, belowL: 20, above: 2, aboveL: 40 };
    expect(refusedMix(ready(), { litres: 30 })).toMatchObject({ params: { litres: 30, kit: 20, ...two } });
    expect(refusedMix(ready(), { litres: 10 })).toMatchObject({ params: { below: 0, above: 1, aboveL: 20 } });
    const short = { a: 8.16, b: 1.84, needed: 2.04, error: 9.8, way: 'short' };
    expect(refusedMix(ready(), { litres: 10, aL: 8.16, bL: 1.84 })).toMatchObject({ params: short });
    expect(refusedMix(ready(), { litres: 10, aL: 7.84, bL: 2.16 })).toMatchObject({
      params: { way: 'over' },
    });
  });

  test.each([{ aL: 16 }, { bL: 4 }])('BA3 one part measured and not the other is refused: %o', (more) => {
    expect(refusedMix(ready(), more).text).toBe('refusal.both-parts');
  });

  test('BA4 thinner over the sheet is refused, at the sheet it is taken and moves no clock', () => {
    expect(refusedMix(ready(), { thinnerL: 1.2 })).toMatchObject({ params: { percent: 6, most: 5 } });
    const thinned = ready().at('08:00');
    thinned.mix({ thinnerL: 1 });
    expect(governing(thinned).times).toEqual(governing(mixed()).times);
  });

  test('BA4 thinner where the sheet has none is refused', () => {
    expect(refusedMix(ready(), { coating: 'finish', thinnerL: 0.5 }).text).toBe('refusal.thinner-over-sheet');
  });

  test('BA5 a batch logged late counts from when it was mixed', () => {
    const play = ready().at('08:40');
    play.mix({ mixedAt: t('08:00') });
    expect(governing(play).times).toEqual(governing(mixed()).times);
  });

  test('BA5 a mixing time in the future or more than twelve hours back is refused', () => {
    expect(refusedMix(ready(), { mixedAt: t('07:02') }).text).toBe('refusal.mixed-in-future');
    expect(refusedMix(ready(), { mixedAt: t('07:00') - 12 * 60 * MINUTE - 1 }).text).toBe(
      'refusal.mixed-too-long-ago',
    );
  });

  test('BA6 another coating than is in the line is refused until it is flushed', () => {
    const play = mixed();
    expect(refusedMix(play, { coating: 'finish' }).text).toBe('refusal.other-coating-in-line');
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo();
    play.mix({ coating: 'finish' });
  });

  test('BA6 no batch while a flush is running, none on top of an empty pot, none of an unknown coating', () => {
    const play = mixed();
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    expect(refusedMix(play, {}).text).toBe('refusal.flush-running');
    expect(refusedMix(ready(), { pot: 'on-top' }).text).toBe('refusal.nothing-to-top');
    expect(refusedMix(ready(), { coating: 'glitter' }).text).toBe('refusal.unknown-coating');
  });
});

describe('clocks', () => {
  // 2.356 L of line, 3 and 2 volumes at 2 L a minute and 8 fixed minutes: 13.89 min of flush.
  test('PL1 the three times of a batch at 20 °C with 120 min of pot life', () => {
    const { times } = governing(mixed());
    expect(times.deadAt).toBe(t('10:00'));
    expect(times.useBy).toBe(t('09:30'));
    expect((t('10:00') - times.startFlushBy) / MINUTE).toBeCloseTo(13.89, 2);
  });

  test('PL1 a one-pack has no clock', () => {
    const play = ready().at('08:00');
    play.mix({ coating: 'one-pack' });
    expect(clocks(play)).toEqual([]);
    expect(play.rig().line?.coating).toBe('one-pack');
  });

  test('PL1 past the end of the pot life is a hold', () => {
    const play = mixed();
    expect(holdsOf(play.state, t('10:00') - 1).map(({ kind }) => kind)).not.toContain('past-pot-life');
    expect(holdsOf(play.state, t('10:00')).map(({ kind }) => kind)).toContain('past-pot-life');
  });

  test('PL2 the clock that runs out first is at the front', () => {
    const play = mixed().at('08:30');
    play.mix();
    expect(clocks(play).map(({ where, mixed: one }) => [where, one.batch])).toEqual([
      ['line', 'rig-1-1'],
      ['pot', 'rig-1-2'],
    ]);
  });

  test('PL3 a fresh pot has a clock of its own and leaves the line its old one', () => {
    const play = mixed().at('08:30');
    play.mix();
    expect(clocks(play).map(({ times }) => times.deadAt)).toEqual([t('10:00'), t('10:30')]);
    expect(play.rig().renewLitres).toBe(7.1);
  });

  test('PL4 on top of old paint the older batch counts', () => {
    const play = mixed().at('08:30');
    play.mix({ pot: 'on-top' });
    expect(clocks(play).map(({ times }) => times.deadAt)).toEqual([t('10:00')]);
  });

  test('PL4 warmer paint on top makes the times earlier', () => {
    const play = mixed().at('08:30');
    play.mix({ pot: 'on-top', paintC: 30 });
    // A quarter used at 20 °C; three quarters at 30 °C take 45 min.
    expect(governing(play).times.deadAt).toBe(t('09:15'));
  });

  test("BA7 a mixing temperature written down wrong is mended from the mixing on; cooler is the foreman's", () => {
    const play = ready().at('08:00');
    play.mix({ paintC: 20 });
    expect(governing(play).times.deadAt).toBe(t('10:00'));
    const right = ready().at('08:00');
    right.mix({ paintC: 30 });
    const mend = { type: 'mend-mix-temperature', rig: 'rig-1', batch: 'rig-1-1', c: 30 } as const;
    play.at('08:40').do(mend, 'max');
    expect(governing(play).times.deadAt).toBe(governing(right).times.deadAt);
    expect(governing(play).times.deadAt).toBeLessThan(t('10:00'));
    expect(play.refused({ ...mend, c: 20 }, 'max').text).toBe('refusal.foreman-only');
    play.do({ ...mend, c: 20 });
    expect(governing(play).times.deadAt).toBe(t('10:00'));
    expect(play.refused({ ...mend, batch: 'rig-1-9' }).text).toBe('refusal.old-batch');
  });

  test('PL5 the line counts as fresh only after enough litres', () => {
    const play = mixed().at('08:30');
    play.mix();
    expect(play.refused({ type: 'line-renewed', rig: 'rig-1', sprayedL: 7 }, 'pia')).toMatchObject({
      params: { needed: 7.1 },
    });
    expect(play.refused({ type: 'line-renewed', rig: 'rig-1', sprayedL: 21 }, 'pia').text).toBe(
      'refusal.sprayed-more-than-mixed',
    );
    const renewed = { type: 'line-renewed', rig: 'rig-1', sprayedL: 7.1 } as const;
    // Ten minutes it has to stand, and then the pump takes its time.
    expect(play.refused(renewed, 'pia').text).toBe('refusal.sprayed-too-fast');
    expect(play.at('08:41').refused(renewed, 'pia').text).toBe('refusal.sprayed-too-fast');
    play.at('08:50').do(renewed, 'pia');
    expect(clocks(play).map(({ times }) => times.deadAt)).toEqual([t('10:30')]);
    expect(play.refused({ type: 'line-renewed', rig: 'rig-1', sprayedL: 8 }, 'pia').text).toBe(
      'refusal.line-is-fresh',
    );
  });

  test('PL6 a break in which the paint runs out is a conflict with the time to start flushing', () => {
    const play = mixed({ breaks: [{ from: '09:15', to: '09:45' }] });
    const found = conflictsOf(play.state.day, 'rig-1', governing(play), play.now);
    expect(found).toMatchObject([{ kind: 'break', from: t('09:15'), to: t('09:45') }]);
    expect((t('09:15') - (found[0]?.flushBy ?? 0)) / MINUTE).toBeCloseTo(13.89, 2);
  });

  test('PL6 a break so soon after it runs out that the flush reaches into it is said as well', () => {
    const play = mixed({ breaks: [{ from: '09:40', to: '10:00' }] });
    expect(conflictsOf(play.state.day, 'rig-1', governing(play), play.now)).toMatchObject([
      { kind: 'break' },
    ]);
  });

  test.each([
    ['long before it runs out', { from: '08:10', to: '08:30' }],
    ['after it has run out and been flushed', { from: '09:45', to: '10:00' }],
  ])('PL6 a break %s is none', (_when, one) => {
    const play = mixed({ breaks: [one] });
    expect(conflictsOf(play.state.day, 'rig-1', governing(play), play.now)).toEqual([]);
  });

  test('PL6 paint that lasts past the end of the shift is a conflict', () => {
    const play = mixed({ end: '09:40' });
    expect(conflictsOf(play.state.day, 'rig-1', governing(play), play.now)).toMatchObject([
      { kind: 'end', endsAt: t('09:40') },
    ]);
  });

  test('PL7 a warmer pot moves every time earlier at once', () => {
    const play = mixed().at('09:00');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    // Half used; the other half at 30 °C takes 30 min, to three quarters 15 min.
    expect(governing(play).times).toMatchObject({ deadAt: t('09:30'), useBy: t('09:15') });
    expect(usedUp(play.state.day, governing(play), t('09:00'))).toBeCloseTo(0.5, 9);
  });

  test('PL7 a cooler pot of the same batch moves them later', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    play.at('08:45').do({ type: 'pot-temperature', rig: 'rig-1', c: 20 }, 'max');
    // A quarter at 20, a quarter at 30, half at 20.
    expect(governing(play).times.deadAt).toBe(t('09:45'));
  });

  test('PL7 a cool fresh pot gives the old line no time', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    play.mix({ paintC: 30 });
    const before = governing(play).times;
    play.at('08:40').do({ type: 'pot-temperature', rig: 'rig-1', c: 20 }, 'max');
    expect(governing(play).times).toEqual(before);
  });

  test('PL8 a measured hose moves the line alone, both ways', () => {
    const play = mixed().at('09:00');
    play.do({ type: 'hose-temperature', rig: 'rig-1', c: 30 }, 'pia');
    expect(governing(play)).toMatchObject({ where: 'line', times: { deadAt: t('09:30') } });
    play.at('09:15').do({ type: 'hose-temperature', rig: 'rig-1', c: 20 }, 'pia');
    expect(governing(play).times.deadAt).toBe(t('09:45'));
  });

  test('PL8 a cooler pot does not undo what was measured at the hose', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'hose-temperature', rig: 'rig-1', c: 30 }, 'pia');
    const before = governing(play).times;
    play.at('08:40').do({ type: 'pot-temperature', rig: 'rig-1', c: 20 }, 'max');
    expect(governing(play).times).toEqual(before);
  });

  test('PL9 a hose felt warm counts warmer by the figure of the site, once', () => {
    const play = mixed().at('09:00');
    play.do({ type: 'hose-warm', rig: 'rig-1' }, 'pia');
    expect(play.rig().line?.history.at(-1)).toEqual({ at: t('09:00'), c: 35 });
    expect(governing(play).times.deadAt).toBeLessThan(t('09:30'));
    expect(play.refused({ type: 'hose-warm', rig: 'rig-1' }, 'pia').text).toBe('refusal.already-warm');
  });

  test('PL9 a fresh batch that goes through a warm hose is counted as warm as the hose', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'hose-warm', rig: 'rig-1' }, 'pia');
    play.mix();
    play.at('08:50').do({ type: 'line-renewed', rig: 'rig-1', sprayedL: 8 }, 'pia');
    expect(play.rig().line).toMatchObject({ batch: 'rig-1-2', ownC: true });
    expect(play.rig().line?.history.at(-1)?.c).toBe(35);
  });

  test('PL10 an empty pot leaves the line its clock', () => {
    const play = mixed().at('08:30');
    play.mix();
    play.do({ type: 'pot-empty', rig: 'rig-1', wastedL: 19 }, 'max');
    expect(clocks(play).map(({ where, times }) => [where, times.deadAt])).toEqual([['line', t('10:00')]]);
    expect(play.refused({ type: 'pot-empty', rig: 'rig-1' }, 'max').text).toBe('refusal.pot-already-empty');
  });

  test('PL11 use-by, start of flush and dead come in that order, and no warning moves them later', () => {
    const c = fc.integer({ min: 0, max: 70 });
    fc.assert(
      fc.property(
        c,
        fc.array(fc.record({ c, hose: fc.boolean(), after: fc.integer({ min: 1, max: 40 }) }), {
          maxLength: 6,
        }),
        (paintC, steps) => {
          const play = ready().at('08:00');
          play.mix({ paintC });
          for (const step of steps) {
            play.now += step.after * MINUTE;
            play.do(
              { type: step.hose ? 'hose-temperature' : 'pot-temperature', rig: 'rig-1', c: step.c },
              'max',
            );
            for (const { times, mixed: one } of clocks(play)) {
              expect(times.useBy).toBeLessThanOrEqual(times.startFlushBy);
              expect(times.startFlushBy).toBeLessThanOrEqual(times.deadAt);
              expect(times.useBy).toBeGreaterThanOrEqual(one.mixedAt);
            }
          }
          const before = Math.min(...clocks(play).map(({ times }) => times.deadAt));
          if (!play.rig().line?.warm) play.do({ type: 'hose-warm', rig: 'rig-1' }, 'pia');
          expect(Math.min(...clocks(play).map(({ times }) => times.deadAt))).toBeLessThanOrEqual(before);
        },
      ),
      { seed: 20, numRuns: 60 },
    );
  });

  test('PA1 a pause stops no clock', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'pause', rig: 'rig-1', why: 'lift' }, 'pia');
    expect(play.rig().pausedAt).toBe(t('08:30'));
    expect(governing(play).times).toEqual(governing(mixed()).times);
    expect(play.refused({ type: 'pause', rig: 'rig-1' }, 'pia').text).toBe('refusal.already-paused');
  });

  test('PA2 what is not paused cannot go on', () => {
    const play = mixed();
    expect(play.refused({ type: 'resume', rig: 'rig-1' }, 'pia').text).toBe('refusal.not-paused');
    play.do({ type: 'pause', rig: 'rig-1' }, 'pia');
    play.do({ type: 'resume', rig: 'rig-1' }, 'pia');
    expect(play.rig().pausedAt).toBeNull();
  });

  test.each([
    { type: 'pot-temperature', rig: 'rig-1', c: 20 },
    { type: 'hose-temperature', rig: 'rig-1', c: 20 },
    { type: 'hose-warm', rig: 'rig-1' },
    { type: 'pause', rig: 'rig-1' },
    { type: 'pot-empty', rig: 'rig-1' },
    { type: 'line-renewed', rig: 'rig-1', sprayedL: 8 },
  ] as const)('PL1 $type without mixed paint is refused', (command) => {
    expect(ready().refused(command, 'max').text).toBe('refusal.no-mixed-paint');
  });
});

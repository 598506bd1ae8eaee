import { describe, expect, test } from 'vitest';
import { strictestLimits } from '../../src/facts/limits.ts';
import { holdsOf } from '../../src/flow/holds.ts';
import { commandSchema } from '../../src/model/command.ts';
import { allChecks, briefed, Play, posted, ready } from './harness.ts';
import { aDay, aJob, aPack, t } from './pack.ts';

describe('rig check', () => {
  test('RC1 a check with everything in order ends its hold', () => {
    const play = briefed().signAll();
    play.reading();
    expect(holdsOf(play.state, play.now)).toEqual([{ kind: 'rig-unchecked', rig: 'rig-1' }]);
    play.checkRig();
    expect(holdsOf(play.state, play.now)).toEqual([]);
  });

  test('RC1 one defect tags the rig out, with the failed checks and the note', () => {
    const play = briefed();
    const events = play.checkRig('rig-1', ['gauge', 'earth-lead'], 'clamp gone');
    expect(events.map(({ type }) => type)).toEqual(['rig-checked', 'rig-tagged']);
    expect(play.rig().tag).toEqual({ at: play.now, cause: 'check', text: 'earth-lead, gauge: clamp gone' });
  });

  test('RC1 a check with an item unanswered is refused', () => {
    const { gauge: _gauge, ...results } = allChecks();
    const command = { type: 'check-rig', rig: 'rig-1', results } as never;
    expect(commandSchema.safeParse(command).success).toBe(false);
  });

  test('RC1 an unknown rig is refused with the rigs there are', () => {
    expect(briefed().refused({ type: 'check-rig', rig: 'rig-9', results: allChecks() }, 'pia')).toMatchObject(
      {
        text: 'refusal.unknown-rig',
        params: { rig: 'rig-9', known: 'rig-1, rig-2' },
      },
    );
  });

  test('RC2 a second defect adds its words to the first', () => {
    const play = ready();
    play.do({ type: 'report-defect', rig: 'rig-1', part: 'hose', text: 'bulge' }, 'hal');
    play.at('07:30').do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'leaks' }, 'pia');
    expect(play.rig().tag).toMatchObject({ at: t('07:00') });
    expect(play.rig().tag?.text).toContain('bulge');
    expect(play.rig().tag?.text).toContain('leaks');
  });

  test('RC3 only a foreman clears a tag, and the rig has to be checked again', () => {
    const play = ready();
    const clear = { type: 'clear-tag', rig: 'rig-1', text: 'New hose' } as const;
    expect(play.refused(clear).text).toBe('refusal.not-tagged');
    play.do({ type: 'report-defect', rig: 'rig-1', part: 'hose', text: 'bulge' }, 'hal');
    expect(play.refused(clear, 'pia').text).toBe('refusal.foreman-only');
    play.do(clear);
    expect(holdsOf(play.state, play.now)).toEqual([{ kind: 'rig-unchecked', rig: 'rig-1' }]);
  });
});

describe('conditions and holds', () => {
  test('CO1 a reading with wet bulb is kept with the humidity worked out from it', () => {
    const play = briefed();
    play.do({ type: 'take-reading', airC: 20, wetC: 20, steelC: 20 }, 'max');
    expect(play.state.readings).toMatchObject([{ rhPct: 100, wetC: 20, by: 'max' }]);
  });

  test('CO1 a wet bulb warmer than the air is refused and names the field', () => {
    expect(briefed().refused({ type: 'take-reading', airC: 20, wetC: 21, steelC: 20 }, 'max')).toMatchObject({
      text: 'refusal.out-of-range',
      params: { field: 'wetC', value: '21' },
    });
  });

  test('CO1 humidity and wet bulb together, or none of the two, are refused by the schema', () => {
    const base = { type: 'take-reading', airC: 20, steelC: 20 };
    expect(commandSchema.safeParse(base).success).toBe(false);
    expect(commandSchema.safeParse({ ...base, rhPct: 50, wetC: 15 }).success).toBe(false);
  });

  test('CO2 a reading is old after the time of the site', () => {
    const play = ready();
    expect(holdsOf(play.state, t('11:00') - 1)).toEqual([]);
    expect(holdsOf(play.state, t('11:00'))).toEqual([{ kind: 'old-reading', takenAt: t('07:00') }]);
  });

  test('CO2 the next reading is asked for when the last grows old', () => {
    const rang = ready().ringUntil('11:00');
    expect(rang.map(({ bell, at }) => [bell, at])).toEqual([[`reading-due:${t('07:00')}`, t('11:00')]]);
  });

  test('HO1 a day begins with its holds and each ends with its reason', () => {
    const play = posted();
    expect(holdsOf(play.state, play.now).map(({ kind }) => kind)).toEqual([
      'not-briefed',
      'no-reading',
      'rig-unchecked',
    ]);
    expect(holdsOf(ready().state, t('07:00'))).toEqual([]);
  });

  test('HO2 steel under three degrees over the dew point is a hold', () => {
    const play = ready();
    // Dew point of 20 °C and 80 % is 16.4 °C (Magnus, Alduchov & Eskridge 1996).
    play.reading(20, 80, 19);
    expect(holdsOf(play.state, play.now)).toMatchObject([{ kind: 'climate', limit: 'margin', allowed: 3 }]);
    play.reading(20, 80, 19.5);
    expect(holdsOf(play.state, play.now)).toEqual([]);
  });

  test('HO2 the stricter of site and sheet counts', () => {
    const strict = posted({}, aPack({ policy: { marginMinC: 5, rhMaxPct: 70 } })).state.day;
    expect(strictestLimits(strict, strict.coatings.epoxy ?? null)).toMatchObject({
      marginMinC: 5,
      rhMaxPct: 70,
      steelMinC: 5,
    });
    const loose = posted({}, aPack()).state.day;
    expect(strictestLimits(loose, loose.coatings.epoxy ?? null)).toMatchObject({
      marginMinC: 3,
      rhMaxPct: 85,
    });
  });

  test('HO3 more pressure than the weakest part has is a hold', () => {
    // 40 to 1 at 6 bar is 240 bar, the hose has 250; the pack below gives it 230.
    const pack = aPack();
    const weak = {
      ...pack,
      rigs: pack.rigs.map((rig) => ({
        ...rig,
        ratings: rig.ratings.map((one) => (one.part === 'hose' ? { ...one, bar: 230 } : one)),
      })),
    };
    const play = posted({ jobs: [aJob({ airBar: 6 })] }, weak);
    expect(holdsOf(play.state, play.now, 'rig-1')).toContainEqual({
      kind: 'over-rating',
      rig: 'rig-1',
      bar: 240,
      part: 'hose',
      rated: 230,
    });
    const strong = posted({ jobs: [aJob({ airBar: 6 })] });
    expect(holdsOf(strong.state, strong.now, 'rig-1').map(({ kind }) => kind)).not.toContain('over-rating');
  });

  test('HO3 a gun below the pump has the weight of the paint on top; one above it takes nothing off the hose', () => {
    // 40 to 1 at 6 bar is 240 bar of the 250 the hose has; 70 m of 1.6 kg/L are 1600 × 9.80665 × 70 Pa = 10.98 bar.
    const holds = (liftM: number) => {
      const play = posted({ jobs: [aJob({ airBar: 6, liftM })] });
      return holdsOf(play.state, play.now, 'rig-1').filter(({ kind }) => kind === 'over-rating');
    };
    expect(holds(-70)).toMatchObject([{ bar: expect.closeTo(250.983, 3), part: 'hose', rated: 250 }]);
    expect(holds(-60)).toEqual([]);
    expect(holds(70)).toEqual([]);
  });

  test('HO3 a lift that the pump cannot reach is refused with the day', () => {
    const day = aDay({ jobs: [aJob({ airBar: 0.1, liftM: 40 })] });
    expect(new Play().refused(day)).toMatchObject({
      text: 'refusal.out-of-range',
      params: { field: 'liftM', value: '40' },
    });
  });

  test('HO3 an unknown rating of hose or gun is a hold', () => {
    const pack = aPack();
    const unread = {
      ...pack,
      rigs: pack.rigs.map((rig) => ({ ...rig, ratings: rig.ratings.filter(({ part }) => part !== 'gun') })),
    };
    const play = posted({}, unread);
    expect(holdsOf(play.state, play.now, 'rig-1').map(({ kind }) => kind)).toContain('rating-unknown');
  });

  test('CO3 a slip of the keys is taken back with a reason, by who took it or by the foreman', () => {
    const play = ready();
    const slip = { type: 'take-reading', airC: 20, rhPct: 1, steelC: 79 } as const;
    play.at('07:20').do(slip, 'max');
    const back = { type: 'void-reading', takenAt: t('07:20'), reason: 'Typed the wrong figures.' } as const;
    expect(play.refused(back, 'pia').text).toBe('refusal.foreman-only');
    play.do(back, 'max');
    expect(play.state.readings.map(({ at }) => at)).not.toContain(t('07:20'));
    expect(play.refused(back, 'max').text).toBe('refusal.no-such-reading');
    play.at('07:25').do(slip, 'max');
    play.do({ ...back, takenAt: t('07:25') });
    // Both stay in the journal.
    expect(play.journal.filter(({ body }) => body.type === 'reading-taken').length).toBeGreaterThanOrEqual(3);
  });
});

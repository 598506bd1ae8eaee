import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { step } from '../../src/engine.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { nextRingAt, ringingBells } from '../../src/flow/ringing.ts';
import { MINUTE } from '../../src/model/time.ts';
import { briefed, mixed, nobody, type Play, posted, ready } from './harness.ts';
import { aDay, t } from './pack.ts';

const wanted = (play: Play) => wantedBells(play.state).map(({ key }) => key);
const clock = (at: number) => new Date(at).toISOString().slice(11, 16);
const rung = (rang: ReturnType<Play['ringUntil']>) =>
  rang.map(({ at, bell, level }) => `${clock(at)} ${bell} ${level}`);

describe('bells', () => {
  test('BE1 a sign-off that is chased stops being wanted when it is signed', () => {
    const play = briefed();
    expect(wanted(play).filter((key) => key.startsWith('unsigned'))).toHaveLength(6);
    play.sign('pia');
    expect(wanted(play)).not.toContain('unsigned:pia:1');
  });

  test('BE1 a closed shift wants none', () => {
    const play = briefed();
    play.do({ type: 'close-shift', reason: 'storm' });
    expect(wanted(play)).toEqual([]);
    expect(nextRingAt(play.state, play.now)).toBeNull();
  });

  test('BE1 the flush takes away the bells of the paint that is out', () => {
    const play = mixed().at('09:30');
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo();
    expect(wanted(play).filter((key) => key.includes('rig-1'))).toEqual([]);
  });

  test('BE2 crew, foreman, safety contact, and on', () => {
    const rang = briefed()
      .ringUntil('07:00')
      .filter(({ person }) => person === null);
    expect(rung(rang)).toEqual([
      '06:40 unsigned:1 crew',
      '06:44 unsigned:1 foreman',
      '06:48 unsigned:1 safety',
      '06:53 unsigned:1 safety',
      '06:58 unsigned:1 safety',
    ]);
  });

  test('BE10 besides the crew there is a bell to each alone, for the foreman only who has not heard of them', () => {
    const alone = (play: Play, until: string) =>
      rung(play.ringUntil(until).filter(({ person }) => person === 'pia'));
    const play = briefed();
    expect(alone(play, '06:53')).toEqual([
      '06:40 unsigned:pia:1 crew',
      '06:44 unsigned:pia:1 crew',
      '06:48 unsigned:pia:1 crew',
      '06:53 unsigned:pia:1 crew',
    ]);
    // Somebody takes the crew's bell before Lou comes: the crew's is quiet, so the foreman hears of Lou from Lou's own, once.
    const other = briefed().at('06:33');
    other.do({ type: 'arrive', person: 'lou' }, 'lou');
    other.ringUntil('06:40');
    other.do({ type: 'answer-bell', bell: 'unsigned:1' }, 'max');
    const lou = other.ringUntil('06:57').filter(({ person }) => person === 'lou');
    expect(rung(lou)).toEqual([
      '06:43 unsigned:lou:1 crew',
      '06:47 unsigned:lou:1 foreman',
      '06:51 unsigned:lou:1 crew',
      '06:56 unsigned:lou:1 crew',
    ]);
  });

  test("BE10 somebody who comes when all have signed brings the crew's bell back from its first step", () => {
    const play = briefed();
    play.ringUntil('06:50');
    play.signAll();
    expect(wanted(play).filter((key) => key.startsWith('unsigned'))).toEqual([]);
    play.at('08:00').do({ type: 'arrive', person: 'lou' }, 'lou');
    expect(rung(play.ringUntil('08:14')).filter((one) => one.includes('unsigned'))).toEqual([
      '08:10 unsigned:1 crew',
      '08:10 unsigned:lou:1 crew',
      '08:14 unsigned:1 foreman',
      '08:14 unsigned:lou:1 crew',
    ]);
  });

  test('BE2 a concern begins with the foreman', () => {
    const play = ready();
    play.do({ type: 'raise-concern', text: 'Ladder' }, 'hal');
    expect(rung(play.ringUntil('07:08'))).toEqual([
      '07:04 concern:concern-1 foreman',
      '07:08 concern:concern-1 safety',
    ]);
  });

  test('BE3 after a silence a bell rings once, late, with what was missed', () => {
    const play = briefed().at('06:55');
    const [ring, ...others] = play.ring().filter(({ person }) => person === null);
    expect(others).toEqual([]);
    expect(ring).toMatchObject({
      step: 3,
      level: 'safety',
      late: true,
      missedRings: 3,
      scheduledFor: t('06:40'),
    });
    expect(play.ring()).toEqual([]);
    // From then on in its own rhythm, counted from the ring that people heard.
    expect(rung(play.ringUntil('07:00').filter(({ person }) => person === null))).toEqual([
      '07:00 unsigned:1 safety',
    ]);
  });

  test('BE3 a ring a few seconds behind is not late', () => {
    const play = briefed().at(t('06:40') + 30_000);
    expect(play.ring().map(({ late }) => late)).toEqual(Array(6).fill(false));
  });

  test('BE3 the briefing itself is given out after a silence', () => {
    const play = posted().at('06:50');
    play.ring();
    expect(play.state.issuedAt).toBe(t('06:50'));
  });

  test('BE4 the bells of one batch', () => {
    const first = mixed()
      .ringUntil('10:00')
      .filter(({ step }) => step === 0);
    expect(rung(first)).toEqual([
      '08:10 induction-over:rig-1-1 crew',
      '09:15 use-by-soon:rig-1:line:rig-1-1 crew',
      '09:30 use-by:rig-1:line:rig-1-1 crew',
      '09:46 start-flush:rig-1:line:rig-1-1 crew',
      '10:00 dead:rig-1:line:rig-1-1 crew',
    ]);
  });

  test('BE4 a bell that only informs rings once and waits for no answer', () => {
    const play = mixed();
    expect(rung(play.ringUntil('09:29')).filter((one) => one.includes('soon'))).toHaveLength(1);
    expect(ringingBells(play.state, play.now)).toEqual([]);
  });

  test('BE4 a fresh pot brings bells of its own', () => {
    const play = mixed().at('08:30');
    play.mix();
    expect(wanted(play)).toEqual(
      expect.arrayContaining(['dead:rig-1:line:rig-1-1', 'dead:rig-1:pot:rig-1-2']),
    );
  });

  test('BE5 a break the paint runs into is rung for in time to flush before it', () => {
    const rang = mixed({ breaks: [{ from: '09:15', to: '09:45' }] }).ringUntil('09:14');
    const [first] = rung(rang).filter((one) => one.includes('before-break'));
    // 13.89 min of flush and 15 min of warning before 09:15.
    expect(first).toBe('08:46 before-break:rig-1:rig-1-1:0 crew');
  });

  test('BE5 the end of the shift is rung for in time', () => {
    const rang = mixed({ end: '09:40' }).ringUntil('09:30');
    const [first] = rung(rang).filter((one) => one.includes('before-end'));
    expect(first).toBe('09:11 before-end:rig-1:rig-1-1 crew');
  });

  test('BE6 a flush without a step is chased, and each step starts the wait anew', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    const [first] = rung(play.ringUntil('08:42'));
    expect(first).toBe('08:41 flush-stalled:rig-1-flush-1:0 crew');
    play.flushTo('lock-trigger');
    expect(wanted(play)).toContain('flush-stalled:rig-1-flush-1:1');
    expect(wanted(play)).not.toContain('flush-stalled:rig-1-flush-1:0');
  });

  test('BE6 paint past its life rings on while the flush is going', () => {
    const play = mixed().at('09:55');
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    expect(rung(play.ringUntil('10:00')).at(-1)).toBe('10:00 dead:rig-1:line:rig-1-1 crew');
  });

  test('BE7 an answer quiets the bell for everybody for a while; while its cause stands it comes back louder', () => {
    const play = mixed();
    play.ringUntil('09:30');
    const answer = { type: 'answer-bell', bell: 'use-by:rig-1:line:rig-1-1' } as const;
    play.do(answer, 'pia');
    expect(play.refused(answer, 'max').params).toEqual({ person: 'Pia' });
    expect(rung(play.ringUntil('09:39'))).toEqual([]);
    expect(rung(play.ringUntil('09:47'))).toEqual([
      '09:40 use-by:rig-1:line:rig-1-1 foreman',
      '09:44 use-by:rig-1:line:rig-1-1 safety',
      '09:46 start-flush:rig-1:line:rig-1-1 crew',
    ]);
  });

  test('BE7 a bell that never rang and somebody unknown are refused', () => {
    const play = mixed();
    expect(play.refused({ type: 'answer-bell', bell: 'dead:rig-1:line:rig-1-1' }, 'pia').text).toBe(
      'refusal.unknown-bell',
    );
    expect(play.refused({ type: 'answer-bell', bell: 'nonsense' }, 'pia').text).toBe('refusal.unknown-bell');
    play.ringUntil('09:30');
    expect(play.refused({ type: 'answer-bell', bell: 'use-by:rig-1:line:rig-1-1' }, nobody).text).toBe(
      'refusal.who-are-you',
    );
  });

  test('BE7 an answered bell whose time moves later rings again', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    // Half an hour at 30 °C from a quarter used: dead would be 09:15, so the flush starts by 09:01.
    play.ringUntil('09:02');
    play.do({ type: 'answer-bell', bell: 'start-flush:rig-1:line:rig-1-1' }, 'pia');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 20 }, 'max');
    const again = rung(play.ringUntil('09:20')).filter((one) => one.includes('start-flush'));
    // At 09:02 26 minutes are left at 20 °C: dead at 09:28, flush from 09:14.
    expect(again[0]).toBe('09:14 start-flush:rig-1:line:rig-1-1 crew');
  });

  test('BE7 a new end of the shift rings at its new time', () => {
    const play = ready({ end: '10:00' });
    play.ringUntil('10:00');
    play.do({ type: 'post-day', entry: { ...aDay().entry, end: '11:00' } });
    const rang = rung(play.ringUntil('11:00')).filter((one) => one.includes('shift-end'));
    expect(rang).toEqual(['11:00 shift-end:close foreman']);
  });

  test('BE8 nothing rings before the next time, and something rings at it', () => {
    const press = fc.constantFrom(
      'mix',
      'warm',
      'cool',
      'hot',
      'empty',
      'flush',
      'step',
      'concern',
      'stop',
      'answer',
      'arrive',
      'reading',
    );
    fc.assert(
      fc.property(
        fc.array(fc.record({ press, after: fc.integer({ min: 1, max: 30 }) }), { maxLength: 14 }),
        (presses) => {
          const play = ready({
            breaks: [
              { from: '09:00', to: '09:20' },
              { from: '12:00', to: '12:30' },
            ],
          });
          for (const { press: what, after } of presses) {
            const next = nextRingAt(play.state, play.now);
            if (next !== null) {
              if (next - 1 >= play.now) expect(rings(play, next - 1)).toBe(0);
              expect(rings(play, Math.max(play.now, next))).toBeGreaterThan(0);
            }
            play.ringUntil(play.now + after * MINUTE);
            doPress(play, what);
          }
        },
      ),
      { seed: 7, numRuns: 80 },
    );
  });
});

/** How much would come of ringing at `now`, without doing it. */
function rings(play: Play, now: number): number {
  const done = step(
    play.id,
    play.state,
    { type: 'ring' },
    {
      now,
      actor: { kind: 'system', part: 'bells' },
      commandId: 'probe',
      pack: play.pack,
      before: null,
    },
  );
  return done.refused ? 0 : done.events.length;
}

function doPress(play: Play, what: string): void {
  const rig = 'rig-1';
  const flush = play.rig().flush;
  const first = ringingBells(play.state, play.now)[0];
  if (what === 'mix')
    play.try({ type: 'mix-batch', rig, coating: 'epoxy', litres: 20, paintC: 22, pot: 'fresh' }, 'max');
  if (what === 'warm') play.try({ type: 'hose-warm', rig }, 'pia');
  if (what === 'cool') play.try({ type: 'pot-temperature', rig, c: 15 }, 'max');
  if (what === 'hot') play.try({ type: 'hose-temperature', rig, c: 33 }, 'max');
  if (what === 'empty') play.try({ type: 'pot-empty', rig }, 'max');
  if (what === 'flush') play.try({ type: 'start-flush', rig }, 'pia');
  if (what === 'step' && flush) for (let i = 0; i < 5; i += 1) play.flushTo('primary-flush');
  if (what === 'concern') play.try({ type: 'raise-concern', text: 'x' }, 'hal');
  if (what === 'stop') play.try({ type: 'stop-work' }, 'hal');
  if (what === 'answer' && first) play.do({ type: 'answer-bell', bell: first.key }, 'pia');
  if (what === 'arrive') play.try({ type: 'arrive', person: 'lou' }, 'lou');
  if (what === 'reading') play.reading();
}

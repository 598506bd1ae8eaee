import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import type { Actor } from '../../src/model/actor.ts';
import { flushSteps, rigChecks } from '../../src/model/checks.ts';
import type { CommandInput } from '../../src/model/command.ts';
import type { Shift } from '../../src/model/shift.ts';
import { aDay, aJob, t } from '../flow/pack.ts';

/** What somebody does at a time of day; some things can only be worded with the shift in sight. */
export interface Turn {
  readonly at: number;
  readonly by: Actor;
  readonly command: CommandInput | ((shift: Shift) => CommandInput);
}

const somebody = (person: string): Actor => ({ kind: 'person', person, surface: 'test' });
const turn = (time: string, person: string, command: Turn['command']): Turn => ({
  at: t(time),
  by: somebody(person),
  command,
});

const results = Object.fromEntries(rigChecks.map((check) => [check, 'ok'])) as Record<
  (typeof rigChecks)[number],
  'ok' | 'defect'
>;

/** Answer the open question and sign; with a witness for somebody without a phone. */
function signing(time: string, person: string, witness?: string): readonly Turn[] {
  const by = witness ?? person;
  const witnessFor = witness ? { witnessFor: person } : {};
  return [
    turn(time, by, (shift) => {
      const open = openQuestion(shift, person);
      return {
        type: 'answer',
        revision: shift.briefing.revision,
        question: open ? questionId(open) : 'none',
        choice: open ? open.order.indexOf(0) : 0,
        ...witnessFor,
      };
    }),
    turn(time, by, (shift) => ({ type: 'sign', revision: shift.briefing.revision, ...witnessFor })),
  ];
}

function flushing(from: string, rig: string, id: string, by: string): readonly Turn[] {
  const start = t(from);
  return [
    { at: start, by: somebody(by), command: { type: 'start-flush', rig } },
    ...flushSteps.map(
      (step, index): Turn => ({
        at: start + (index + 1) * 60_000,
        by: somebody(by),
        command:
          step === 'filters'
            ? { type: 'skip-step', rig, flush: id, step, reason: 'No spare filter here' }
            : {
                type: 'confirm-step',
                rig,
                flush: id,
                step,
                ...(step === 'solvent-away' ? { litres: 6.5 } : {}),
              },
      }),
    ),
  ];
}

/**
 * One believable day: a concern before the start, a wrong answer, a late arrival, two batches, a hose in the sun, a break
 * the paint would have run out in, an unheard bell, a stop-work, two flushes with one step left out, and the end.
 */
export const fullShift: readonly Turn[] = [
  turn(
    '06:05',
    'finn',
    aDay({
      breaks: [
        { from: '09:20', to: '09:40' },
        { from: '12:00', to: '12:30' },
      ],
      jobs: [
        aJob(),
        aJob({
          area: 'Rail',
          coating: 'finish',
          coat: 'finish',
          dftUm: 60,
          rig: 'rig-2',
          sprayers: ['lou'],
          mixers: ['lou'],
        }),
      ],
    }),
  ),
  ...signing('06:33', 'finn'),
  turn('06:34', 'pia', (shift) => {
    const open = openQuestion(shift, 'pia');
    const wrong = open ? open.order.findIndex((choice) => choice !== 0) : 0;
    return { type: 'answer', revision: 1, question: open ? questionId(open) : 'none', choice: wrong };
  }),
  ...signing('06:36', 'pia'),
  ...signing('06:37', 'lou'),
  turn('06:38', 'max', { type: 'raise-concern', text: 'The ladder at gate 1 is loose' }),
  turn('06:45', 'finn', { type: 'resolve-concern', concern: 'concern-1', text: 'Tied off at two points' }),
  ...signing('06:46', 'max'),
  ...signing('06:47', 'hal', 'finn'),
  ...signing('06:52', 'saga'),
  turn('07:00', 'pia', { type: 'check-rig', rig: 'rig-1', results }),
  turn('07:02', 'lou', {
    type: 'check-rig',
    rig: 'rig-2',
    results: { ...results, gauge: 'defect' },
    note: 'reads 20 bar at rest',
  }),
  turn('07:10', 'finn', { type: 'clear-tag', rig: 'rig-2', text: 'New gauge fitted' }),
  turn('07:12', 'lou', { type: 'check-rig', rig: 'rig-2', results }),
  turn('07:15', 'max', { type: 'take-reading', airC: 18, wetC: 14, steelC: 17, place: 'Gate 1' }),
  turn('08:00', 'max', {
    type: 'mix-batch',
    rig: 'rig-1',
    coating: 'epoxy',
    litres: 20,
    paintC: 20,
    pot: 'fresh',
  }),
  turn('08:20', 'pia', { type: 'pause', rig: 'rig-1', why: 'moving the lift' }),
  turn('08:30', 'pia', { type: 'hose-warm', rig: 'rig-1' }),
  turn('08:32', 'pia', { type: 'hose-temperature', rig: 'rig-1', c: 24 }),
  turn('08:33', 'pia', { type: 'resume', rig: 'rig-1' }),
  turn('08:40', 'max', { type: 'pot-empty', rig: 'rig-1' }),
  turn('08:42', 'max', {
    type: 'mix-batch',
    rig: 'rig-1',
    coating: 'epoxy',
    litres: 10,
    aL: 8,
    bL: 2,
    thinnerL: 0.4,
    paintC: 21,
    pot: 'fresh',
  }),
  turn('09:00', 'pia', { type: 'line-renewed', rig: 'rig-1', sprayedL: 8 }),
  ...flushing('08:58', 'rig-1', 'rig-1-flush-1', 'pia'),
  turn('10:00', 'lou', {
    type: 'mix-batch',
    rig: 'rig-2',
    coating: 'finish',
    litres: 7,
    paintC: 20,
    pot: 'fresh',
  }),
  turn('10:30', 'hal', { type: 'stop-work', text: 'Crane over the gate' }),
  turn('10:41', 'finn', { type: 'clear-stop-work', text: 'Crane has gone' }),
  turn('11:20', 'max', { type: 'take-reading', airC: 21, rhPct: 58, steelC: 22, place: 'Rail' }),
  ...flushing('12:05', 'rig-2', 'rig-2-flush-1', 'lou'),
  turn('15:30', 'finn', { type: 'post-day', entry: { ...aDay({ date: '2026-05-13' }).entry } }),
  turn('16:02', 'finn', { type: 'close-shift' }),
];

import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import { flushSteps, rigChecks } from '../../src/model/checks.ts';
import type { CommandInput } from '../../src/model/command.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { PersonId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';

/** One thing somebody does in the demo day, on the site's clock. `null` only lets the time pass. */
export interface Turn {
  readonly at: string;
  readonly by: PersonId;
  /** Made from the shift as it is then: a read-back answer depends on the question that is open. */
  readonly does: (shift: Shift | null) => CommandInput | null;
}

const turn = (at: string, by: PersonId, command: CommandInput): Turn => ({ at, by, does: () => command });

/** Answer the open question right (or wrong), for oneself or for somebody beside the foreman. */
function answer(at: string, by: PersonId, right: boolean, witnessFor?: PersonId): Turn {
  const person = witnessFor ?? by;
  return {
    at,
    by,
    does: (shift) => {
      const open = shift && openQuestion(shift, person);
      if (!shift || !open) return null;
      const choice = open.order.findIndex((place) => (place === 0) === right);
      const revision = shift.briefing.revision;
      return {
        type: 'answer',
        revision,
        question: questionId(open),
        choice,
        ...(witnessFor ? { witnessFor } : {}),
      };
    },
  };
}

function sign(at: string, by: PersonId, witnessFor?: PersonId): readonly Turn[] {
  return [
    answer(at, by, true, witnessFor),
    {
      at,
      by,
      does: (shift) =>
        shift && { type: 'sign', revision: shift.briefing.revision, ...(witnessFor ? { witnessFor } : {}) },
    },
  ];
}

const allInOrder = Object.fromEntries(rigChecks.map((check) => [check, 'ok'])) as Record<
  (typeof rigChecks)[number],
  'ok'
>;

function flush(
  rig: string,
  by: PersonId,
  from: string,
  litres: Readonly<Record<string, number>>,
  skip?: { step: string; reason: string },
): readonly Turn[] {
  const minute = (index: number) => addMinutes(from, 1 + index);
  const start: Turn = turn(from, by, { type: 'start-flush', rig });
  const steps = flushSteps.map(
    (step, index): Turn => ({
      at: minute(index),
      by,
      does: (shift) => {
        const id = shift?.rigs[rig]?.flush?.id;
        if (!id) return null;
        if (skip?.step === step) return { type: 'skip-step', rig, flush: id, step, reason: skip.reason };
        const used = litres[step];
        return {
          type: 'confirm-step',
          rig,
          flush: id,
          step,
          ...(used === undefined ? {} : { litres: used }),
        };
      },
    }),
  );
  return [start, ...steps];
}

function addMinutes(time: string, minutes: number): string {
  const [hours = 0, mins = 0] = time.split(':').map(Number);
  const total = hours * 60 + mins + minutes;
  return `${String(Math.floor(total / 60)).padStart(2, '0')}:${String(total % 60).padStart(2, '0')}`;
}

/** A believable day on the demo site: late sign-off, a concern, a warm hose, an unanswered bell, stop-work, two flushes. */
export function demoDay(entry: DayEntry): readonly Turn[] {
  return [
    turn('06:40', 'ines', { type: 'post-day', entry }),
    ...sign('07:02', 'ines'),
    ...sign('07:03', 'duarte'),
    answer('07:03', 'marta', false),
    ...sign('07:04', 'marta'),
    ...sign('07:05', 'rui'),
    turn('07:06', 'bento', {
      type: 'raise-concern',
      text: 'The earth clamp of rig 2 sits on painted steel.',
    }),
    ...sign('07:06', 'livia'),
    ...sign('07:07', 'clara'),
    turn('07:12', 'ines', {
      type: 'resolve-concern',
      concern: 'concern-1',
      text: 'Moved to the bare base plate, checked with Bento.',
    }),
    ...sign('07:13', 'bento'),
    ...sign('07:16', 'ines', 'nuno'),
    ...sign('07:18', 'tomas'),
    turn('07:25', 'duarte', { type: 'check-rig', rig: 'rig-1', results: allInOrder }),
    turn('07:28', 'rui', {
      type: 'check-rig',
      rig: 'rig-2',
      results: { ...allInOrder, 'hose-and-fittings': 'defect' },
      note: 'swivel weeps at the gun',
    }),
    turn('07:31', 'ines', {
      type: 'take-reading',
      airC: 14.5,
      rhPct: 78,
      steelC: 13.6,
      place: 'Span 2, underside',
    }),
    turn('07:50', 'ines', {
      type: 'clear-tag',
      rig: 'rig-2',
      text: 'Swivel changed by Rui, tight at pressure on solvent.',
    }),
    turn('07:55', 'rui', { type: 'check-rig', rig: 'rig-2', results: allInOrder }),
    turn('08:10', 'ines', {
      type: 'take-reading',
      airC: 16,
      rhPct: 70,
      steelC: 15.8,
      place: 'Span 2, underside',
    }),
    turn('08:15', 'bento', {
      type: 'mix-batch',
      rig: 'rig-1',
      coating: 'epoxy-mid',
      litres: 20,
      paintC: 18,
      thinnerL: 0.6,
      pot: 'fresh',
    }),
    turn('09:20', 'bento', { type: 'pot-temperature', rig: 'rig-1', c: 23 }),
    turn('10:00', 'duarte', { type: 'pause', rig: 'rig-1', why: 'break' }),
    turn('10:05', 'duarte', { type: 'hose-warm', rig: 'rig-1' }),
    turn('10:06', 'ines', { type: 'answer-bell', bell: 'start-flush:rig-1:line:rig-1-1' }),
    ...flush('rig-1', 'duarte', '10:07', {
      'primary-flush': 9.3,
      'secondary-flush': 6.3,
      'solvent-away': 13,
    }),
    turn('11:15', 'livia', {
      type: 'mix-batch',
      rig: 'rig-2',
      coating: 'pu-finish',
      litres: 14,
      paintC: 22,
      thinnerL: 0.7,
      pot: 'fresh',
    }),
    turn('11:30', 'tomas', { type: 'stop-work', text: 'Somebody under the scaffold inside the barrier.' }),
    turn('11:36', 'ines', { type: 'clear-stop-work', text: 'Barrier closed, banksman placed, crew told.' }),
    ...flush(
      'rig-2',
      'rui',
      '12:05',
      { 'primary-flush': 3, 'secondary-flush': 2.1, 'solvent-away': 4.5 },
      {
        step: 'filters',
        reason: 'no spare gasket on site, comes tomorrow',
      },
    ),
    turn('13:20', 'ines', {
      type: 'take-reading',
      airC: 23,
      rhPct: 52,
      steelC: 27,
      place: 'Span 2, top flange',
    }),
    turn('16:20', 'ines', { type: 'close-shift' }),
  ];
}

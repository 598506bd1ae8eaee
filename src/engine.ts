import { applyFlushAbandoned, decideAbandonFlush } from './flow/abandon-flush.ts';
import { applyBatchMixed, decideMixBatch } from './flow/batch.ts';
import { keepBeforeLast } from './flow/before-last.ts';
import * as concerns from './flow/concerns.ts';
import * as conditions from './flow/conditions.ts';
import { applyCarriedOver, applyDayChanged, decidePostDay, openShift } from './flow/day-entry.ts';
import {
  type Apply,
  type Context,
  type Decide,
  type Decision,
  type Refusal,
  refuse,
} from './flow/decision.ts';
import * as flush from './flow/flush.ts';
import { applyMixTemperatureMended, decideMendMixTemperature } from './flow/mix-temperature.ts';
import * as rigCheck from './flow/rig-check.ts';
import * as ringing from './flow/ringing.ts';
import { applyClosed, decideCloseShift, decideHandOver } from './flow/shift-record.ts';
import * as signOff from './flow/sign-off.ts';
import * as spraying from './flow/spraying.ts';
import { applyFanTested, decideTestFan } from './flow/test-fan.ts';
import { applyUndelivered, decideUndelivered } from './flow/undelivered.ts';
import { applyBatchVoided, decideVoidBatch } from './flow/void-batch.ts';
import { completeEvent } from './journal/older.ts';
import { type Command, type CommandType, hostCommands } from './model/command.ts';
import type { EventBody, EventType, JournalEvent } from './model/event.ts';
import type { ShiftId } from './model/id.ts';
import type { Shift } from './model/shift.ts';
import { TradeRefusal } from './trade/refusal.ts';

/** Commands in the order of the day. The day entry comes first and may find no shift; it has a place of its own. */
const decide: { readonly [T in Exclude<CommandType, 'post-day'>]: Decide<T> } = {
  'issue-briefing': signOff.decideIssueBriefing,
  arrive: signOff.decideArrive,
  answer: signOff.decideAnswer,
  sign: signOff.decideSign,
  'raise-concern': concerns.decideRaiseConcern,
  'resolve-concern': concerns.decideResolveConcern,
  'check-rig': rigCheck.decideCheckRig,
  'report-defect': rigCheck.decideReportDefect,
  'clear-tag': rigCheck.decideClearTag,
  'take-reading': conditions.decideTakeReading,
  'void-reading': conditions.decideVoidReading,
  'mix-batch': decideMixBatch,
  'mend-mix-temperature': decideMendMixTemperature,
  'void-batch': decideVoidBatch,
  'pot-temperature': spraying.decidePotTemperature,
  'hose-temperature': spraying.decideHoseTemperature,
  'hose-warm': spraying.decideHoseWarm,
  pause: spraying.decidePause,
  resume: spraying.decideResume,
  'pot-empty': spraying.decidePotEmpty,
  'line-renewed': spraying.decideLineRenewed,
  'test-fan': decideTestFan,
  'start-flush': flush.decideStartFlush,
  'confirm-step': flush.decideConfirmStep,
  'skip-step': flush.decideSkipStep,
  'abandon-flush': decideAbandonFlush,
  'stop-work': concerns.decideStopWork,
  'clear-stop-work': concerns.decideClearStop,
  'answer-bell': ringing.decideAnswerBell,
  ring: ringing.decideRing,
  'note-undelivered': decideUndelivered,
  'close-shift': decideCloseShift,
  'hand-over': decideHandOver,
};

const apply: { readonly [T in Exclude<EventType, 'day-posted'>]: Apply<T> } = {
  'day-changed': applyDayChanged,
  'carried-over': applyCarriedOver,
  'briefing-issued': signOff.applyBriefingIssued,
  'person-arrived': signOff.applyArrived,
  'question-answered': signOff.applyAnswered,
  signed: signOff.applySigned,
  'concern-raised': concerns.applyConcernRaised,
  'concern-resolved': concerns.applyConcernResolved,
  'rig-checked': rigCheck.applyRigChecked,
  'rig-tagged': rigCheck.applyRigTagged,
  'tag-cleared': rigCheck.applyTagCleared,
  'reading-taken': conditions.applyReadingTaken,
  'reading-voided': conditions.applyReadingVoided,
  'batch-mixed': applyBatchMixed,
  'mix-temperature-mended': applyMixTemperatureMended,
  'batch-voided': applyBatchVoided,
  'temperature-noted': spraying.applyTemperature,
  paused: spraying.applyPaused,
  resumed: spraying.applyResumed,
  'pot-emptied': spraying.applyPotEmptied,
  'line-renewed': spraying.applyLineRenewed,
  'fan-tested': applyFanTested,
  'flush-started': flush.applyFlushStarted,
  'step-confirmed': flush.applyStepConfirmed,
  'step-skipped': flush.applyStepSkipped,
  'flush-finished': flush.applyFlushFinished,
  'flush-abandoned': applyFlushAbandoned,
  'work-stopped': concerns.applyWorkStopped,
  'stop-cleared': concerns.applyStopCleared,
  'bell-rang': ringing.applyRang,
  'bell-answered': ringing.applyBellAnswered,
  'message-undelivered': applyUndelivered,
  'shift-closed': applyClosed,
};

export type Step =
  | { readonly refused: false; readonly shift: Shift; readonly events: readonly JournalEvent[] }
  | Refusal;

/**
 * The one door's decision: what happens to `shift` when `command` is asked for. Pure; the same arguments give the same
 * answer. A number outside what the trade arithmetic can take becomes a refusal that names the field.
 */
export function step(id: ShiftId, shift: Shift | null, command: Command, context: Context): Step {
  const decision = decideGuarded(shift, command, context);
  if (decision.refused) return decision;
  const events = decision.events.map((body, index) => ({
    seq: (shift?.seq ?? 0) + index + 1,
    at: context.now,
    by: context.actor,
    commandId: context.commandId,
    body,
  }));
  const after = replay(id, shift, events);
  if (!after) throw new Error(`command ${command.type} was accepted without a shift`);
  return { refused: false, shift: after, events };
}

/** A closed shift changes no more, except that people still clean up: they can be stopped, and deliveries can fail. */
const afterClose: readonly CommandType[] = ['note-undelivered', 'stop-work', 'clear-stop-work'];

function decideGuarded(shift: Shift | null, command: Command, context: Context): Decision {
  try {
    if (hostCommands.includes(command.type) && context.actor.kind !== 'system')
      return refuse('refusal.host-only');
    if (command.type === 'post-day') return decidePostDay(shift, command, context);
    if (!shift) return refuse('refusal.no-shift');
    if (shift.status === 'closed' && !afterClose.includes(command.type))
      return refuse('refusal.shift-closed', { date: shift.date });
    return (decide[command.type] as Decide<CommandType & keyof typeof decide>)(
      shift,
      command as never,
      context,
    );
  } catch (error) {
    if (!(error instanceof TradeRefusal)) throw error;
    const { field, value, valid, why } = error;
    return refuse('refusal.out-of-range', { field, value: String(value), valid, why });
  }
}

/** Fold journal events into a shift; from null and a whole journal this rebuilds the stored state. */
export function replay(id: ShiftId, shift: Shift | null, events: readonly JournalEvent[]): Shift | null {
  return events.reduce<Shift | null>((state, event) => {
    if (state && event.seq !== state.seq + 1)
      throw new Error(`journal of ${id}: line ${event.seq} follows line ${state.seq}`);
    const next = fold(id, state, { ...event, body: completeEvent(event.body) });
    return { ...next, seq: event.seq };
  }, shift);
}

function fold(id: ShiftId, shift: Shift | null, { body, at, by }: JournalEvent): Shift {
  if (body.type === 'day-posted') return openShift(id, body, at);
  if (!shift) throw new Error(`journal of ${id} begins with ${body.type} instead of day-posted`);
  const change = (state: Shift, event: EventBody) =>
    (apply[event.type as keyof typeof apply] as Apply<keyof typeof apply>)(state, event as never, { at, by });
  return keepBeforeLast(shift, change(shift, body), body, at, change);
}

import { expect } from 'vitest';
import { type Step, step } from '../../src/engine.ts';
import type { Refusal } from '../../src/flow/decision.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import type { carryOverOf } from '../../src/flow/shift-record.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import type { Actor } from '../../src/model/actor.ts';
import { type FlushStep, flushSteps, rigChecks } from '../../src/model/checks.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import type { EventBody, EventOf, EventType, JournalEvent } from '../../src/model/event.ts';
import type { RigState, Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import { aDay, aPack, DATE, t } from './pack.ts';

const bells: Actor = { kind: 'system', part: 'bells' };

export const person = (id: string): Actor => ({ kind: 'person', person: id, surface: 'test' });
export const nobody: Actor = { kind: 'unknown', surface: 'test' };

/** One shift under test: commands at times of our choosing, with everything that came of them. */
export class Play {
  readonly id: string;
  readonly journal: JournalEvent[] = [];
  readonly states: Shift[] = [];
  pack: SitePack;
  shift: Shift | null = null;
  now: number;
  before: { carryOver: ReturnType<typeof carryOverOf>; head: string } | null = null;
  #commands = 0;

  constructor(pack: SitePack = aPack(), date: string = DATE) {
    this.pack = pack;
    this.id = `weir:${date}`;
    this.now = t('06:00', date);
  }

  /** The shift; a test that asks for it before the day is posted has a fault of its own. */
  get state(): Shift {
    if (!this.shift) throw new Error('no day has been posted in this test');
    return this.shift;
  }

  rig(id = 'rig-1'): RigState {
    const state = this.state.rigs[id];
    if (!state) throw new Error(`this test's shift has no ${id}`);
    return state;
  }

  /** Put the clock to a wall-clock time of the shift's day, or to an instant. */
  at(time: string | number): this {
    this.now = typeof time === 'number' ? time : t(time, this.shift?.date ?? this.id.slice('weir:'.length));
    return this;
  }

  try(command: CommandInput, by: Actor | string = 'finn'): Step {
    this.#commands += 1;
    const done = step(this.id, this.shift, commandSchema.parse(command), {
      now: this.now,
      actor: typeof by === 'string' ? person(by) : by,
      commandId: `c${this.#commands}`,
      pack: this.pack,
      before: this.before,
    });
    if (!done.refused) {
      this.shift = done.shift;
      this.journal.push(...done.events);
      this.states.push(done.shift);
    }
    return done;
  }

  /** The events of a command that must be accepted. */
  do(command: CommandInput, by: Actor | string = 'finn'): readonly EventBody[] {
    const done = this.try(command, by);
    if (done.refused)
      throw new Error(`${command.type} was refused: ${done.text} ${JSON.stringify(done.params)}`);
    return done.events.map(({ body }) => body);
  }

  /** The refusal of a command that must be refused and must change nothing. */
  refused(command: CommandInput, by: Actor | string = 'finn'): Refusal {
    const before = JSON.stringify(this.shift);
    const done = this.try(command, by);
    if (!done.refused)
      throw new Error(`${command.type} was accepted: ${done.events.map(({ body }) => body.type)}`);
    expect(JSON.stringify(this.shift)).toBe(before);
    return done;
  }

  /** What rings now. */
  ring(): readonly EventOf<'bell-rang'>[] {
    return this.do({ type: 'ring' }, bells).filter((event) => event.type === 'bell-rang');
  }

  /** Ring through every due time up to and with `until`, as a loop that is never late would. */
  ringUntil(until: string | number): readonly (EventOf<'bell-rang'> & { readonly at: number })[] {
    const end = typeof until === 'number' ? until : t(until, this.state.date);
    const rang: (EventOf<'bell-rang'> & { readonly at: number })[] = [];
    for (;;) {
      const next = nextRingAt(this.state, this.now);
      if (next === null || next > end) break;
      this.now = Math.max(this.now, next);
      const rings = this.ring();
      if (rings.length === 0 && nextRingAt(this.state, this.now) === next)
        throw new Error(`nothing rings at ${next}`);
      rang.push(...rings.map((ring) => ({ ...ring, at: this.now })));
    }
    this.now = end;
    return rang;
  }

  answerRight(id: string, by = id): void {
    const open = openQuestion(this.state, id);
    if (!open) return;
    this.do(
      {
        type: 'answer',
        revision: this.state.briefing.revision,
        question: questionId(open),
        choice: open.order.indexOf(0),
        ...(by === id ? {} : { witnessFor: id }),
      },
      by,
    );
  }

  sign(id: string, by = id): readonly EventBody[] {
    this.answerRight(id, by);
    return this.do(
      { type: 'sign', revision: this.state.briefing.revision, ...(by === id ? {} : { witnessFor: id }) },
      by,
    );
  }

  signAll(): this {
    for (const id of this.state.day.crew) this.sign(id);
    return this;
  }

  checkRig(rig = 'rig-1', defects: readonly string[] = [], note = ''): readonly EventBody[] {
    return this.do({ type: 'check-rig', rig, results: allChecks(defects), note }, 'pia');
  }

  reading(airC = 20, rhPct = 60, steelC = 20): readonly EventBody[] {
    return this.do({ type: 'take-reading', airC, rhPct, steelC }, 'max');
  }

  mix(more: Partial<Extract<CommandInput, { type: 'mix-batch' }>> = {}): readonly EventBody[] {
    return this.do({ ...aBatch, ...more }, 'max');
  }

  /** Answer the steps of the running flush in order up to and with `last`, one minute apart. */
  flushTo(last: FlushStep = 'solvent-away', rig = 'rig-1'): void {
    for (const step of flushSteps) {
      const flush = this.rig(rig).flush;
      if (!flush) return;
      if (flush.steps[step]) continue;
      this.now += 60_000;
      this.do({ type: 'confirm-step', rig, flush: flush.id, step }, 'pia');
      if (step === last) return;
    }
  }

  count<T extends EventType>(type: T): number {
    return this.journal.filter(({ body }) => body.type === type).length;
  }
}

export const aBatch = {
  type: 'mix-batch',
  rig: 'rig-1',
  coating: 'epoxy',
  litres: 20,
  paintC: 20,
  pot: 'fresh',
} as const satisfies CommandInput;

export function allChecks(defects: readonly string[] = []) {
  return Object.fromEntries(
    rigChecks.map((check) => [check, defects.includes(check) ? 'defect' : 'ok']),
  ) as Record<(typeof rigChecks)[number], 'ok' | 'defect'>;
}

/** The day is posted at 06:00, before the prestart time of 06:30. */
export function posted(entry: Parameters<typeof aDay>[0] = {}, pack: SitePack = aPack()): Play {
  const play = new Play(pack, entry.date ?? DATE);
  play.do(aDay(entry));
  return play;
}

/** 06:30: the briefing is out, nobody has signed. */
export function briefed(entry: Parameters<typeof aDay>[0] = {}, pack: SitePack = aPack()): Play {
  const play = posted(entry, pack).at('06:30');
  play.ring();
  return play;
}

/** 07:00: all have signed, rig 1 is checked, a reading is taken: no hold is left. */
export function ready(entry: Parameters<typeof aDay>[0] = {}, pack: SitePack = aPack()): Play {
  const play = briefed(entry, pack).at('06:40').signAll().at('07:00');
  play.checkRig();
  play.reading();
  return play;
}

/** 08:00: one full kit at 20 °C in the pot of rig 1: 120 min of pot life. */
export function mixed(entry: Parameters<typeof aDay>[0] = {}, pack: SitePack = aPack()): Play {
  const play = ready(entry, pack).at('08:00');
  play.mix();
  return play;
}

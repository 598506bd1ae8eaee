import { loadTexts } from '../../adapters/files/load-texts.ts';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import type { RecordInput } from '../../adapters/record/record-input.ts';
import { step } from '../../src/engine.ts';
import type { Context } from '../../src/flow/decision.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { Actor } from '../../src/model/actor.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import { type Instant, instantOf } from '../../src/model/time.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { announcements } from '../../src/views/announce.ts';
import { refusalMessage } from '../../src/views/refusal.ts';

const demo = loadSitePack('templates/demo-site');
export const { textsFor } = loadTexts(undefined, demo.ok ? { own: demo.words } : {});

export function demoPack(): { readonly pack: SitePack; readonly day: DayEntry } {
  if (!demo.ok) throw new Error(demo.problems.map((problem) => problem.message).join('\n'));
  const day = demo.days['day-1.yaml'];
  if (!day) throw new Error('the demo site has no day-1.yaml');
  return { pack: demo.pack, day };
}

/** A crew at work under a hand-moved clock, on the memory store. `before`: what the shift of the day before left. */
export function crewDay(
  pack: SitePack,
  date: string,
  words: TextsFor = textsFor,
  before: Context['before'] = null,
) {
  const store = memoryStore();
  let now: Instant = 0;
  let presses = 0;
  const unreachable = new Set<string>();
  const id = `${pack.site.id}:${date}`;

  async function shift(): Promise<Shift> {
    const found = await store.shift(id);
    if (!found) throw new Error('no day posted yet');
    return found;
  }

  async function ask(actor: Actor, command: CommandInput): Promise<Shift> {
    presses += 1;
    const context = { now, actor, commandId: `press-${presses}`, pack, before };
    return store.transact(id, (loaded) => {
      const done = step(id, loaded.shift, commandSchema.parse(command), context);
      if (done.refused) throw new Error(`${command.type}: ${plainText(refusalMessage(done, words('en')))}`);
      const deliveries = announcements(loaded.shift, done.shift, done.events, words).flatMap(
        ({ seq, ...outgoing }, index) =>
          (outgoing.audience.kind === 'person' ? ['board', 'phone'] : ['board']).map((surface) => ({
            ...outgoing,
            id: `${id}:${seq}:${index}:${surface}`,
            shift: id,
            surface,
            queuedAt: now,
          })),
      );
      const commit = {
        events: done.events,
        shift: done.shift,
        deliveries,
        nextBell: nextRingAt(done.shift, now),
      };
      return { commit, answer: done.shift };
    });
  }

  const person = (name: string): Actor => ({ kind: 'person', person: name, surface: 'board' });

  return {
    id,
    at: (): Instant => now,
    /** The wall clock goes to `time`; every bell due on the way rings at its moment, unless Potbell is `down`. */
    async until(time: string, { down = false, on = date } = {}): Promise<void> {
      const target = instantOf(on, time, pack.site.timeZone);
      for (;;) {
        const found = await store.shift(id);
        const next = found && nextRingAt(found, now);
        if (down || next === null || next === undefined || next > target) break;
        now = Math.max(now, Math.ceil(next));
        await ask({ kind: 'system', part: 'bells' }, { type: 'ring' });
      }
      now = target;
    },
    after(seconds: number): void {
      now += seconds * 1000;
    },
    ring: () => ask({ kind: 'system', part: 'bells' }, { type: 'ring' }),
    does: (name: string, command: CommandInput) => ask(person(name), command),
    as: ask,
    shift,
    /** Read, answer, sign; `wrongFirst` gives a wrong answer before the right one. */
    async signs(name: string, more: { readonly wrongFirst?: boolean; readonly witness?: string } = {}) {
      const by = person(more.witness ?? name);
      const witnessFor = more.witness ? { witnessFor: name } : {};
      for (let tries = more.wrongFirst ? 0 : 1; tries < 2; tries += 1) {
        const current = await shift();
        const open = openQuestion(current, name);
        if (!open) break;
        const right = open.order.indexOf(0);
        const choice = tries === 0 ? (right + 1) % open.order.length : right;
        const revision = current.briefing.revision;
        await ask(by, { type: 'answer', revision, question: questionId(open), choice, ...witnessFor });
        now += 20_000;
      }
      await ask(by, { type: 'sign', revision: (await shift()).briefing.revision, ...witnessFor });
      now += 10_000;
    },
    /** Answers the newest bell of a kind that nobody has answered. */
    async answers(name: string, kind: string) {
      const { bells } = await shift();
      const open = Object.entries(bells).filter(([, state]) => state.kind === kind && !state.answered);
      const bell = open.sort(([, x], [, y]) => y.dueAt - x.dueAt)[0]?.[0];
      if (bell === undefined) throw new Error(`no bell "${kind}" has rung`);
      return ask(person(name), { type: 'answer-bell', bell });
    },
    /** What is queued is shown, except to those who cannot be reached: that is noted. */
    async deliver(): Promise<void> {
      for (const delivery of await store.claim(now, 1000, 1000)) {
        const to = delivery.audience.kind === 'crew' ? 'crew' : delivery.audience.person;
        if (delivery.surface === 'phone' && unreachable.has(to)) {
          const why = 'the phone is switched off';
          await ask(
            { kind: 'system', part: 'outbox' },
            { type: 'note-undelivered', message: delivery.key, to, surface: delivery.surface, why },
          );
          await store.settle(delivery.id, delivery.attempt, { kind: 'failed', why }, now);
        } else await store.settle(delivery.id, delivery.attempt, { kind: 'sent' }, now);
      }
    },
    unreachable(name: string, is = true): void {
      if (is) unreachable.add(name);
      else unreachable.delete(name);
    },
    async record(): Promise<RecordInput> {
      return {
        shift: await shift(),
        journal: await store.journal(id),
        deliveries: await store.deliveries({ shift: id, limit: 100_000 }),
        textsFor: words,
        madeAt: now,
      };
    },
  };
}
export type CrewDay = ReturnType<typeof crewDay>;

import { orderOf } from '../../adapters/chat/standing.ts';
import { exampleDay } from '../../adapters/cli/site.ts';
import { demoDay } from '../../adapters/cli/tour-script.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Outcome, Store, StoredDelivery, SurfaceMemory } from '../../src/ports.ts';
import type { MessageState } from '../peers/slack/types.ts';
import { type Crew, DATE, read } from './crew.ts';

export const SHIFT = (crew: Crew, date = DATE) => `${crew.site.pack.site.id}:${date}`;

export function dayOf(crew: Pick<Crew, 'site'>, date = DATE): DayEntry {
  const entry = exampleDay(crew.site);
  if (!entry) throw new Error('the demo site has no example day');
  return { ...entry, date };
}

let made = 0;

/** Somebody does something on the board. */
export async function onBoard(
  crew: Crew,
  person: string,
  input: CommandInput,
  date = DATE,
): Promise<Outcome> {
  made += 1;
  return crew.potbell.host.handle({
    shift: SHIFT(crew, date),
    command: commandSchema.parse(input),
    actor: { kind: 'person', person, surface: 'board' },
    commandId: `board:${made}`,
  });
}

export async function mustOnBoard(crew: Crew, person: string, input: CommandInput, date = DATE) {
  const outcome = await onBoard(crew, person, input, date);
  if (!outcome.ok) throw new Error(`${input.type} by ${person} was refused: ${outcome.shown.summary}`);
  return outcome.shift;
}

export async function today(crew: Crew, date = DATE): Promise<Shift> {
  const shift = await crew.potbell.store.shift(SHIFT(crew, date));
  if (!shift) throw new Error(`there is no shift of ${date}`);
  return shift;
}

/** The demo day done on the board, turn by turn, `from` a time of day `until` another; `before` comes before each turn. */
export async function playOnBoard(
  crew: Crew,
  before: (turn: number) => void,
  until = '24:00',
  from = '00:00',
): Promise<void> {
  for (const [index, { at, by, does }] of demoDay(dayOf(crew)).entries()) {
    if (at < from || at >= until) continue;
    before(index);
    await crew.passTo(at);
    const input = does(await crew.potbell.store.shift(SHIFT(crew)));
    if (input) await mustOnBoard(crew, by, input);
    await crew.deliver();
  }
}

const revisionOf = ({ blocks }: MessageState): string =>
  String(blocks[0]?.block_id ?? '').split(':')[0] ?? '';
const placeOf = ({ blocks }: MessageState): string => String(blocks[0]?.block_id ?? '').split(':')[1] ?? '';
const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** Of what rang several times while nothing could be said, the last ring is enough. */
function lastOnly(deliveries: readonly StoredDelivery[]): readonly StoredDelivery[] {
  return deliveries.filter(({ key }, at) => !deliveries.slice(at + 1).some((later) => later.key === key));
}

/** What must stand after these deliveries: one message for each bell, one for each other key, in order, with its last words. */
function expected(deliveries: readonly StoredDelivery[]): readonly string[] {
  const byKey = new Map<string, string[]>();
  const all: { key: string; at: number }[] = [];
  for (const { key, urgency, message } of deliveries) {
    const stack = byKey.get(key) ?? [];
    byKey.set(key, stack);
    if (urgency === 'bell' || stack.length === 0) {
      all.push({ key, at: stack.length });
      stack.push(message.summary);
    } else stack[stack.length - 1] = message.summary;
  }
  return all.map(({ key, at }) => byKey.get(key)?.[at] ?? '');
}

/**
 * What is wrong with what stands in Slack, in words: something not sent, lost, said twice, half said or outdated.
 * Only for days in which nobody pressed anything in Slack.
 */
export async function wrongIn(crew: Crew, rings: 'all' | 'last' = 'all'): Promise<readonly string[]> {
  const all = [...(await crew.potbell.store.deliveries({ surface: 'slack', limit: 10_000 }))].sort((a, b) => {
    const [x = [0, 0], y = [0, 0]] = [orderOf(a), orderOf(b)];
    return x[0] - y[0] || x[1] - y[1];
  });
  const wrong = all
    .filter(({ state }) => state !== 'sent' && state !== 'superseded')
    .map(({ id, state, lastError }) => `${id} is ${state}: ${lastError}`);
  const people = crew.site.pack.people.map(({ id }) => id);
  const places = [
    {
      name: 'channel',
      deliveries: all.filter(({ audience }) => audience.kind === 'crew'),
      stands: crew.channel(),
    },
    ...people.map((id) => ({
      name: id,
      deliveries: all.filter(({ audience }) => audience.kind === 'person' && audience.person === id),
      stands: crew.dm(id),
    })),
  ];
  for (const { name, deliveries, stands } of places) {
    const ours = stands.filter(
      (one) => one.botId !== null && one.ephemeralTo === null && one.scheduledId === null,
    );
    const heads = ours.filter((one) => placeOf(one) === 'm0');
    const left = [...heads];
    const take = (summary: string): boolean => {
      const words = escaped(summary).slice(0, 200);
      const found = left.findIndex(({ text }) => text.replace('<!channel> ', '').startsWith(words));
      if (found >= 0) left.splice(found, 1);
      return found >= 0;
    };
    for (const summary of expected(rings === 'all' ? deliveries : lastOnly(deliveries)))
      if (!take(summary)) wrong.push(`${name}: "${summary}" is lost`);
    if (rings === 'last')
      for (const { urgency, message } of deliveries) if (urgency === 'bell') take(message.summary);
    wrong.push(...left.map(({ text }) => `${name}: too much: ${text.slice(0, 100)}`));
    const seen = new Set<string>();
    for (const one of ours) {
      const part = `${revisionOf(one)} ${placeOf(one)}`;
      if (seen.has(part)) wrong.push(`${name}: ${part} stands twice: ${one.text.slice(0, 100)}`);
      seen.add(part);
    }
    // Newer words of a message leave its detail alone where that says the same: then only thread and title tell.
    const title = ({ text }: MessageState) => text.replace('<!channel> ', '').split('\n')[0];
    const belongs = (one: MessageState, head: MessageState) =>
      revisionOf(one) === revisionOf(head) ||
      (one.threadTs === (head.threadTs ?? head.ts) && title(one) === title(head));
    for (const head of heads)
      if (
        read(head.blocks).includes('in the thread of this message') &&
        !ours.some((one) => placeOf(one) === 't0' && belongs(one, head))
      )
        wrong.push(`${name}: the detail is missing of ${head.text.slice(0, 100)}`);
    for (const one of ours)
      if (placeOf(one).startsWith('t') && !heads.some((head) => belongs(one, head)))
        wrong.push(`${name}: detail without its message: ${one.text.slice(0, 100)}`);
  }
  return wrong;
}

/** What a Potbell keeps, and the moment at which its process dies: the write number `dieAt` (from 0) no longer happens. */
export function mortal(store: Store, memory: SurfaceMemory, dieAt = Number.POSITIVE_INFINITY) {
  let writes = 0;
  let dead = false;
  const alive = async <T>(work: () => Promise<T>): Promise<T> => {
    if (dead) throw new Error('this process is dead');
    return work();
  };
  const writing = <T>(work: () => Promise<T>): Promise<T> => {
    if (writes >= dieAt) dead = true;
    writes += 1;
    return alive(work);
  };
  const mortalStore: Store = {
    ...store,
    claim: (...args) => alive(() => store.claim(...args)),
    settle: (...args) => writing(() => store.settle(...args)),
    close: async () => undefined,
  };
  const mortalMemory: SurfaceMemory = {
    get: (...args) => alive(() => memory.get(...args)),
    list: (...args) => alive(() => memory.list(...args)),
    put: (...args) => writing(() => memory.put(...args)),
    remove: (...args) => writing(() => memory.remove(...args)),
    forget: (...args) => writing(() => memory.forget(...args)),
  };
  return { store: mortalStore, memory: mortalMemory, writes: () => writes, isDead: () => dead };
}

/** How often the platform answered one of these methods with 429. */
export const turnedAway = (crew: Crew): number =>
  crew.slack.calls.filter(({ response }) => JSON.stringify(response).includes('"ratelimited"')).length;

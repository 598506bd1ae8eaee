import { orderOf } from '../../adapters/chat/standing.ts';
import type { Composed } from '../../adapters/cli/compose.ts';
import { type LoadedSite, loadWords } from '../../adapters/cli/site.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { StoredDelivery } from '../../src/ports.ts';
import { rungBeforeMessage } from '../../src/views/rung-before.ts';
import type { Stands } from './hands.ts';

/** Enough of a crew in a chat to see what stands there. */
export interface Seen {
  readonly surface: 'slack' | 'teams';
  readonly potbell: Pick<Composed, 'store'>;
  readonly site: LoadedSite;
  /** Without it an older ring may stand in full still. */
  rest?(): Promise<void>;
  channel(): readonly Stands[];
  own(person: string): readonly Stands[];
}

/** Of what rang several times while nothing could be said, the last ring is enough. */
function lastOnly(deliveries: readonly StoredDelivery[]): readonly StoredDelivery[] {
  return deliveries.filter(({ key }, at) => !deliveries.slice(at + 1).some((later) => later.key === key));
}

/** What one message says in the end: any of these. `rangAt` for a bell. */
interface Says {
  readonly words: readonly string[];
  readonly rangAt: number;
}

/**
 * What must stand after these deliveries: one message for each bell, one for each other key, in order, with its last words.
 * BE12: of a bell that rang again `left` is what stands of the ring before.
 */
function expected(
  deliveries: readonly StoredDelivery[],
  left: (before: Says, next: StoredDelivery) => readonly string[],
): readonly Says[] {
  const byKey = new Map<string, Says[]>();
  const all: { key: string; at: number }[] = [];
  for (const next of deliveries) {
    const { key, urgency, message, queuedAt: rangAt } = next;
    const stack = byKey.get(key) ?? [];
    const before = stack.at(-1);
    byKey.set(key, stack);
    const says = { words: [message.summary], rangAt };
    if (urgency === 'bell' || before === undefined) {
      if (before !== undefined) stack[stack.length - 1] = { ...before, words: left(before, next) };
      all.push({ key, at: stack.length });
      stack.push(says);
    } else stack[stack.length - 1] = { ...says, rangAt: before.rangAt };
  }
  return all.flatMap(({ key, at }) => byKey.get(key)?.[at] ?? []);
}

/** As the platforms write it: one line, with what they take for marks written otherwise. */
const plain = (text: string) =>
  text.replaceAll('&amp;', '&').replaceAll('&lt;', '<').replaceAll('&gt;', '>').replace(/\s+/g, ' ');

const opens = (one: Stands, summary: string) => plain(one.summary).startsWith(plain(summary).slice(0, 200));

/** The words of a ring that was followed by another one, on the shifts there are. */
async function lefts({ potbell, site, rest }: Seen) {
  const texts = loadWords(site);
  const shifts = new Map<string, Shift>();
  for (const { id } of await potbell.store.shifts()) {
    const shift = await potbell.store.shift(id);
    if (shift) shifts.set(id, shift);
  }
  return ({ words, rangAt }: Says, next: StoredDelivery): readonly string[] => {
    const { audience, key, queuedAt: againAt } = next;
    const shift = shifts.get(next.shift);
    if (shift === undefined) throw new Error(`there is no shift ${next.shift}`);
    const { people, site: place } = site.pack;
    const reader = audience.kind === 'person' ? people.find(({ id }) => id === audience.person) : undefined;
    const view = { shift, texts: texts(reader?.language ?? place.language), now: againAt };
    const line = rungBeforeMessage(view, { key, rangAt, againAt })?.summary;
    if (line === undefined) return words;
    return rest === undefined ? [line, ...words] : [line];
  };
}

export interface Found {
  /** Not sent, lost, half said or outdated, or never said by Potbell; in words. */
  readonly wrong: readonly string[];
  /** Said once more than it should be, in words. */
  readonly twice: readonly string[];
}

/** How what stands differs from what should. Only for days in which nobody pressed or typed anything in this chat. */
export async function found(hands: Seen, rings: 'all' | 'last' = 'all'): Promise<Found> {
  await hands.rest?.();
  const left = await lefts(hands);
  const all = [...(await hands.potbell.store.deliveries({ surface: hands.surface, limit: 10_000 }))].sort(
    (a, b) => {
      const [x = [0, 0], y = [0, 0]] = [orderOf(a), orderOf(b)];
      return x[0] - y[0] || x[1] - y[1];
    },
  );
  const wrong = all
    .filter(({ state }) => state !== 'sent' && state !== 'superseded')
    .map(({ id, state, lastError }) => `${id} is ${state}: ${lastError}`);
  const twice: string[] = [];
  const places = [
    {
      name: 'channel',
      deliveries: all.filter(({ audience }) => audience.kind === 'crew'),
      stands: hands.channel(),
    },
    ...hands.site.pack.people.map(({ id }) => ({
      name: id,
      deliveries: all.filter(({ audience }) => audience.kind === 'person' && audience.person === id),
      stands: hands.own(id),
    })),
  ];
  for (const { name, deliveries, stands } of places) {
    const ours = stands.filter(({ by }) => by === 'potbell');
    const heads = ours.filter(({ part }) => part.head);
    const over = [...heads];
    const take = ({ words }: Pick<Says, 'words'>): boolean => {
      const at = over.findIndex((one) => words.some((summary) => opens(one, summary)));
      if (at >= 0) over.splice(at, 1);
      return at >= 0;
    };
    for (const says of expected(rings === 'all' ? deliveries : lastOnly(deliveries), left))
      if (!take(says)) wrong.push(`${name}: "${says.words.join('" or "')}" is lost`);
    const bells = deliveries.filter(({ urgency, state }) => urgency === 'bell' && state === 'sent');
    if (rings === 'last') for (const says of expected(bells, left)) take(says);
    for (const one of over) {
      const said = deliveries.some(({ message }) => opens(one, message.summary));
      (said ? twice : wrong).push(`${name}: too much: ${one.summary.slice(0, 100)}`);
    }
    const seen = new Set<string>();
    for (const { part, summary } of ours) {
      const which = `${part.of} ${part.at}`;
      if (seen.has(which)) twice.push(`${name}: ${which} stands twice: ${summary.slice(0, 100)}`);
      seen.add(which);
    }
    // A part whose words did not change keeps the mark of the message it came with; its thread tells whose it is.
    const belongs = (detail: Stands, head: Stands) =>
      !detail.part.head && (detail.part.of === head.part.of || detail.root === head.id);
    const whole = (head: Stands) => ours.some((one) => belongs(one, head));
    for (const head of heads) {
      if (!head.text.includes('in the thread of this message') || whole(head)) continue;
      // One that was said again because Potbell did not hear that it had been: counted above as too much.
      if (heads.some((one) => one.summary === head.summary && whole(one))) continue;
      wrong.push(`${name}: the detail is missing of ${head.summary.slice(0, 100)}`);
    }
    for (const one of ours)
      if (!one.part.head && !heads.some((head) => belongs(one, head)))
        wrong.push(`${name}: detail without its message: ${one.summary.slice(0, 100)}`);
  }
  return { wrong, twice };
}

/** Everything of it, where nothing may stand twice. */
export async function wrongIn(hands: Seen, rings: 'all' | 'last' = 'all'): Promise<readonly string[]> {
  const { wrong, twice } = await found(hands, rings);
  return [...wrong, ...twice];
}

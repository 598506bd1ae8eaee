import { orderOf } from '../../adapters/chat/standing.ts';
import type { Composed } from '../../adapters/cli/compose.ts';
import type { LoadedSite } from '../../adapters/cli/site.ts';
import type { StoredDelivery } from '../../src/ports.ts';
import type { Stands } from './hands.ts';

/** Enough of a crew in a chat to see what stands there. */
export interface Seen {
  readonly surface: 'slack' | 'teams';
  readonly potbell: Pick<Composed, 'store'>;
  readonly site: LoadedSite;
  channel(): readonly Stands[];
  own(person: string): readonly Stands[];
}

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

/** As the platforms write it: one line, with what they take for marks written otherwise. */
const plain = (text: string) =>
  text.replaceAll('&amp;', '&').replaceAll('&lt;', '<').replaceAll('&gt;', '>').replace(/\s+/g, ' ');

const opens = (one: Stands, summary: string) => plain(one.summary).startsWith(plain(summary).slice(0, 200));

export interface Found {
  /** Not sent, lost, half said or outdated, or never said by Potbell; in words. */
  readonly wrong: readonly string[];
  /** Said once more than it should be, in words. */
  readonly twice: readonly string[];
}

/** How what stands differs from what should. Only for days in which nobody pressed or typed anything in this chat. */
export async function found(hands: Seen, rings: 'all' | 'last' = 'all'): Promise<Found> {
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
    const left = [...heads];
    const take = (summary: string): boolean => {
      const at = left.findIndex((one) => opens(one, summary));
      if (at >= 0) left.splice(at, 1);
      return at >= 0;
    };
    for (const summary of expected(rings === 'all' ? deliveries : lastOnly(deliveries)))
      if (!take(summary)) wrong.push(`${name}: "${summary}" is lost`);
    if (rings === 'last')
      for (const { urgency, message } of deliveries) if (urgency === 'bell') take(message.summary);
    for (const one of left) {
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

import { z } from 'zod';
import type { Said } from './said.ts';
import type { ChatServices } from './services.ts';

/** The place of a message among all of its shift: the journal line that made it, and which of that line's messages. */
export const orderSchema = z.tuple([z.number().int(), z.number().int()]);
export type Order = z.infer<typeof orderSchema>;

/**
 * `says`: a mark of its words, by which one that did not change is left alone; missing where it may have been changed since.
 * `rang`: when the bell rang that this opens, ms, whatever it says by now.
 */
const partSchema = z.strictObject({
  ts: z.string(),
  thread: z.boolean(),
  says: z.string().optional(),
  rang: z.number().optional(),
});

/** Where the parts of a message stand, first the one in the channel. `ts` is what the platform calls the message by. */
export const placeSchema = z.strictObject({ channel: z.string(), parts: z.array(partSchema) });
const standingSchema = z.strictObject({
  ...placeSchema.shape,
  order: orderSchema.optional(),
});
export type Standing = z.infer<typeof standingSchema>;

/** A message of which perhaps not all stands yet, kept from before its first part is posted. */
const halfSchema = z.strictObject({ by: z.string(), ...standingSchema.shape });
export type Half = z.infer<typeof halfSchema>;

type What = Pick<Said, 'id' | 'shift' | 'key'>;

/** Undefined for what was made on the spot: it shows the shift as it is, so nothing in the outbox is newer. */
export function orderOf({ id, shift }: Pick<Said, 'id' | 'shift'>): Order | undefined {
  if (!id.startsWith(`${shift}:`)) return undefined;
  const [line, message] = id.slice(shift.length + 1).split(':');
  const order = orderSchema.safeParse([Number(line), Number(message)]);
  return order.success ? order.data : undefined;
}

export function isOlder(a: Order | undefined, b: Order | undefined): boolean {
  if (a === undefined || b === undefined) return false;
  return a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);
}

/** What stands of earlier words, without what this saying has posted already. */
export function partsBesides(standing: Standing, { parts }: Half): Standing['parts'] {
  return standing.parts.filter(({ ts }) => parts.every((part) => part.ts !== ts));
}

const threadKey = (shift: string) => `thread:${shift}`;
const standKey = ({ shift, key }: What, channel: string) => `said:${shift}:${channel}:${key}`;
const halfPrefix = ({ shift }: What) => `half:${shift}:`;
const halfKey = (what: What, channel: string) => `${halfPrefix(what)}${channel}:${what.key}`;

/** Which message of the platform a key became, across restarts. */
export function createStandings({ memory, surface }: Pick<ChatServices, 'memory' | 'surface'>) {
  const put = (key: string, value: Standing | Half) => memory.put(surface, key, JSON.stringify(value));

  return {
    async read(what: What, channel: string): Promise<Standing | null> {
      const text = await memory.get(surface, standKey(what, channel));
      return text === null ? null : standingSchema.parse(JSON.parse(text));
    },
    write: (what: What, standing: Standing) => put(standKey(what, standing.channel), standing),
    /** What is half said under this key, by this delivery or another, and when that was last gone on with. */
    async half(what: What, channel: string): Promise<{ readonly half: Half; readonly at: number } | null> {
      const key = halfKey(what, channel);
      const found = (await memory.list(surface, key)).find((one) => one.key === key);
      return found ? { half: halfSchema.parse(JSON.parse(found.value)), at: found.at } : null;
    },
    writeHalf: (what: What, half: Half) => put(halfKey(what, half.channel), half),
    dropHalf: (what: What, channel: string) => memory.remove(surface, halfKey(what, channel)),
    /** It will not be said: nothing waits for it any more. */
    async giveUp(what: What): Promise<void> {
      for (const { key, value } of await memory.list(surface, halfPrefix(what)))
        if (halfSchema.parse(JSON.parse(value)).by === what.id) await memory.remove(surface, key);
    },
    /** The first message of the day in the channel, under which the others stand. */
    thread: (shift: string) => memory.get(surface, threadKey(shift)),
    writeThread: (shift: string, ts: string) => memory.put(surface, threadKey(shift), ts),
    dropThread: (shift: string) => memory.remove(surface, threadKey(shift)),
  };
}

export type Standings = ReturnType<typeof createStandings>;

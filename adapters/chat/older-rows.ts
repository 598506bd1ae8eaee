import { z } from 'zod';
import type { Said } from './said.ts';
import type { ChatServices } from './services.ts';
import { type Order, orderSchema, placeSchema, type Standing } from './standing.ts';

/** A ring that another one takes the place of, kept from before that one is said. `order` and `againAt` are that one's. */
const olderSchema = z.strictObject({
  ...placeSchema.shape,
  shift: z.string(),
  key: z.string(),
  /** Null in the crew's channel. */
  person: z.string().nullable(),
  rangAt: z.number(),
  againAt: z.number(),
  order: orderSchema,
});
export type Older = z.infer<typeof olderSchema>;

export interface OlderRow {
  readonly id: string;
  readonly older: Older;
}

const PREFIX = 'older:';

/** The older ring that stands whole in this place, if it is one that is to make room for this ring. */
export function olderOf(
  { shift, key, audience, urgency, queuedAt }: Said,
  { channel, parts }: Standing,
  order: Order | undefined,
): OlderRow | null {
  const [first] = parts;
  if (urgency !== 'bell' || queuedAt === undefined || order === undefined || first?.rang === undefined)
    return null;
  const person = audience.kind === 'person' ? audience.person : null;
  const older = { channel, parts, shift, key, person, rangAt: first.rang, againAt: queuedAt, order };
  return { id: `${PREFIX}${shift}:${channel}:${key}:${first.ts}`, older };
}

/** Which older rings still stand in full, across restarts. */
export function createOlderRows({ memory, surface }: Pick<ChatServices, 'memory' | 'surface'>) {
  return {
    put: ({ id, older }: OlderRow) => memory.put(surface, id, JSON.stringify(older)),
    done: (id: string) => memory.remove(surface, id),
    async all(): Promise<readonly OlderRow[]> {
      const rows = await memory.list(surface, PREFIX);
      return rows.map(({ key, value }) => ({ id: key, older: olderSchema.parse(JSON.parse(value)) }));
    },
  };
}

import { z } from 'zod';
import type { Backstop } from '../../src/chat/backstop.ts';
import { type SurfaceMemory, SurfaceMemoryDamaged } from '../../src/ports.ts';
import type { Log } from '../host/log.ts';

const SURFACE = 'slack';
const PREFIX = 'backstop:';
/** Outside the prefix of the rows. Says of a day that its rigs share one notice. */
const merged = (day: string) => `backstop-merged:${day}`;

export const backstopStates = [
  /** Written before the platform is asked: `id` is null, and it may be there all the same. */
  'wanted',
  'armed',
  'cancel_requested',
  'cancelled',
  /** Asked for so late that the platform may have said yes and post it all the same. */
  'cancel_uncertain',
  /** Its time has come. `posted` says where it was seen; empty when nobody told us. */
  'fired',
  'refused',
] as const;
export type BackstopState = (typeof backstopStates)[number];

const rowSchema = z.strictObject({
  ref: z.string(),
  rig: z.string(),
  postAt: z.number(),
  text: z.string(),
  rigs: z.array(
    z.strictObject({
      rig: z.string(),
      name: z.string(),
      since: z.number(),
      by: z.string(),
      deadAt: z.string(),
    }),
  ),
  state: z.enum(backstopStates),
  id: z.string().nullable(),
  /** Ids of earlier wordings of the same notice that are still to be taken back. */
  stale: z.array(z.string()),
  /** The last try got no clear answer: look into the list before the next one. */
  unclear: z.boolean(),
  why: z.string(),
  /** The trouble that people have heard of. */
  told: z.string(),
  posted: z.array(z.strictObject({ ts: z.string(), edited: z.boolean() })),
  /** By rig: who confirmed its flush, and when. */
  confirmed: z.record(z.string(), z.strictObject({ time: z.string(), person: z.string() })),
});
export type Row = z.infer<typeof rowSchema>;

export function freshRow(backstop: Backstop): Row {
  const rigs = backstop.rigs.map((rig) => ({ ...rig }));
  return {
    ...{ ...backstop, rigs, state: 'wanted', id: null, stale: [], unclear: false, why: '', told: '' },
    ...{ posted: [], confirmed: {} },
  };
}

export interface RowBook {
  /** `day` is how the refs begin, "0608"; an empty one is every day. */
  of(day: string): Promise<{ readonly rows: Map<string, Row>; readonly damaged: boolean }>;
  get(ref: string): Promise<Row | null>;
  put(row: Row): Promise<void>;
  isMerged(day: string): Promise<boolean>;
  setMerged(day: string, yes: boolean): Promise<void>;
  /** Drops what was last written before this instant. */
  forget(before: number): Promise<void>;
}

/** Rows as JSON in what the surface remembers. A row that cannot be read is dropped and said to be missing. */
export function rowBook(memory: SurfaceMemory, log: Log): RowBook {
  async function read(key: string, value: string): Promise<Row | null> {
    const parsed = rowSchema.safeParse(parseJson(value));
    if (parsed.success) return parsed.data;
    log.error({ key, fault: z.prettifyError(parsed.error) }, 'a remembered backstop cannot be read; dropped');
    await memory.remove(SURFACE, key);
    return null;
  }

  /** Damage is said once and gone the second time. */
  async function twice<T>(look: () => Promise<T>): Promise<{ readonly found: T; readonly damaged: boolean }> {
    try {
      return { found: await look(), damaged: false };
    } catch (error) {
      if (!(error instanceof SurfaceMemoryDamaged)) throw error;
      log.error({ error: error.message }, 'remembered backstops were damaged; looked for in the chat again');
      return { found: await look(), damaged: true };
    }
  }

  return {
    async of(day) {
      const { found, damaged } = await twice(() => memory.list(SURFACE, PREFIX + (day && `${day}-`)));
      const rows = new Map<string, Row>();
      let unread = false;
      for (const { key, value } of found) {
        const row = await read(key, value);
        if (row) rows.set(row.ref, row);
        else unread = true;
      }
      return { rows, damaged: damaged || unread };
    },
    async get(ref) {
      const { found } = await twice(() => memory.get(SURFACE, PREFIX + ref));
      return found === null ? null : read(PREFIX + ref, found);
    },
    put: (row) => memory.put(SURFACE, PREFIX + row.ref, JSON.stringify(row)),
    async isMerged(day) {
      return (await twice(() => memory.get(SURFACE, merged(day)))).found !== null;
    },
    setMerged: (day, yes) =>
      yes ? memory.put(SURFACE, merged(day), '{}') : memory.remove(SURFACE, merged(day)),
    async forget(before) {
      await twice(() => memory.forget(SURFACE, PREFIX, before));
    },
  };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // The schema then says that it is no object.
    return undefined;
  }
}

import { z } from 'zod';

const time = z.iso.datetime({ offset: true });
const litres = z.number().min(0);
const count = z.number().int().min(0);

const batchSchema = z.strictObject({
  number: count.min(1),
  area: z.string(),
  coating: z.string(),
  mixFrom: time,
  mixTo: time,
  readyAt: time,
  sprayFrom: time,
  sprayTo: time,
  outOfLineAt: time,
  useBy: time.nullable(),
  startFlushBy: time.nullable(),
  deadAt: time.nullable(),
  mixedL: litres,
  baseL: litres,
  hardenerL: litres,
  thinnerL: litres,
  fullKits: count.nullable(),
  measuredL: litres,
  standsLonger: z.boolean(),
});

export const changeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('part-kits'), batchesAtMostL: litres }),
  z.strictObject({ kind: z.literal('earlier'), minutes: count }),
  z.strictObject({ kind: z.literal('later'), minutes: count }),
  z.strictObject({ kind: z.literal('faster'), timesTheFlow: z.number() }),
  z.strictObject({ kind: z.literal('rig') }),
  z.strictObject({ kind: z.literal('less'), leftM2: z.number() }),
]);

const rigSchema = z.strictObject({
  rig: z.string(),
  name: z.string(),
  feasible: z.boolean(),
  reason: z.enum(['pot-life', 'kits', 'flow', 'weather', 'recoat', 'shift', 'combined']).nullable(),
  changes: z.array(changeSchema),
  limits: z.array(
    z.strictObject({
      kind: z.enum(['paint', 'pot-life', 'kits', 'flow', 'weather', 'recoat', 'shift']),
      moreL: litres,
      soonerMinutes: count,
    }),
  ),
  jobs: z.array(
    z.strictObject({
      area: z.string(),
      coating: z.string(),
      areaM2: z.number(),
      coveredM2: z.number(),
      neededL: litres,
      plannedL: litres,
      sprayLPerMin: z.number(),
      complete: z.boolean(),
      closed: z.array(z.strictObject({ from: time, to: time, why: z.enum(['weather', 'recoat']) })),
    }),
  ),
  batches: z.array(batchSchema),
  flushes: z.array(
    z.strictObject({
      from: time,
      to: time,
      why: z.enum(['break', 'end', 'coating-change', 'pot-life']),
      solvent: z.string(),
      primaryL: litres,
      secondaryL: litres,
    }),
  ),
  lastMix: z.array(
    z.strictObject({
      before: z.enum(['break', 'end']),
      at: time,
      coating: z.string(),
      batchL: litres,
      mixBy: time.nullable(),
    }),
  ),
  totals: z.strictObject({
    coatings: z.array(
      z.strictObject({ coating: z.string(), mixedL: litres, kits: count.nullable(), thinnerL: litres }),
    ),
    primaryL: litres,
    secondaryL: litres,
    coveredM2: z.number(),
    areaM2: z.number(),
  }),
});

const refusedSchema = z.strictObject({
  rig: z.string(),
  name: z.string(),
  refused: z.strictObject({ field: z.string(), value: z.string(), valid: z.string(), why: z.string() }),
});

/**
 * What `potbell plan --json` prints; docs/plan.md describes it. Units are in the names: L litres, M2 square metres. Times are
 * ISO 8601 on the site's clock with its offset. Fields are added, never renamed, within a version.
 */
export const planJsonSchema = z.strictObject({
  version: z.literal(1),
  /** A plan, never a permission to spray. */
  notice: z.string(),
  site: z.string(),
  date: z.string(),
  timeZone: z.string(),
  startsAt: time,
  endsAt: time,
  rigs: z.array(z.union([rigSchema, refusedSchema])),
});
export type PlanJson = z.infer<typeof planJsonSchema>;

export type ChangeJson = z.infer<typeof changeSchema>;

import { z } from 'zod';
import { idSchema } from './id.ts';

const bar = z.number().positive().max(1000);

/** One pump with its hoses, gun, tip, filters and earth lead. */
export const rigSchema = z.strictObject({
  id: idSchema,
  name: z.string().min(1).max(40),
  drive: z.enum(['air', 'electric', 'engine']),
  ratio: z.number().min(1).max(120).optional().describe('fluid pressure : air pressure, air-driven rigs'),
  maxAirBar: z.number().positive().max(15).optional().describe('most air pressure the pump may be given'),
  maxFluidBar: bar.optional().describe('set fluid pressure limit, electric and engine rigs'),
  ratings: z
    .array(z.strictObject({ part: z.enum(['pump', 'filter', 'hose', 'swivel', 'gun', 'tip-guard']), bar }))
    .default([])
    .describe('highest working pressure stamped on each part in the line'),
  hoses: z
    .array(z.strictObject({ boreMm: z.number().positive().max(40), lengthM: z.number().positive().max(300) }))
    .min(1),
  pumpAndFilterLitres: z.number().min(0).max(20).default(0.5),
  drainLineLitres: z.number().min(0).max(10).default(0.2),
  litresPerCycle: z.number().positive().max(5),
  flushCyclesPerMinute: z.number().positive().max(120),
  wheels: z.enum(['rubber', 'metal', 'none']).default('rubber'),
  components: z
    .union([z.literal(1), z.literal(2)])
    .default(1)
    .describe('2: a plural-component rig, A and B under pressure, each in its own lines'),
  hoseColour: z.enum(['dark', 'light']).default('dark').describe('a dark hose gets hotter in the sun'),
  compressorLPerMin: z.number().positive().max(50_000).optional().describe('free air there is for this pump'),
  mayHoldSettledSolvent: z.boolean().default(true),
});

export type Rig = z.infer<typeof rigSchema>;

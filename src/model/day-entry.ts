import { z } from 'zod';
import { idSchema } from './id.ts';
import { dateSchema, wallTimeSchema } from './time.ts';

export const jobSchema = z.strictObject({
  area: z.string().min(1).max(80),
  coating: idSchema,
  coat: z.enum(['primer', 'stripe', 'intermediate', 'finish', 'repair']),
  dftUm: z.number().min(1).max(5000).describe('target dry film, µm'),
  areaM2: z.number().min(0.01).max(20_000),
  rig: idSchema,
  airBar: z
    .number()
    .positive()
    .max(15)
    .optional()
    .describe('air pressure planned at the pump, air-driven rigs'),
  fluidBar: z
    .number()
    .positive()
    .max(1000)
    .optional()
    .describe('fluid pressure planned, electric and engine rigs'),
  thinnerPct: z.number().min(0).max(50).default(0).describe('thinner per 100 volumes of paint'),
  sprayers: z.array(idSchema).min(1),
  mixers: z.array(idSchema).min(1),
});
export type Job = z.infer<typeof jobSchema>;

export const weatherSchema = z.strictObject({
  airC: z.number().min(-30).max(55),
  rhPct: z.number().min(1).max(100),
  steelC: z.number().min(-40).max(80).optional(),
  windMps: z.number().min(0).max(40).optional(),
  sun: z.boolean().default(false).describe('sun on hoses or steel'),
});
export type Weather = z.infer<typeof weatherSchema>;

export const breakSchema = z.strictObject({ from: wallTimeSchema, to: wallTimeSchema });

/** What the foreman posts for a shift. Times are on the site's clock; an end before the start is the next day. */
export const dayEntrySchema = z.strictObject({
  date: dateSchema,
  start: wallTimeSchema,
  end: wallTimeSchema,
  breaks: z.array(breakSchema).max(8).default([]),
  surroundings: z.enum(['open-air', 'enclosed', 'confined']),
  weather: weatherSchema,
  jobs: z.array(jobSchema).min(1).max(12),
  others: z.array(idSchema).default([]).describe('on site today without spraying or mixing'),
  notes: z.string().max(500).default(''),
});
export type DayEntry = z.infer<typeof dayEntrySchema>;
export type DayEntryInput = z.input<typeof dayEntrySchema>;

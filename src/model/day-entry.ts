import { z } from 'zod';
import { idSchema } from './id.ts';
import { dateSchema, dayTimeSchema, wallTimeSchema } from './time.ts';

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
  lossPct: z.number().min(0).max(80).optional().describe('paint lost on this job, per cent of paint used'),
  profileUm: z
    .number()
    .min(0)
    .max(300)
    .optional()
    .describe('dry film that fills the blast profile, first coat'),
  liftM: z.number().min(-150).max(150).optional().describe('gun above the pump, m; below it: negative'),
  tip: z.string().max(10).optional().describe('tip fitted, when not the one on the sheet'),
  preparedAt: dayTimeSchema
    .optional()
    .describe('when blasting or power-tool cleaning of this area ended; whichever coat goes on bare steel'),
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
  wbgtC: z.number().min(0).max(45).optional().describe('wet-bulb globe temperature expected, °C'),
});
export type Weather = z.infer<typeof weatherSchema>;

export const breakSchema = z.strictObject({ from: wallTimeSchema, to: wallTimeSchema });

/** What is expected from a time of day on, until the next line. */
export const forecastSchema = z.strictObject({
  at: wallTimeSchema,
  airC: z.number().min(-30).max(55),
  rhPct: z.number().min(1).max(100).optional(),
  steelC: z.number().min(-40).max(80).optional(),
});
export type Forecast = z.infer<typeof forecastSchema>;

/** What the foreman posts for a shift. Times are on the site's clock; an end before the start is the next day. */
export const dayEntrySchema = z.strictObject({
  date: dateSchema,
  start: wallTimeSchema,
  end: wallTimeSchema,
  breaks: z.array(breakSchema).max(8).default([]),
  surroundings: z.enum(['open-air', 'enclosed', 'confined']),
  weather: weatherSchema,
  forecast: z.array(forecastSchema).max(24).default([]).describe('hour by hour, if known'),
  space: z
    .strictObject({ volumeM3: z.number().min(0.1).max(1e6), airM3PerMin: z.number().min(0).max(1e5) })
    .optional()
    .describe('enclosed or confined: how large it is and how much air is blown through'),
  jobs: z.array(jobSchema).min(1).max(12),
  others: z.array(idSchema).default([]).describe('on site today without spraying or mixing'),
  notes: z.string().max(500).default(''),
});
export type DayEntry = z.infer<typeof dayEntrySchema>;
export type DayEntryInput = z.input<typeof dayEntrySchema>;

import { z } from 'zod';
import { idSchema } from './id.ts';

const celsius = z.number().min(-40).max(80);

const temperatureMinutes = z.strictObject({
  c: celsius.describe('paint temperature in °C'),
  minutes: z.number().positive().max(10_080).describe('minutes at that temperature'),
});

/** Section 9 of a safety data sheet: what its vapour needs to burn, and how heavy liquid and vapour are. */
const vapourSchema = z.strictObject({
  lelPct: z.number().min(0.3).max(20).describe('lower explosive limit, per cent by volume'),
  vapourDensity: z.number().min(0.5).max(12).describe('vapour density, air = 1'),
  densityKgPerL: z.number().min(0.5).max(2).describe('density of the liquid, kg/L'),
});
export type Vapour = z.infer<typeof vapourSchema>;

export const hazardCodeSchema = z
  .string()
  .regex(/^(EU)?H\d{3}[A-Za-z]{0,2}$/, 'copy the code only, for example "H317"');

/** One coating as the foreman copied it from the data sheet and the safety data sheet that came with it. */
export const coatingSheetSchema = z
  .strictObject({
    id: idSchema,
    name: z.string().min(1).max(60),
    family: z
      .enum([
        'epoxy',
        'polyurethane',
        'zinc-silicate',
        'zinc-epoxy',
        'polysiloxane',
        'alkyd',
        'acrylic',
        'other',
      ])
      .describe('generic type of binder'),
    parts: z.union([z.literal(1), z.literal(2)]).describe('1 for one-pack, 2 for two-pack'),
    mixRatio: z
      .strictObject({ a: z.number().positive().max(100), b: z.number().positive().max(100) })
      .optional()
      .describe('parts by volume, base to hardener'),
    kitLitres: z.number().positive().max(1000).optional().describe('litres of A + B in one full kit'),
    volumeSolids: z.number().positive().max(100).describe('per cent by volume, unthinned'),
    potLife: z.array(temperatureMinutes).min(1).max(12).optional(),
    induction: z.array(temperatureMinutes).max(12).default([]),
    thinner: z
      .strictObject({
        name: z.string().min(1).max(60),
        maxPercent: z.number().min(0).max(50),
        flashPointC: z.number().min(-60).max(300).optional(),
      })
      .optional()
      .describe('per cent of paint volume'),
    flushSolvent: z.string().min(1).max(60),
    flashPointC: z.number().min(-60).max(300).optional(),
    flushFlashPointC: z.number().min(-60).max(300).optional().describe('flash point of the flush solvent'),
    densityKgPerL: z.number().min(0.6).max(4).optional().describe('density of the mixed paint'),
    vapour: z
      .strictObject({
        paint: vapourSchema.optional().describe('the solvent in the paint'),
        thinner: vapourSchema.optional(),
        flush: vapourSchema.optional().describe('the flush solvent'),
      })
      .optional()
      .describe('section 9 of the safety data sheets'),
    dft: z
      .strictObject({ min: z.number().positive().max(5000), max: z.number().positive().max(5000) })
      .optional(),
    limits: z
      .strictObject({
        steelMinC: celsius.optional(),
        steelMaxC: celsius.optional(),
        airMinC: celsius.optional(),
        airMaxC: celsius.optional(),
        rhMaxPct: z.number().min(1).max(100).optional(),
        rhMinPct: z.number().min(0).max(99).optional(),
        marginMinC: z.number().min(0).max(20).optional(),
      })
      .default({}),
    recoat: z
      .array(
        z.strictObject({
          toC: celsius.describe('this row holds up to and with this surface temperature'),
          minHours: z.number().min(0).max(8760),
          maxHours: z.number().min(0).max(8760).optional(),
        }),
      )
      .max(12)
      .default([]),
    hazards: z.array(hazardCodeSchema).default([]),
    isocyanate: z.boolean(),
    filterMesh: z.number().int().positive().max(400).optional().describe('gun filter, openings per inch'),
    tip: z.string().max(10).optional(),
  })
  .check((ctx) => {
    const sheet = ctx.value;
    const say = (path: string, message: string) =>
      ctx.issues.push({ code: 'custom', path: [path], message, input: sheet });
    if (sheet.parts === 2 && !sheet.mixRatio)
      say(
        'mixRatio',
        'a two-pack needs its mix ratio; copy the parts by volume from the data sheet: { a: 4, b: 1 }',
      );
    if (sheet.parts === 1 && sheet.mixRatio)
      say('mixRatio', 'a one-pack has no mix ratio; take it out or write parts: 2');
    if (sheet.dft && sheet.dft.min > sheet.dft.max) say('dft', 'min is larger than max');
    const points = [...(sheet.potLife ?? [])].sort((x, y) => x.c - y.c);
    for (let i = 1; i < points.length; i += 1) {
      const colder = points[i - 1];
      const warmer = points[i];
      if (!colder || !warmer) continue;
      if (colder.c === warmer.c)
        say('potLife', `two lines for ${warmer.c} °C; keep the one on the data sheet`);
      else if (warmer.minutes > colder.minutes)
        say(
          'potLife',
          `${warmer.minutes} min at ${warmer.c} °C is longer than ${colder.minutes} min at ${colder.c} °C; check the sheet`,
        );
    }
  });

export type CoatingSheet = z.infer<typeof coatingSheetSchema>;

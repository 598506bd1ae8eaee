import { z } from 'zod';
import { flushSteps, rigChecks } from './checks.ts';
import { dayEntrySchema } from './day-entry.ts';
import { idSchema } from './id.ts';

const words = (most = 500) => z.string().trim().min(1, 'write a few words').max(most);
const temperature = z
  .number()
  .min(-30, 'is this °C? −30 to 80 can be right here')
  .max(80, 'is this °C? −30 to 80 can be right here');
const litres = z.number().positive('more than 0 litres').max(1000, 'at most 1000 litres');
const rig = idSchema;
/** An instant the person states, for something logged after the fact. */
const instant = z.number().int().positive();

/** Everything a person, a form, the command line or a loop can ask of a shift. Who asks is not in here. */
export const commandSchema = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('post-day'),
    entry: dayEntrySchema,
    /** The revision the change was made from; another one meanwhile is not written over. */
    base: z.number().int().positive().optional(),
  }),
  z.strictObject({ type: z.literal('issue-briefing') }),
  z.strictObject({ type: z.literal('arrive'), person: idSchema }),
  z.strictObject({
    type: z.literal('answer'),
    revision: z.number().int().positive(),
    question: z.string().min(1).max(120),
    choice: z.number().int().min(0).max(9),
    /** Set by the foreman who puts the question to somebody without a phone. */
    witnessFor: idSchema.optional(),
  }),
  z.strictObject({
    type: z.literal('sign'),
    revision: z.number().int().positive(),
    witnessFor: idSchema.optional(),
  }),
  z.strictObject({ type: z.literal('raise-concern'), text: words() }),
  z.strictObject({ type: z.literal('resolve-concern'), concern: z.string().min(1).max(80), text: words() }),
  z.strictObject({
    type: z.literal('check-rig'),
    rig,
    results: z.record(z.enum(rigChecks), z.enum(['ok', 'defect'])),
    note: z.string().trim().max(500).default(''),
  }),
  z.strictObject({
    type: z.literal('clear-tag'),
    rig,
    text: words(),
    /** Old paint is out: the line was flushed through or replaced. */
    lineClean: z.boolean().default(false),
  }),
  z.strictObject({ type: z.literal('report-defect'), rig, part: words(60), text: words() }),
  z
    .strictObject({
      type: z.literal('take-reading'),
      airC: temperature,
      rhPct: z.number().min(1).max(100, 'relative humidity is 1 to 100 %').optional(),
      wetC: temperature.optional().describe('wet bulb, instead of humidity'),
      steelC: temperature,
      wbgtC: z.number().min(0).max(45).optional().describe('wet-bulb globe temperature, if measured'),
      place: z.string().trim().max(80).default(''),
    })
    .refine((r) => (r.rhPct === undefined) !== (r.wetC === undefined), {
      path: ['rhPct'],
      message: 'give the humidity or the wet bulb, one of the two',
    }),
  z.strictObject({ type: z.literal('void-reading'), takenAt: instant, reason: words(300) }),
  z.strictObject({
    type: z.literal('mix-batch'),
    rig,
    coating: idSchema,
    litres: litres.describe('A + B together, before thinner'),
    paintC: temperature,
    thinnerL: z.number().min(0).max(500).default(0),
    pot: z.enum(['fresh', 'on-top']),
    aL: litres.optional().describe('measured base, when not the full kit'),
    bL: litres.optional().describe('measured hardener, when not the full kit'),
    mixedAt: instant.optional().describe('when it was mixed, if logged late'),
  }),
  /** The temperature at mixing was written down wrong: it counts from the mixing on, not from now. */
  z.strictObject({
    type: z.literal('mend-mix-temperature'),
    rig,
    batch: z.string().min(1).max(60),
    c: temperature,
  }),
  /** A batch logged twice, on the wrong rig, or never mixed. It takes a clock away. */
  z.strictObject({
    type: z.literal('void-batch'),
    rig,
    batch: z.string().min(1).max(60),
    reason: words(300),
  }),
  z.strictObject({ type: z.literal('pot-temperature'), rig, c: temperature }),
  z.strictObject({ type: z.literal('hose-temperature'), rig, c: temperature }),
  z.strictObject({ type: z.literal('hose-warm'), rig }),
  z.strictObject({ type: z.literal('pause'), rig, why: z.string().trim().max(200).default('') }),
  z.strictObject({ type: z.literal('resume'), rig }),
  z.strictObject({
    type: z.literal('pot-empty'),
    rig,
    wastedL: z.number().min(0).max(1000).default(0),
    /** Litres of this pot that went through the gun, when somebody knows: enough of them renew the line. */
    sprayedL: litres.optional(),
  }),
  z.strictObject({
    type: z.literal('line-renewed'),
    rig,
    sprayedL: litres.describe('litres of the fresh batch sprayed so far'),
  }),
  z.strictObject({
    type: z.literal('test-fan'),
    rig,
    widthMm: z
      .number()
      .min(20, 'is this the width in mm? 20 to 1000 can be right here')
      .max(1000, 'is this the width in mm? 20 to 1000 can be right here'),
    tip: z.string().trim().min(1, 'write the code that stands on the tip').max(10),
  }),
  z.strictObject({ type: z.literal('start-flush'), rig }),
  z.strictObject({
    type: z.literal('confirm-step'),
    rig,
    flush: z.string().min(1).max(80),
    step: z.enum(flushSteps),
    litres: z.number().min(0).max(500).optional(),
    note: z.string().trim().max(300).default(''),
  }),
  z.strictObject({
    type: z.literal('skip-step'),
    rig,
    flush: z.string().min(1).max(80),
    step: z.enum(flushSteps),
    reason: words(300),
  }),
  z.strictObject({
    type: z.literal('abandon-flush'),
    rig,
    flush: z.string().min(1).max(80),
    reason: words(300),
  }),
  z.strictObject({ type: z.literal('stop-work'), text: z.string().trim().max(500).default('') }),
  z.strictObject({ type: z.literal('clear-stop-work'), text: words() }),
  z.strictObject({ type: z.literal('answer-bell'), bell: z.string().min(1).max(160) }),
  z.strictObject({ type: z.literal('close-shift'), reason: z.string().trim().max(500).default('') }),
  z.strictObject({ type: z.literal('hand-over'), to: z.string().min(1).max(80) }),
  z.strictObject({ type: z.literal('ring') }),
  z.strictObject({
    type: z.literal('note-undelivered'),
    message: z.string().min(1).max(200),
    to: z.string().min(1).max(120),
    surface: z.string().min(1).max(40),
    why: z.string().min(1).max(500),
  }),
]);
export type Command = z.infer<typeof commandSchema>;

/** Commands of the host itself; no surface takes them from a person. */
export const hostCommands: readonly Command['type'][] = ['ring', 'note-undelivered', 'hand-over'];
/** A command before defaults are filled in, as forms, files and tests write it. */
export type CommandInput = z.input<typeof commandSchema>;
export type CommandType = Command['type'];
export type CommandOf<T extends CommandType> = Extract<Command, { type: T }>;

import { z } from 'zod';
import { tooSoon } from '../../../src/flow/flush-pace.ts';
import { flushSteps } from '../../../src/model/checks.ts';
import { stamp, stampSchema } from '../stamp.ts';
import { type Told, told, type Walk } from '../walk.ts';
import { answerSchema, takenBack } from './concerns.ts';
import { coatingNamed, lineSchema, namedSchema, personNamed, rigNamed } from './shapes.ts';

const step = z.strictObject({
  step: z.enum(flushSteps),
  outcome: z.enum(['done', 'skipped', 'not-answered']),
  line: lineSchema.nullable(),
  at: stampSchema.nullable(),
  by: namedSchema.nullable(),
  litres: z.number().nullable(),
  /** Confirmed sooner after the step before than the pump can move its solvent: whole minutes. */
  tooSoon: z.strictObject({ minutes: z.number(), needs: z.number() }).nullable(),
  /** Why it was left out, or the note to a step that was done. */
  text: z.string(),
});
export type StepSummary = z.infer<typeof step>;

/** Each flush with all its steps in their order, those left out with the reason, those never answered as well. */
export const flushesSchema = z.array(
  z.strictObject({
    id: z.string(),
    line: lineSchema,
    rig: namedSchema,
    coating: namedSchema.nullable(),
    startedAt: stampSchema,
    by: namedSchema,
    steps: z.array(step),
    finishedAt: stampSchema.nullable(),
    /** Begun by mistake and given up before the pressure was relieved. */
    abandoned: answerSchema.nullable(),
  }),
);
export type FlushSummary = z.infer<typeof flushesSchema>[number];

export function flushesOf(walk: Walk): FlushSummary[] {
  const answers = told(walk, 'step-confirmed', 'step-skipped');
  const finished = told(walk, 'flush-finished');
  const abandoned = told(walk, 'flush-abandoned');
  return told(walk, 'flush-started').map(({ line, at, after, body: { flush, rig, by } }) => {
    const coating = after.rigs[rig]?.flush?.coating ?? null;
    const end = finished.find(({ body }) => body.flush === flush);
    return {
      id: flush,
      line,
      rig: rigNamed(after, rig),
      coating: coating === null ? null : coatingNamed(after, coating),
      startedAt: stamp(at, walk.zone),
      by: personNamed(after, by),
      steps: flushSteps.map((name) => {
        const found = answers.find(({ body }) => body.flush === flush && body.step === name);
        return found ? answeredStep(found, walk.zone) : notAnswered(name);
      }),
      finishedAt: end ? stamp(end.at, walk.zone) : null,
      abandoned: takenBack(
        walk,
        abandoned.find(({ body }) => body.flush === flush),
      ),
    };
  });
}

function answeredStep(
  { line, at, before, after, body }: Told<'step-confirmed' | 'step-skipped'>,
  zone: string,
): StepSummary {
  const shared = { step: body.step, line, at: stamp(at, zone), by: personNamed(after, body.by) };
  if (body.type === 'step-skipped')
    return { ...shared, outcome: 'skipped', litres: null, tooSoon: null, text: body.reason };
  const flush = before?.rigs[body.rig]?.flush;
  const soon = flush ? tooSoon(after.day, body.rig, flush, body.step, at) : null;
  return { ...shared, outcome: 'done', litres: body.litres, tooSoon: soon && { ...soon }, text: body.note };
}

function notAnswered(name: StepSummary['step']): StepSummary {
  return {
    step: name,
    outcome: 'not-answered',
    line: null,
    at: null,
    by: null,
    litres: null,
    tooSoon: null,
    text: '',
  };
}

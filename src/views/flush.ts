import { flushPlanOf } from '../facts/flush-plan.ts';
import { tenthUp } from '../facts/round.ts';
import { settledUse } from '../facts/settled-solvent.ts';
import { rigClocks } from '../flow/clocks.ts';
import { nameOf } from '../flow/decision.ts';
import { nextStep } from '../flow/flush.ts';
import { tooSoon } from '../flow/flush-pace.ts';
import { rigName } from '../flow/rig-update.ts';
import { buttons, facts, heading, message, note, paragraph, strong } from '../message/build.ts';
import type { Block, CheckItem, Message } from '../message/message.ts';
import { type FlushStep, flushSteps, neverSkipped } from '../model/checks.ts';
import type { Flush } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import { at, type View } from './context.ts';
import { abandonButtons } from './corrections.ts';
import { tagText } from './holds.ts';

/** Steps at which litres are noted. */
export const stepsWithLitres: readonly FlushStep[] = ['primary-flush', 'secondary-flush', 'solvent-away'];

export function stepName({ shift, texts }: View, rig: string, step: FlushStep): string {
  if (step === 'power-off' && shift.day.rigs[rig]?.drive !== 'air') return texts.say('step.power-off-motor');
  return texts.say(`step.${step}`);
}

/** How one step is done on this rig, with today's volumes. */
export function stepHow(view: View, rig: string, step: FlushStep): string {
  const { shift, texts } = view;
  const name = rigName(shift, rig);
  const spec = shift.day.rigs[rig];
  const plan = spec ? flushPlanOf(shift.day, spec) : null;
  const solvent = flushSolvent(view, rig);
  switch (step) {
    case 'lock-trigger':
      return texts.say('how.lock-trigger', { rig: name });
    case 'power-off':
      return spec?.drive === 'air'
        ? texts.say('how.power-off', { rig: name })
        : texts.say('how.power-off-motor', { rig: name });
    case 'primary-flush':
      return texts.say(rinsesFirst(view, rig) ? 'how.primary-flush' : 'how.primary-flush-clean', {
        litres: tenthUp(plan?.primaryL ?? 0),
        solvent,
        minutes: Math.max(1, Math.ceil((plan?.primaryMinutes ?? 0) - shift.day.policy.flushFixedMinutes)),
      });
    case 'secondary-flush':
      return texts.say('how.secondary-flush', { litres: tenthUp(plan?.secondaryL ?? 0), solvent });
    case 'relieve-gun':
    case 'relieve-drain':
    case 'lock-again':
    case 'tip-off':
    case 'suction-out':
    case 'relieve-again':
    case 'filters':
    case 'tip-and-gun':
    case 'solvent-away':
      return texts.say(`how.${step}`);
  }
}

function flushSolvent({ shift }: View, rig: string): string {
  const state = shift.rigs[rig];
  const coating =
    state?.flush?.coating ??
    state?.line?.coating ??
    state?.batches.at(-1)?.coating ??
    shift.day.entry.jobs.find((job) => job.rig === rig)?.coating;
  return (coating && shift.day.coatings[coating]?.flushSolvent) || '';
}

/** The flush as it stands: volumes, what has been done by whom, and the one step that comes next, with its buttons. */
export function flushMessage(view: View, rig: string, flush: Flush): Message {
  const { shift, texts } = view;
  const next = nextStep(flush);
  const name = rigName(shift, rig);
  const clock = rigClocks(shift, rig)[0];
  const title = texts.say('flush.title', { rig: name });
  const summary = next ? `${title}. ${texts.say('flush.next', { step: stepName(view, rig, next) })}` : title;
  return message(
    summary,
    clock ? 'attention' : 'plain',
    heading(summary),
    ...(clock ? [note('danger', paintLeft(view, clock.times.deadAt))] : []),
    ...(shift.rigs[rig]?.tag
      ? [note('danger', tagText(view, rig)), note('danger', texts.say('flush.tagged'))]
      : []),
    ...(next ? nextBlocks(view, rig, flush, next) : []),
    ...volumes(view, rig),
    {
      kind: 'checklist',
      items: flushSteps.map((step) => checkItem(view, rig, flush, step, step === next)),
    },
  );
}

const paintLeft = (view: View, deadAt: Instant): string =>
  view.texts.say('flush.paint-left', {
    time: at(view, deadAt),
    past: view.now >= deadAt ? 'yes' : 'no',
  });

function nextBlocks(view: View, rig: string, flush: Flush, step: FlushStep): readonly Block[] {
  const { texts, shift } = view;
  const about = { rig, flush: flush.id, step };
  const wantsForm = stepsWithLitres.includes(step);
  return [
    paragraph(stepHow(view, rig, step)),
    ...buttons(
      {
        label: texts.say(
          step === 'power-off' && shift.day.rigs[rig]?.drive !== 'air'
            ? 'press.power-off-motor'
            : `press.${step}`,
        ),
        tone: 'main',
        action: wantsForm
          ? { kind: 'open', form: { id: 'confirm-step', about } }
          : { kind: 'do', command: { type: 'confirm-step', ...about, note: '' } },
      },
      ...(neverSkipped.includes(step)
        ? []
        : [
            {
              label: texts.say('today.press-skip'),
              tone: 'plain',
              action: { kind: 'open', form: { id: 'skip-step', about } },
            } as const,
          ]),
      {
        label: texts.say('today.press-defect'),
        tone: 'danger',
        action: { kind: 'open', form: { id: 'report-defect', about: { rig } } },
      },
      ...abandonButtons(view, rig, flush),
    ),
  ];
}

/** Solvent to have at the rig, and what settled last time to be used first. */
export function volumes(view: View, rig: string): readonly Block[] {
  const { shift, texts } = view;
  const spec = shift.day.rigs[rig];
  if (!spec) return [];
  const plan = flushPlanOf(shift.day, spec);
  const settled = shift.carriedIn?.settledSolvent.find((one) => one.rig === rig);
  return [
    facts([
      texts.say('flush.volumes'),
      texts.say('flush.volumes-value', {
        solvent: flushSolvent(view, rig),
        primary: tenthUp(plan.primaryL),
        secondary: tenthUp(plan.secondaryL),
        minutes: Math.ceil(plan.minutes),
      }),
    ]),
    ...(settled && rinsesFirst(view, rig) && (shift.rigs[rig]?.flushes.length ?? 0) === 0
      ? [
          note(
            'plain',
            texts.say('flush.settled', {
              litres: settled.litres,
              date: shift.carriedIn?.fromDate ?? '',
            }),
          ),
        ]
      : []),
  ];
}

function checkItem(view: View, rig: string, flush: Flush, step: FlushStep, next: boolean): CheckItem {
  const { shift, texts } = view;
  const outcome = flush.steps[step];
  const name = stepName(view, rig, step);
  if (!outcome) return { state: next ? 'next' : 'open', line: [name] };
  const person = nameOf(shift, outcome.by);
  if (outcome.kind === 'skipped')
    return {
      state: 'skipped',
      line: [`${name}: ${texts.say('flush.skipped', { person, reason: outcome.reason })}`],
    };
  const time = at(view, outcome.at);
  const how =
    outcome.litres === null
      ? texts.say('flush.done', { time, person })
      : texts.say('flush.done-litres', { time, person, litres: outcome.litres });
  const done = `${name}: ${how}${outcome.note ? ` (${outcome.note})` : ''}`;
  const soon = tooSoon(shift.day, rig, flush, step, outcome.at);
  if (!soon) return { state: 'done', line: [done] };
  return { state: 'done', line: [`${done}. `, strong(texts.say('flush.too-soon', { ...soon }))] };
}

/** Settled solvent goes first only where it is the right one and this rig may have it. */
function rinsesFirst({ shift }: View, rig: string): boolean {
  return settledUse(shift.day, shift.carriedIn, rig) === 'rinse';
}

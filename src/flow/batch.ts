import { flushPlanOf } from '../facts/flush-plan.ts';
import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { CommandOf } from '../model/command.ts';
import { own } from '../model/own.ts';
import type { Batch, Mixed } from '../model/shift.ts';
import { HOUR, type Instant, MINUTE } from '../model/time.ts';
import { offRatio, splitMix } from '../trade/mix.ts';
import { type Apply, accept, type Decide, personOf, type Refusal, refuse } from './decision.ts';
import { holdsOf } from './holds.ts';
import { rigOf, withRig } from './rig-update.ts';

/** A hardener error larger than this is refused: the film would not cure as the sheet says. From memory: common limit. */
const RATIO_TOLERANCE_PCT = 5;
/** How far back a batch may be logged; older than this is more likely a slip of the keys. */
const LATEST_LOG_HOURS = 12;

/**
 * BA1–BA6: log one mix. A batch that exists is logged even under a hold (its clock runs whether we like it or not) and
 * says so; only a tagged-out rig, a wrong ratio or an impossible entry is refused.
 */
export const decideMixBatch: Decide<'mix-batch'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, command.rig);
  if ('refused' in found) return found;
  const { rig, state } = found;
  if (state.tag) return refuse('refusal.tagged-out', { rig: rig.name });
  if (state.unflushed) return refuse('refusal.unflushed-line', { rig: rig.name });
  const sheet = own(shift.day.coatings, command.coating);
  if (!sheet)
    return refuse('refusal.unknown-coating', {
      coating: command.coating,
      known: Object.keys(shift.day.coatings).join(', '),
    });
  const mixedAt = command.mixedAt ?? context.now;
  if (mixedAt > context.now + MINUTE) return refuse('refusal.mixed-in-future');
  if (mixedAt < context.now - LATEST_LOG_HOURS * HOUR)
    return refuse('refusal.mixed-too-long-ago', { hours: LATEST_LOG_HOURS });
  if (state.flush) return refuse('refusal.flush-running', { rig: rig.name });
  const inLine = state.line?.coating ?? state.pot?.coating;
  if (inLine !== undefined && inLine !== command.coating)
    return refuse('refusal.other-coating-in-line', {
      rig: rig.name,
      inside: shift.day.coatings[inLine]?.name ?? inLine,
      coating: sheet.name,
    });
  if (command.pot === 'on-top' && !state.pot) return refuse('refusal.nothing-to-top', { rig: rig.name });
  const amounts = measured(command, sheet);
  if ('refused' in amounts) return amounts;

  const batch: Batch = {
    id: `${command.rig}-${state.batches.length + 1}`,
    at: mixedAt,
    loggedAt: context.now,
    by: who.person.id,
    rig: command.rig,
    coating: command.coating,
    litres: command.litres,
    ...amounts,
    thinnerL: command.thinnerL,
    paintC: command.paintC,
    pot: command.pot,
    underHolds: [...new Set(holdsOf(shift, context.now, command.rig).map((hold) => hold.kind))],
  };
  const { lineL } = flushPlanOf(shift.day, rig);
  const renewLitres = state.line ? Math.round(shift.day.policy.lineVolumesToRenew * lineL * 10) / 10 : null;
  return accept({ type: 'batch-mixed', batch, renewLitres });
};

/** BA3: full kits by ratio, or a part kit only with both parts measured and the ratio kept. */
function measured(
  command: CommandOf<'mix-batch'>,
  sheet: CoatingSheet,
): { aL: number; bL: number } | Refusal {
  const { litres, aL, bL, thinnerL } = command;
  const most = sheet.thinner?.maxPercent ?? 0;
  const percent = (thinnerL / litres) * 100;
  if (percent > most + 0.05)
    return refuse('refusal.thinner-over-sheet', {
      coating: sheet.name,
      percent: Math.round(percent * 10) / 10,
      most,
    });
  if (sheet.parts === 1 || !sheet.mixRatio) return { aL: litres, bL: 0 };
  const { a, b } = sheet.mixRatio;
  if ((aL === undefined) !== (bL === undefined)) return refuse('refusal.both-parts');
  if (aL !== undefined && bL !== undefined) {
    const off = offRatio({ ratioA: a, ratioB: b, aL, bL });
    if (Math.abs(off.hardenerErrorPct) > RATIO_TOLERANCE_PCT)
      return refuse('refusal.off-ratio', {
        ratio: `${a}:${b}`,
        found: `${Math.round(off.actualRatio * 100) / 100}:1`,
        error: Math.round(off.hardenerErrorPct * 10) / 10,
      });
    if (Math.abs(aL + bL - litres) > 0.05 * litres)
      return refuse('refusal.parts-do-not-add', { parts: aL + bL, litres });
    return { aL, bL };
  }
  const kits = sheet.kitLitres === undefined ? null : litres / sheet.kitLitres;
  if (kits !== null && (kits < 0.99 || Math.abs(kits - Math.round(kits)) > 0.01))
    return refuse('refusal.part-kit', { litres, kit: sheet.kitLitres ?? 0, coating: sheet.name });
  const split = splitMix({ ratioA: a, ratioB: b, mixedLitres: litres, thinnerPct: 0 });
  return { aL: split.aL, bL: split.bL };
}

/**
 * PL3–PL5: a fresh pot starts the pot clock anew; on top of old paint the older batch goes on governing. The line keeps
 * its clock until enough of the fresh batch has gone through the gun, and only ever takes a warmer temperature from it.
 */
export const applyBatchMixed: Apply<'batch-mixed'> = (shift, { batch, renewLitres }, { at }) =>
  withRig(shift, batch.rig, (state) => {
    const fresh: Mixed = {
      batch: batch.id,
      coating: batch.coating,
      mixedAt: batch.at,
      history: [{ at: batch.at, c: batch.paintC }],
      notedAt: at,
    };
    return {
      ...state,
      batches: [...state.batches, batch],
      pot: batch.pot === 'on-top' && state.pot ? together(state.pot, fresh) : fresh,
      line: state.line ? together(state.line, fresh) : fresh,
      renewLitres: batch.pot === 'on-top' ? state.renewLitres : renewLitres,
      pausedAt: null,
    };
  });

/** Old paint and new in one place: the older governs, and at every moment the warmer of the two temperatures. */
function together(inside: Mixed, added: Mixed): Mixed {
  const oldest = added.mixedAt < inside.mixedAt ? added : inside;
  const times = [...inside.history, ...added.history].map((step) => step.at).sort((x, y) => x - y);
  const history = [...new Set(times)].map((at) => ({
    at,
    c: Math.max(tempAt(inside, at), tempAt(added, at)),
  }));
  const { batch, mixedAt } = oldest;
  return { ...inside, batch, mixedAt, history, notedAt: added.notedAt };
}

/** The temperature of paint at a moment; paint that was not mixed yet has none. */
function tempAt(mixed: Mixed, at: Instant): number {
  if (at < mixed.mixedAt) return Number.NEGATIVE_INFINITY;
  return (
    mixed.history.findLast((step) => step.at <= at)?.c ?? mixed.history[0]?.c ?? Number.NEGATIVE_INFINITY
  );
}

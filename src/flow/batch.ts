import { flushPlanOf } from '../facts/flush-plan.ts';
import { tenthUp } from '../facts/round.ts';
import { own } from '../model/own.ts';
import type { Batch, Mixed } from '../model/shift.ts';
import { HOUR, MINUTE } from '../model/time.ts';
import { type Apply, accept, type Decide, personOf, refuse } from './decision.ts';
import { holdsOf } from './holds.ts';
import { mixAmounts } from './mix-amounts.ts';
import { tempAt, warmest } from './mixed-history.ts';
import { rigOf, withRig } from './rig-update.ts';

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
  const amounts = mixAmounts(command, sheet);
  if ('refused' in amounts) return amounts;

  const batch: Batch = {
    id: `${command.rig}-${state.batches.length + (state.voided?.length ?? 0) + 1}`,
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
  const renewLitres = state.line ? tenthUp(shift.day.policy.lineVolumesToRenew * lineL) : null;
  return accept({ type: 'batch-mixed', batch, renewLitres });
};

/**
 * PL3–PL5: a fresh pot starts the pot clock anew; on top of old paint the older batch goes on governing. The line keeps
 * its clock until enough of the fresh batch has gone through the gun, and only ever takes a warmer temperature from it.
 * PA3: mixing ends no pause. The line stands still until somebody says that it goes on.
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
    };
  });

/** Old paint and new in one place: the older governs, and at every moment the warmer of the two temperatures. */
function together(inside: Mixed, added: Mixed): Mixed {
  const { batch, mixedAt } = added.mixedAt < inside.mixedAt ? added : inside;
  const moments = [...inside.history, ...added.history].map((step) => step.at);
  const history = warmest(moments, [(at) => tempAt(inside, at), (at) => tempAt(added, at)]);
  return { ...inside, batch, mixedAt, history, notedAt: added.notedAt };
}

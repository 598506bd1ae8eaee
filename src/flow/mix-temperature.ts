import type { Mixed } from '../model/shift.ts';
import { type Apply, accept, type Decide, foremen, namesOf, personOf, refuse } from './decision.ts';
import { rigOf, withRig } from './rig-update.ts';

/**
 * BA7: 12 °C written for 22 °C at mixing would make every bell late, and a later reading counts from then on only. The
 * figure is mended from the mixing on. Anybody makes it warmer; cooler gives the paint time, so that is the foreman's.
 */
export const decideMendMixTemperature: Decide<'mend-mix-temperature'> = (
  shift,
  { rig, batch, c },
  context,
) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, rig);
  if ('refused' in found) return found;
  const last = found.state.batches.at(-1);
  const inside = [found.state.pot, found.state.line].some((mixed) => mixed !== null);
  if (!last || last.id !== batch || !inside) return refuse('refusal.old-batch', { rig: found.rig.name });
  if (last.paintC === c) return refuse('refusal.same-temperature', { c });
  if (c < last.paintC && !who.person.roles.includes('foreman'))
    return refuse('refusal.foreman-only', { foreman: namesOf(shift, foremen(shift)) });
  return accept({ type: 'mix-temperature-mended', rig, batch, c, before: last.paintC, by: who.person.id });
};

export const applyMixTemperatureMended: Apply<'mix-temperature-mended'> = (
  shift,
  { rig, batch, c, before },
  { at },
) =>
  withRig(shift, rig, (state) => {
    const mixedAt = state.batches.find(({ id }) => id === batch)?.at;
    const mend = (mixed: Mixed | null): Mixed | null => {
      if (!mixed || mixedAt === undefined) return mixed;
      const own = mixed.batch === batch;
      const history = mixed.history.map((step) => {
        // Older paint in the same place keeps what it has seen; it takes over a warmer figure only.
        if (step.at !== mixedAt) return step;
        return { ...step, c: own && step.c === before ? c : Math.max(step.c, c) };
      });
      return { ...mixed, history, notedAt: at };
    };
    return {
      ...state,
      batches: state.batches.map((one) => (one.id === batch ? { ...one, paintC: c } : one)),
      pot: mend(state.pot),
      line: mend(state.line),
    };
  });

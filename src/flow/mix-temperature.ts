import type { Mixed } from '../model/shift.ts';
import { type Apply, accept, type Decide, foremen, namesOf, personOf, refuse } from './decision.ts';
import { tempAt } from './mixed-history.ts';
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
    const mended = state.batches.find(({ id }) => id === batch);
    const mend = (mixed: Mixed | null): Mixed | null => {
      if (!mixed || !mended) return mixed;
      const own = mixed.batch === batch;
      const history = mixed.history.map((step) => {
        if (step.at === mended.at && own && step.c === before) return { ...step, c };
        // Older paint in the same place keeps what it has seen; it takes over a warmer figure only, and up to when the
        // batch was logged: what came after that was measured with the batch inside.
        const joined = step.at === mended.at || (step.at > mended.at && step.at < mended.loggedAt);
        return joined ? { ...step, c: Math.max(step.c, c) } : step;
      });
      const known = { ...mixed, history, notedAt: at };
      if (!mixed.sun) return known;
      // A stand in the sun began at least as warm as the paint is now known to have been.
      const sun = mixed.sun.map((one) => ({ ...one, startC: Math.max(one.startC, tempAt(known, one.from)) }));
      return { ...known, sun };
    };
    return {
      ...state,
      batches: state.batches.map((one) => (one.id === batch ? { ...one, paintC: c } : one)),
      pot: mend(state.pot),
      line: mend(state.line),
    };
  });

import { rigChecks } from '../model/checks.ts';
import { type Apply, accept, type Decide, foremanOf, personOf, refuse } from './decision.ts';
import { rigOf, withRig } from './rig-update.ts';

/** RC1: the walk round a rig. Every item is answered; one defect tags the rig out. */
export const decideCheckRig: Decide<'check-rig'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, command.rig);
  if ('refused' in found) return found;
  const missing = rigChecks.filter((check) => command.results[check] === undefined);
  if (missing.length > 0)
    return refuse('refusal.checks-missing', { count: missing.length, check: missing[0] ?? '' });
  const defects = rigChecks.filter((check) => command.results[check] === 'defect');
  const checked = {
    type: 'rig-checked',
    rig: command.rig,
    by: who.person.id,
    results: command.results,
    note: command.note,
  } as const;
  if (defects.length === 0) return accept(checked);
  const text = [defects.join(', '), command.note].filter(Boolean).join(': ');
  return accept(checked, { type: 'rig-tagged', rig: command.rig, cause: 'check', text });
};

export const applyRigChecked: Apply<'rig-checked'> = (shift, event, { at }) =>
  withRig(shift, event.rig, (state) => ({ ...state, checked: { at, by: event.by, results: event.results } }));

/** RC2: anybody may tag a rig out; only the foreman clears it, saying what was done. */
export const decideReportDefect: Decide<'report-defect'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const found = rigOf(shift, command.rig);
  if ('refused' in found) return found;
  return accept({
    type: 'rig-tagged',
    rig: command.rig,
    cause: found.state.flush ? 'flush' : 'report',
    text: `${command.part}: ${command.text}`,
  });
};

export const applyRigTagged: Apply<'rig-tagged'> = (shift, event, { at }) =>
  withRig(shift, event.rig, (state) => ({
    ...state,
    carriedTag: false,
    // A second defect adds its words; the first must not be lost when both have to be put right.
    tag: state.tag
      ? { ...state.tag, text: [state.tag.text, event.text].filter(Boolean).join('; ') }
      : { at, cause: event.cause, text: event.text },
  }));

export const decideClearTag: Decide<'clear-tag'> = (shift, command, context) => {
  const foreman = foremanOf(shift, context);
  if ('refused' in foreman) return foreman;
  const found = rigOf(shift, command.rig);
  if ('refused' in found) return found;
  if (!found.state.tag) return refuse('refusal.not-tagged', { rig: found.rig.name });
  const { rig, text, lineClean } = command;
  return accept({ type: 'tag-cleared', rig, by: foreman.person.id, text, lineClean });
};

/** A rig that was tagged is looked over again before its next batch. */
export const applyTagCleared: Apply<'tag-cleared'> = (shift, event) =>
  withRig(shift, event.rig, (state) => ({
    ...state,
    tag: null,
    checked: null,
    carriedSettled: true,
    unflushed: event.lineClean ? null : state.unflushed,
  }));

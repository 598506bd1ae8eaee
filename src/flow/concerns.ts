import { type Apply, accept, type Decide, foremanOf, personOf, refuse } from './decision.ts';

/** CN1: anybody on the job may raise a concern instead of signing; it holds the start until it is resolved in words. */
export const decideRaiseConcern: Decide<'raise-concern'> = (shift, command, context) => {
  const who = personOf(shift, context);
  if ('refused' in who) return who;
  const concern = `concern-${shift.concerns.length + 1}`;
  return accept({ type: 'concern-raised', concern, by: who.person.id, text: command.text });
};

export const applyConcernRaised: Apply<'concern-raised'> = (shift, event, { at }) => ({
  ...shift,
  concerns: [...shift.concerns, { id: event.concern, at, by: event.by, text: event.text, resolved: null }],
});

export const decideResolveConcern: Decide<'resolve-concern'> = (shift, command, context) => {
  const foreman = foremanOf(shift, context);
  if ('refused' in foreman) return foreman;
  const concern = shift.concerns.find(({ id }) => id === command.concern);
  if (!concern) return refuse('refusal.unknown-concern', { concern: command.concern });
  if (concern.resolved) return refuse('refusal.already-resolved', { text: concern.resolved.text });
  return accept({ type: 'concern-resolved', concern: concern.id, by: foreman.person.id, text: command.text });
};

export const applyConcernResolved: Apply<'concern-resolved'> = (shift, event, { at }) => ({
  ...shift,
  concerns: shift.concerns.map((concern) =>
    concern.id === event.concern ? { ...concern, resolved: { at, by: event.by, text: event.text } } : concern,
  ),
});

/** ST1: anybody stops the work, known or not; nobody is asked for a reason first. */
export const decideStopWork: Decide<'stop-work'> = (shift, command) => {
  if (shift.stop) return refuse('refusal.already-stopped');
  return accept({ type: 'work-stopped', text: command.text });
};

export const applyWorkStopped: Apply<'work-stopped'> = (shift, event, { at, by }) => ({
  ...shift,
  stop: { at, by, text: event.text },
});

/** ST2: only the foreman clears it, in words. */
export const decideClearStop: Decide<'clear-stop-work'> = (shift, command, context) => {
  const foreman = foremanOf(shift, context);
  if ('refused' in foreman) return foreman;
  if (!shift.stop) return refuse('refusal.not-stopped');
  return accept({ type: 'stop-cleared', by: foreman.person.id, text: command.text });
};

export const applyStopCleared: Apply<'stop-cleared'> = (shift, _event, { at }) => ({
  ...shift,
  stop: null,
  stopClearedAt: at,
});

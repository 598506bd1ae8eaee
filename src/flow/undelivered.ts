import { type Apply, accept, type Decide } from './decision.ts';

/** A message that no surface could bring to its people is a fact of the shift and shown to the foreman. */
export const decideUndelivered: Decide<'note-undelivered'> = (_shift, { message, to, surface, why }) =>
  accept({ type: 'message-undelivered', message, to, surface, why });

export const applyUndelivered: Apply<'message-undelivered'> = (shift, { to, surface, why }, { at }) => ({
  ...shift,
  undelivered: [...shift.undelivered, { at, to, surface, why }],
});

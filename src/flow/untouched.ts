import type { PersonState, RigState } from '../model/shift.ts';

/** Somebody who has been asked nothing yet. */
export const untouchedPerson: PersonState = {
  askedAt: null,
  arrivedLate: false,
  signed: {},
  signOffs: [],
  answers: [],
};

/** A rig to which nothing has happened yet. */
export const idleRig: RigState = {
  checked: null,
  tag: null,
  unflushed: null,
  carriedTag: false,
  carriedSettled: false,
  batches: [],
  pot: null,
  line: null,
  renewLitres: null,
  pausedAt: null,
  flush: null,
  flushes: [],
  beforeLast: null,
};

import { z } from 'zod';

/** Ids people type in site packs: short, lower-case, stable. */
export const idSchema = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, 'use 1 to 40 small letters, digits and hyphens, for example "rig-1"')
  // The one id of this shape that every JavaScript object answers to.
  .refine((id) => id !== 'constructor', 'choose another id; "constructor" has a meaning of its own');

export type PersonId = string;
export type RigId = string;
export type CoatingId = string;
export type ShiftId = string;
export type BatchId = string;

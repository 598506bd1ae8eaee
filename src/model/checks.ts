/** What is looked at on a rig before its first batch of the day, in the order of walking round it. */
export const rigChecks = [
  'earth-lead',
  'hose-and-fittings',
  'trigger-lock',
  'tip-guard',
  'filters',
  'gauge',
  'wash-pot',
  'metal-pail',
  'extinguisher',
] as const;
export type RigCheck = (typeof rigChecks)[number];

/**
 * The flush in the only order that never opens a line under pressure. `power-off` stands for "regulator backed off,
 * air off" or for stopping the motor: the rig's drive chooses the words.
 */
export const flushSteps = [
  'lock-trigger',
  'power-off',
  'relieve-gun',
  'relieve-drain',
  'lock-again',
  'tip-off',
  'suction-out',
  'primary-flush',
  'secondary-flush',
  'relieve-again',
  'filters',
  'tip-and-gun',
  'solvent-away',
] as const;
export type FlushStep = (typeof flushSteps)[number];

/** With these nothing has moved yet: the gun is locked and the power off, the line holds what it held. */
export const beforeRelief: readonly FlushStep[] = ['lock-trigger', 'power-off'];

/** Leaving one of these out would leave pressure in a line that people then open by hand. */
export const neverSkipped: readonly FlushStep[] = [
  'lock-trigger',
  'power-off',
  'relieve-gun',
  'relieve-drain',
  'lock-again',
  // Solvent is never pumped through a tip.
  'tip-off',
  'relieve-again',
];

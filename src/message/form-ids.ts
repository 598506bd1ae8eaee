/** Every form there is. Forms are opened by a button and answered with one command. */
export const formIds = [
  'post-day',
  'arrive',
  'read-back',
  'raise-concern',
  'resolve-concern',
  'check-rig',
  'take-reading',
  'mix-batch',
  'pot-temperature',
  'hose-temperature',
  'pause',
  'pot-empty',
  'line-renewed',
  'confirm-step',
  'skip-step',
  'report-defect',
  'clear-tag',
  'stop-work',
  'clear-stop-work',
  'close-shift',
] as const;
export type FormId = (typeof formIds)[number];

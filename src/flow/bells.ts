import type { Shift } from '../model/shift.ts';
import { holdBells, signOffBells } from './bells/people.ts';
import { readingBells } from './bells/reading.ts';
import { recoatBells } from './bells/recoat.ts';
import { rigBells } from './bells/rig.ts';
import { bell, type WantedBell } from './bells/wanted.ts';
import { needReason } from './shift-record.ts';

/** BE1: every bell this shift wants now, rung or not. */
export function wantedBells(shift: Shift): readonly WantedBell[] {
  if (shift.status === 'closed') return [];
  return [
    ...signOffBells(shift),
    ...holdBells(shift),
    ...readingBells(shift),
    ...Object.keys(shift.rigs).flatMap((rig) => rigBells(shift, rig)),
    ...recoatBells(shift),
    ...endBells(shift),
  ];
}

function endBells(shift: Shift): readonly WantedBell[] {
  const untouched = Object.values(shift.rigs).every((rig) => rig.batches.length === 0);
  if (untouched && needReason(shift).length === 0)
    return [bell('shift-end', 'close', shift.day.endsAt, { first: 'foreman', once: true })];
  return [bell('shift-end', 'close', shift.day.endsAt, { first: 'foreman' })];
}

import { tenth, tenthDown, tenthUp, wholeUp } from '../facts/round.ts';
import { note } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { Day } from '../model/day.ts';
import type { Reading } from '../model/shift.ts';
import { feltHeat, SUN_ADDS_C } from '../trade/heat.ts';
import { assessWbgt, COVERALLS_ADD_C, type WbgtAssessment } from '../trade/wbgt.ts';
import type { View } from './context.ts';

/** What the air of a reading is to people: heat index and, when it was measured, WBGT. Empty in cool air. */
export function heatFacts({ shift, texts }: View, reading: Reading): readonly (readonly [string, string])[] {
  const felt = feltHeat(reading.airC, reading.rhPct);
  const label = texts.say('reading.heat-index');
  const wbgt = wbgtOf(shift.day, reading);
  return [
    ...(felt.kind === 'off-chart' ? [[label, texts.say('reading.heat-off-chart')] as const] : []),
    ...(felt.kind === 'index' && felt.band
      ? [
          [
            label,
            texts.say('reading.heat-index-value', {
              c: wholeUp(felt.indexC),
              band: texts.say(`word.heat.${felt.band}`),
            }),
          ] as const,
        ]
      : []),
    ...(wbgt ? [[texts.say('reading.wbgt'), wbgtWords({ shift, texts }, reading, wbgt)] as const] : []),
  ];
}

/** Rest and water, said with the reading from the first band on or when a measured WBGT reaches a limit. */
export function heatNotes({ shift, texts }: View, reading: Reading): readonly Block[] {
  const felt = feltHeat(reading.airC, reading.rhPct);
  const state = wbgtOf(shift.day, reading)?.state ?? 'under';
  const hot = felt.kind !== 'cool' && felt.band !== null;
  return [
    ...(state === 'under' ? [] : [note('danger', texts.say(`reading.wbgt-${state}`))]),
    ...(hot || state !== 'under' ? [note('attention', texts.say('reading.heat-do'))] : []),
    ...(hot && shift.day.entry.weather.sun
      ? [note('attention', texts.say('reading.heat-sun', { c: wholeUp(SUN_ADDS_C) }))]
      : []),
  ];
}

function wbgtOf({ policy }: Day, { wbgtC }: Reading): WbgtAssessment | null {
  return wbgtC === null ? null : assessWbgt(wbgtC, policy.coveralls, policy.workW);
}

function wbgtWords(
  { shift, texts }: Pick<View, 'shift' | 'texts'>,
  { wbgtC }: Reading,
  { wornC, usedC, newC }: WbgtAssessment,
): string {
  const { coveralls } = shift.day.policy;
  const values = { c: tenth(wbgtC ?? wornC), used: tenthDown(usedC), new: tenthDown(newC) };
  if (COVERALLS_ADD_C[coveralls] === 0) return texts.say('reading.wbgt-value', values);
  const suit = texts.say(`word.coveralls.${coveralls}`);
  return texts.say('reading.wbgt-value-suit', { ...values, worn: tenthUp(wornC), suit });
}

import { tenth, wholeDown, wholeUp } from '../facts/round.ts';
import { solventNeeds } from '../facts/solvent.ts';
import { airIsShort, airNeed, sprayEstimate, tipOf } from '../facts/spray.ts';
import { usedRigs } from '../facts/used.ts';
import { note } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { View } from './context.ts';

/** What each tip of this rig's jobs lets through, the same tip and film once. Empty when no tip is known. */
export function rateLines({ shift, texts }: View, rig: string): readonly string[] {
  const lines = shift.day.entry.jobs
    .filter((job) => job.rig === rig)
    .flatMap((job): string[] => {
      const tip = tipOf(shift.day, job);
      if (tip === null) return [];
      const found = sprayEstimate(shift.day, job);
      if (!found) return [texts.say('spray.tip-unread', { tip })];
      const { flow, m2, density } = found;
      if (density.known)
        return [texts.say('spray.rate', { tip, flow: tenth(flow.high), m2: tenth(m2.high) })];
      return [
        texts.say('spray.rate-range', {
          tip,
          flowLow: tenth(flow.low),
          flowHigh: tenth(flow.high),
          m2Low: tenth(m2.low),
          m2High: tenth(m2.high),
        }),
      ];
    });
  return [...new Set(lines)];
}

/** A compressor that gives less than the pump takes: then the pressure falls while spraying. */
export function airNotes({ shift, texts }: View, rig: string): readonly Block[] {
  const used = usedRigs(shift.day).find(({ id }) => id === rig);
  const need = used ? airNeed(shift.day, used) : null;
  if (!airIsShort(need)) return [];
  const figures = { need: wholeUp(need.needLPerMin), have: wholeDown(need.haveLPerMin) };
  return [note('attention', texts.say('spray.air-short', figures))];
}

/** "Rig 1: bring 16 L clean Cleaner E for 1 full flush", one line a rig and solvent. */
export function solventLines({ shift, texts }: View): readonly string[] {
  return solventNeeds(shift.day, shift.carriedIn).map(({ name, solvent, flushes, cleanL, settledL }) => {
    const words = { rig: name, clean: cleanL, solvent, flushes };
    return settledL > 0
      ? texts.say('spray.bring-settled', { ...words, settled: settledL })
      : texts.say('spray.bring', words);
  });
}

import { mayAbandon } from '../flow/abandon-flush.ts';
import { rigClocks } from '../flow/clocks.ts';
import { nameOf } from '../flow/decision.ts';
import { rigName } from '../flow/rig-update.ts';
import { voidableBatch } from '../flow/void-batch.ts';
import { note } from '../message/build.ts';
import type { Block, Button } from '../message/message.ts';
import type { Flush } from '../model/shift.ts';
import { clockWords } from './batch.ts';
import { at, type View } from './context.ts';

/** What a rig counts as holding now: each clock that is left, or that there is none. */
export function paintLeft(view: View, rig: string): readonly Block[] {
  const { shift, texts } = view;
  const name = rigName(shift, rig);
  const clocks = rigClocks(shift, rig);
  const inside = shift.rigs[rig]?.line ?? shift.rigs[rig]?.pot;
  if (!inside) return [note('attention', texts.say('void.left-nothing', { rig: name }))];
  if (clocks.length === 0)
    return [note('attention', texts.say('void.left-no-clock', { rig: name, batch: inside.batch }))];
  return clocks.map((clock) =>
    note('attention', texts.say('void.left', { batch: clock.mixed.batch, ...clockWords(view, clock) })),
  );
}

/** The button that takes the last batch back, while that can be done; the foreman's PIN is asked when it is sent. */
export function voidBatchButtons({ shift, texts }: View, rig: string): readonly Button[] {
  const state = shift.rigs[rig];
  const batch = state ? voidableBatch(state) : null;
  if (batch === null || shift.status === 'closed') return [];
  return [
    {
      label: texts.say('today.press-void-batch'),
      tone: 'plain',
      action: { kind: 'open', form: { id: 'void-batch', about: { rig, batch } } },
    },
  ];
}

/** The button that gives a flush up, until the pressure is relieved. */
export function abandonButtons({ texts }: View, rig: string, flush: Flush): readonly Button[] {
  if (!mayAbandon(flush)) return [];
  return [
    {
      label: texts.say('today.press-abandon'),
      tone: 'plain',
      action: { kind: 'open', form: { id: 'abandon-flush', about: { rig, flush: flush.id } } },
    },
  ];
}

/** Batches taken back, for the record: they count for nothing and are not forgotten. */
export function voidedLines(view: View): readonly string[] {
  const { shift, texts } = view;
  return Object.values(shift.rigs).flatMap(({ voided = [] }) =>
    voided.map(({ batch, at: when, by, reason }) =>
      texts.say('void.entry', {
        batch: batch.id,
        litres: batch.litres,
        coating: shift.day.coatings[batch.coating]?.name ?? batch.coating,
        time: at(view, when),
        person: nameOf(shift, by),
        reason,
      }),
    ),
  );
}

import { coatOfBell } from '../flow/bells/recoat.ts';
import type { BellKind, WantedBell } from '../flow/bells/wanted.ts';
import { nameOf } from '../flow/decision.ts';
import { rigName } from '../flow/rig-update.ts';
import type { TextId } from '../texts/text-ids.ts';
import { coatName } from './coats.ts';
import type { View } from './context.ts';

const names = {
  unsigned: 'next.unsigned',
  concern: 'next.concern',
  'stop-work': 'next.stop-work',
  'reading-due': 'next.reading-due',
  'margin-closing': 'next.margin-closing',
  'induction-over': 'next.induction-over',
  'fan-due': 'next.fan-due',
  'before-break': 'next.before-break',
  'before-end': 'next.before-end',
  'use-by-soon': 'next.use-by-soon',
  'use-by': 'next.use-by',
  'start-flush': 'next.start-flush',
  dead: 'next.dead',
  'flush-stalled': 'next.flush-stalled',
  'recoat-open': 'next.recoat-open',
  'recoat-closing': 'next.recoat-closing',
  'shift-end': 'next.shift-end',
} as const satisfies Record<BellKind, TextId>;

/** A bell in a few words, for the list of what is next: "use by", and whom or what it is about. */
export function bellName(
  { shift, texts }: View,
  wanted: Pick<WantedBell, 'key' | 'kind' | 'rig' | 'person'>,
): { readonly name: string; readonly about: string } {
  const coat = coatOfBell(shift, wanted.key);
  const about =
    wanted.rig !== null
      ? rigName(shift, wanted.rig)
      : wanted.person !== null
        ? nameOf(shift, wanted.person)
        : coat
          ? coatName({ shift, texts }, coat)
          : '';
  return { name: texts.say(names[wanted.kind]), about };
}

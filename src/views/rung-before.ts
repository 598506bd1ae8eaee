import type { BellKind } from '../flow/bells/wanted.ts';
import { message, paragraph } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import { own } from '../model/own.ts';
import type { Instant } from '../model/time.ts';
import { bellOf } from './bell-key.ts';
import { at, type View } from './context.ts';
import { bellName } from './next.ts';

/** An earlier ring of a bell, in a place where it rang again. `key` is that of its message. */
export interface RungBefore {
  readonly key: string;
  readonly rangAt: Instant;
  readonly againAt: Instant;
}

/**
 * BE12: what is left of a ring when the bell has rung again: which call it was, of what, and when it rang again. Null for
 * what is no bell of this shift.
 */
export function rungBeforeMessage(view: View, { key, rangAt, againAt }: RungBefore): Message | null {
  const { shift, texts } = view;
  const bell = bellOf(key);
  const state = bell === null ? undefined : own(shift.bells, bell);
  if (bell === null || state === undefined) return null;
  const { name, about } = bellName(view, { ...state, key: bell, kind: state.kind as BellKind });
  const said = texts.say('bell.older', {
    // 0: it has moved since and counts anew.
    count: state.rings.findIndex((ring) => ring.at === rangAt) + 1,
    time: at(view, rangAt),
    bell: about === '' ? name : `${about}, ${name}`,
    again: at(view, againAt),
  });
  return message(said, 'plain', paragraph(said));
}

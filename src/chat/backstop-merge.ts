import type { Texts } from '../texts/texts.ts';
import type { Backstop } from './backstop.ts';
import { shortHash } from './backstop-ref.ts';

/**
 * BS3: one notice in the place of several, where the chat service takes no more: at the earliest time, with each rig's
 * own. `call`: the emergency number. A single one stays as it is.
 * @throws Error for an empty list
 */
export function mergeBackstops(several: readonly Backstop[], call: string, texts: Texts): Backstop {
  const sorted = [...several].sort((x, y) => x.postAt - y.postAt || (x.ref < y.ref ? -1 : 1));
  const [first] = sorted;
  if (!first) throw new Error('Programming error: no backstop was given to merge.');
  if (sorted.length === 1) return first;
  const rigs = sorted.flatMap((one) => one.rigs);
  const ref = `${first.ref.slice(0, 4)}-all-${rigs.length}${shortHash(sorted.map((one) => one.ref).join(' '))}`;
  const list = rigs.map(({ name, by, deadAt }) => texts.say('backstop.many-rig', { rig: name, by, deadAt }));
  return {
    ref,
    rig: rigs.map(({ rig }) => rig).join(', '),
    postAt: first.postAt,
    text: texts.say('backstop.many', { ref, rigs: list.join('; '), call }),
    rigs,
  };
}

import { bellIds } from './ids/bells.ts';
import { boardIds } from './ids/board.ts';
import { formTextIds } from './ids/forms.ts';
import { messageIds } from './ids/messages.ts';
import { refusalIds } from './ids/refusals.ts';
import { wordIds } from './ids/words.ts';

/**
 * Every text of the program and the placeholders it is given. `templates/<language>/messages.yaml` holds the words;
 * a test and the start-up check hold the two together. Caution words are separate: one file each.
 */
export const textIds = {
  ...boardIds,
  ...bellIds,
  ...formTextIds,
  ...messageIds,
  ...refusalIds,
  ...wordIds,
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type TextId = keyof typeof textIds;
type Placeholder<K extends TextId> = (typeof textIds)[K][number];

/** No placeholder: no second argument. Otherwise all of them, each a string or a number. */
export type TextParams<K extends TextId> = [Placeholder<K>] extends [never]
  ? []
  : [params: Readonly<Record<Placeholder<K>, string | number>>];

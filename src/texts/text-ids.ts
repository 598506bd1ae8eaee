import { backstopIds } from './ids/backstop.ts';
import { bellIds } from './ids/bells.ts';
import { boardIds } from './ids/board.ts';
import { changeIds } from './ids/changes.ts';
import { chatIds } from './ids/chat.ts';
import { climateIds } from './ids/climate.ts';
import { clockIds } from './ids/clocks.ts';
import { formTextIds } from './ids/forms.ts';
import { messageIds } from './ids/messages.ts';
import { paintIds } from './ids/paint.ts';
import { paperIds } from './ids/paper.ts';
import { planIds } from './ids/plan.ts';
import { recoatIds } from './ids/recoat.ts';
import { refusalIds } from './ids/refusals.ts';
import { sprayIds } from './ids/spray.ts';
import { talkIds } from './ids/talk.ts';
import { wordIds } from './ids/words.ts';

/**
 * Every text of the program and the placeholders it is given. `templates/<language>/messages.yaml` holds the words;
 * a test and the start-up check hold the two together. Caution words are separate: one file each.
 */
export const textIds = {
  ...backstopIds,
  ...boardIds,
  ...bellIds,
  ...changeIds,
  ...chatIds,
  ...climateIds,
  ...clockIds,
  ...formTextIds,
  ...messageIds,
  ...paintIds,
  ...paperIds,
  ...planIds,
  ...recoatIds,
  ...refusalIds,
  ...sprayIds,
  ...talkIds,
  ...wordIds,
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type TextId = keyof typeof textIds;
type Placeholder<K extends TextId> = (typeof textIds)[K][number];

/** No placeholder: no second argument. Otherwise all of them, each a string or a number. */
export type TextParams<K extends TextId> = [Placeholder<K>] extends [never]
  ? []
  : [params: Readonly<Record<Placeholder<K>, string | number>>];

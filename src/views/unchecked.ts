import { note } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { View } from './context.ts';

/** One quiet line for whoever reads cautions in a machine's draft; nothing in a language that people wrote or checked. */
export function uncheckedBlocks({ texts }: Pick<View, 'texts'>): readonly Block[] {
  switch (texts.checked) {
    case 'all':
      return [];
    case 'not-yet':
      return [note('plain', texts.say('language.unchecked'))];
  }
}

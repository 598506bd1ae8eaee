import type { ShiftId } from '../../src/model/id.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { shiftMark } from '../chat/marks.ts';
import { mentionIn } from './people.ts';
import type { RenderOptions } from './render.ts';
import type { TeamsServices } from './services.ts';

/** How a message about a shift is rendered for readers of one language. Times are on the site's clock, as written. */
export function optionsFor(
  services: Pick<TeamsServices, 'pack' | 'words'>,
  texts: Texts,
  shift: ShiftId | null,
): RenderOptions {
  return { of: shiftMark(shift), words: services.words(texts), person: mentionIn(services.pack()) };
}

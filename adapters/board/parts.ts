import type { Context } from 'hono';
import type { PersonId } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { Instant } from '../../src/model/time.ts';
import type { Texts } from '../../src/texts/texts.ts';
import type { HostNames } from './host-names.ts';
import type { Live } from './live.ts';
import type { RenderContext } from './render-html.ts';
import type { BoardEnv, BoardServices } from './services.ts';
import type { Visit, Visits } from './session.ts';
import type { BoardWords } from './words.ts';

/** What all routes of one board share. */
export interface BoardParts {
  readonly services: BoardServices;
  readonly visits: Visits;
  readonly live: Live;
  readonly hosts: HostNames;
}

export type BoardContext = Context<BoardEnv>;

/** Who looks at what, in which words, when: the start of every answer. */
export interface View {
  readonly visit: Visit | null;
  readonly viewer: PersonId | null;
  readonly viewerName: string | null;
  readonly pack: SitePack;
  readonly texts: Texts;
  readonly words: BoardWords;
  readonly shift: Shift | null;
  readonly now: Instant;
  readonly zone: string;
  render(back: string): RenderContext;
}

/** The view of one visit on a shift. The viewer's own language when known, else the site's. */
export function viewOf({ services }: BoardParts, visit: Visit | null, shift: Shift | null): View {
  const pack = services.pack();
  const person = pack.people.find((one) => one.id === visit?.person);
  const texts = services.texts(person?.language ?? pack.site.language);
  const words = typeof services.words === 'function' ? services.words(texts.language) : services.words;
  const now = services.clock.now();
  return {
    visit,
    viewer: person?.id ?? null,
    viewerName: person?.name ?? null,
    pack,
    texts,
    words,
    shift,
    now,
    zone: pack.site.timeZone,
    render: (back) => ({
      words,
      now,
      newId: services.newId,
      shift: shift?.id ?? null,
      back,
      loggedIn: person !== undefined,
    }),
  };
}

/** The view for this request, on the current shift. Throws what the store throws. */
export async function look(parts: BoardParts, c: BoardContext): Promise<View> {
  return viewOf(parts, c.get('visit'), await parts.services.currentShift());
}

import type { Page } from '../../src/message/action.ts';
import { signOffInChat } from '../../src/views/sign-off.ts';
import { insist } from './insist.ts';
import { hashed } from './marks.ts';
import { onePage, words } from './messages.ts';
import { unknownPerson } from './refused.ts';
import type { Put, Said } from './said.ts';
import type { ChatServices } from './services.ts';
import type { Showing } from './showing.ts';
import type { Visit } from './visit.ts';

/**
 * Shows a page. The sign-off goes to the person's own conversation, where it is changed in place; the record comes as a
 * file besides.
 */
export async function showPage(
  services: ChatServices,
  put: Put,
  show: Showing,
  visit: Visit,
  page: Page,
): Promise<void> {
  const { person, shift, texts } = visit;
  if (person === null && page !== 'emergency') return show.tell(visit, unknownPerson(visit));
  if (page === 'sign-off' && person !== null && shift !== null) {
    const view = { shift, texts, now: services.clock.now() };
    const asked: Said = {
      id: `page:${show.pressId}`,
      shift: shift.id,
      key: `sign-off:${person.id}:asked:${hashed([show.pressId])}`,
      audience: { kind: 'person', person: person.id },
      urgency: 'quiet',
      message: signOffInChat(view, person.id),
      possibleRepeat: false,
    };
    await insist(services, () => put(asked));
    return show.tellsDirectly ? undefined : show.tell(visit, words('plain', texts.say('talk.in-messages')));
  }
  const panels = services.pages(page, {
    pack: services.pack(),
    shift,
    now: services.clock.now(),
    texts,
    viewer: person?.id ?? null,
  });
  if (page === 'record' && shift !== null) {
    const file = await services.recordFile(shift.id);
    if (file !== null) await show.sendFile(visit, file);
  }
  await show.openPage(visit, page, onePage(texts.say(`talk.page.${page}`), panels));
}

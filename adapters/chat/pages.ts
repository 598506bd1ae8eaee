import type { Page } from '../../src/message/action.ts';
import type { Panel } from '../../src/views/pages.ts';
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
    // What could not be said there is shown here, or nobody could sign.
    if (!(await stands(services, put, asked))) return show.tell(visit, asked.message);
    const witnessed = panelsOf(services, visit, page).filter(({ id }) => id.startsWith('witness-'));
    const there = texts.say('talk.in-messages');
    // A phone can be wet, dead or at home: whom the foreman can read to and sign for as a witness.
    if (witnessed.length > 0) return show.tell(visit, onePage(there, witnessed));
    return show.tellsDirectly ? undefined : show.tell(visit, words('plain', there));
  }
  const panels = panelsOf(services, visit, page);
  if (page === 'record' && shift !== null) {
    const file = await services.recordFile(shift.id);
    if (file !== null) await show.sendFile(visit, file);
  }
  await show.openPage(visit, page, onePage(texts.say(`talk.page.${page}`), panels));
}

function panelsOf(services: ChatServices, { person, shift, texts }: Visit, page: Page): readonly Panel[] {
  const viewer = person?.id ?? null;
  return services.pages(page, { pack: services.pack(), shift, now: services.clock.now(), texts, viewer });
}

/** Whether it stands in its conversation for certain. */
async function stands(services: ChatServices, put: Put, said: Said): Promise<boolean> {
  const { log } = services;
  try {
    const outcome = await insist(services, () => put(said));
    if (outcome.kind !== 'sent') log.warn({ id: said.id, outcome }, 'a sign-off could not be said');
    return outcome.kind === 'sent';
  } catch (error) {
    log.warn({ err: error, id: said.id }, 'a sign-off may have been said or not');
    return false;
  }
}

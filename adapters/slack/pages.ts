import type { Page } from '../../src/message/action.ts';
import { signOffInChat } from '../../src/views/sign-off.ts';
import { insist } from '../chat/insist.ts';
import { hashed } from '../chat/marks.ts';
import { onePage, words } from '../chat/messages.ts';
import { unknownPerson } from '../chat/refused.ts';
import type { Put, Said } from '../chat/said.ts';
import type { Visit } from '../chat/visit.ts';
import { messageView, type ReplyTo, tell, tellDirectly } from './answer.ts';
import type { Sender } from './sender.ts';
import type { SlackServices } from './services.ts';

/**
 * Shows a page. The sign-off goes to the person's own conversation, where it is changed in place; the record comes as a
 * file; a page longer than a sheet goes to the conversation as well.
 */
export async function showPage(
  services: SlackServices,
  out: Sender,
  put: Put,
  visit: Visit,
  to: ReplyTo,
  page: Page,
): Promise<void> {
  const { person, shift, texts } = visit;
  if (person === null && page !== 'emergency') return tell(services, out, visit, to, unknownPerson(visit));
  if (page === 'sign-off' && person !== null && shift !== null) {
    const view = { shift, texts, now: services.clock.now() };
    const asked: Said = {
      id: `page:${to.pressId}`,
      shift: shift.id,
      key: `sign-off:${person.id}:asked:${hashed([to.pressId])}`,
      audience: { kind: 'person', person: person.id },
      urgency: 'quiet',
      message: signOffInChat(view, person.id),
      possibleRepeat: false,
    };
    await insist(services, () => put(asked));
    const sent = texts.say('talk.in-messages');
    return to.place.kind === 'message' && to.responseUrl === null
      ? undefined
      : tell(services, out, visit, to, words('plain', sent));
  }
  const panels = services.pages(page, {
    pack: services.pack(),
    shift,
    now: services.clock.now(),
    texts,
    viewer: person?.id ?? null,
  });
  const title = texts.say(`talk.page.${page}`);
  const message = onePage(title, panels);
  if (page === 'record' && shift !== null) await sendRecord(services, out, visit, shift.id);
  const sheet =
    to.trigger !== null && to.place.kind !== 'modal'
      ? messageView(services, visit, message, to.pressId)
      : null;
  if (sheet !== null && to.trigger !== null) {
    const opened = await out.openView(to.trigger, sheet);
    if (opened.kind === 'ok') return;
    services.log.warn({ page, outcome: opened.kind }, 'a page could not be opened as a sheet');
  }
  if (to.place.kind === 'modal') return tell(services, out, visit, to, message);
  await tellDirectly(services, out, visit, to.pressId, message);
}

/** The record as a file, for whoever asked. */
async function sendRecord(services: SlackServices, out: Sender, visit: Visit, shift: string): Promise<void> {
  const file = await services.recordFile(shift);
  const opened = await out.openDm(visit.member);
  if (file === null || opened.kind !== 'ok') return;
  const sent = await out.upload({
    channel: opened.value,
    name: file.fileName,
    title: file.fileName,
    bytes: new TextEncoder().encode(file.body),
    blocks: [],
    marker: hashed([shift, file.fileName, services.clock.now()]),
  });
  if (sent.kind !== 'ok') services.log.error({ shift, outcome: sent.kind }, 'the record could not be sent');
}

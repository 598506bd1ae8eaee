import type { Page } from '../../src/message/action.ts';
import type { Form } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import { hashed, markerOf } from '../chat/marks.ts';
import type { Showing } from '../chat/showing.ts';
import type { Visit } from '../chat/visit.ts';
import { messageView, type ReplyTo, tell, tellDirectly } from './answer.ts';
import { formOptions } from './forms.ts';
import { optionsFor } from './look.ts';
import { renderMessage } from './render.ts';
import { renderFormSteps } from './render-steps.ts';
import type { Sender } from './sender.ts';
import type { SlackServices } from './services.ts';

/** How Slack shows somebody what came of what they did: with the trigger and the response address of what they did. */
export function showingTo(services: SlackServices, out: Sender, to: ReplyTo): Showing {
  const { place, trigger, responseUrl, pressId } = to;
  const directly = (visit: Visit, message: Message) => tellDirectly(services, out, visit, pressId, message);

  async function openForm(visit: Visit, form: Form): Promise<boolean> {
    const [first] = renderFormSteps(form, formOptions(services, visit, pressId, pressId));
    if (first === undefined) throw new Error(`the form ${form.id} has no step`);
    const sent =
      place.kind === 'modal'
        ? await out.updateView({ id: place.view, hash: null }, first.view)
        : trigger === null
          ? ({ kind: 'retry', why: 'there is no trigger' } as const)
          : await out.openView(trigger, first.view);
    if (sent.kind === 'ok') return true;
    services.log.warn({ form: form.id, outcome: sent }, 'a form could not be opened');
    return false;
  }

  /** A page longer than a sheet goes to the conversation. */
  async function openPage(visit: Visit, page: Page, message: Message): Promise<void> {
    if (place.kind === 'modal') return tell(services, out, visit, to, message);
    const sheet = trigger === null ? null : messageView(services, visit, message, pressId);
    if (sheet !== null && trigger !== null) {
      const opened = await out.openView(trigger, sheet);
      if (opened.kind === 'ok') return;
      services.log.warn({ page, outcome: opened.kind }, 'a page could not be opened as a sheet');
    }
    await directly(visit, message);
  }

  async function replace(visit: Visit, message: Message): Promise<boolean> {
    const marker = markerOf(visit.shift?.id ?? null, [pressId]);
    const [first] = renderMessage(message, optionsFor(services, visit.texts, marker, 'button'));
    if (responseUrl === null || first === undefined) return false;
    const replaced = await out.replace(responseUrl, { text: first.text, blocks: first.blocks });
    if (replaced.kind === 'ok') return true;
    services.log.warn({ outcome: replaced.kind }, 'a sign-off could not be changed where it was pressed');
    return false;
  }

  async function sendFile(
    { member, shift }: Visit,
    { body, fileName }: { readonly body: string; readonly fileName: string },
  ): Promise<void> {
    const opened = await out.openDm(member);
    if (opened.kind !== 'ok') return;
    const sent = await out.upload({
      channel: opened.value,
      name: fileName,
      title: fileName,
      bytes: new TextEncoder().encode(body),
      blocks: [],
      marker: hashed([shift?.id, fileName, services.clock.now()]),
    });
    if (sent.kind !== 'ok')
      services.log.error({ shift: shift?.id, outcome: sent.kind }, 'the record could not be sent');
  }

  return {
    pressId,
    pressedIn: place.kind === 'message' ? { channel: place.channel, id: place.ts } : null,
    opensForms: trigger !== null,
    tellsDirectly: place.kind === 'message' && responseUrl === null,
    tell: (visit, message) => tell(services, out, visit, to, message),
    directly,
    openForm,
    openPage,
    replace,
    sendFile,
  };
}

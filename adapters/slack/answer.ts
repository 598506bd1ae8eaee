import type { ModalView } from '@slack/types';
import type { Message } from '../../src/message/message.ts';
import { insist } from '../chat/insist.ts';
import { markerOf } from '../chat/marks.ts';
import type { Visit } from '../chat/visit.ts';
import type { Place } from './inbound.ts';
import { limits } from './limits.ts';
import { blocksOf, optionsFor } from './look.ts';
import { renderMessage } from './render.ts';
import { viewBytes } from './render-form.ts';
import type { Sender } from './sender.ts';
import { SLACK, type SlackServices } from './services.ts';
import { cutText } from './split.ts';

/** Where an answer to somebody can be put: what the platform hands over with what they did. */
export interface ReplyTo {
  readonly place: Place;
  /** Good for three seconds; null where there is none, as for a typed line. */
  readonly trigger: string | null;
  readonly responseUrl: string | null;
  readonly pressId: string;
}

/** The `n` messages that a response address is good for, one kept back for a second answer. */
const MOST_RESPONSES = 4;

/**
 * Shows one person an answer: under the message they pressed in, for them alone; in a sheet over their Home; in the sheet
 * they pressed in; or as a message where they wrote. What cannot be shown there goes to their direct conversation.
 */
export async function tell(
  services: SlackServices,
  out: Sender,
  visit: Visit,
  to: ReplyTo,
  message: Message,
): Promise<void> {
  // What somebody writes to Potbell is answered where they can read it alone.
  if (to.place.kind === 'message' && to.responseUrl === null)
    return tellDirectly(services, out, visit, to.pressId, message);
  const failed = await tryTell(services, out, visit, to, message);
  if (failed === null) return;
  services.log.warn(
    { why: failed, place: to.place.kind },
    'an answer could not be shown where it was asked for',
  );
  await tellDirectly(services, out, visit, to.pressId, message);
}

async function tryTell(
  services: SlackServices,
  out: Sender,
  visit: Visit,
  to: ReplyTo,
  message: Message,
): Promise<string | null> {
  const { place, trigger, responseUrl } = to;
  switch (place.kind) {
    case 'message': {
      if (responseUrl === null) return 'there is no response address';
      const parts = renderMessage(
        message,
        optionsFor(services, visit.texts, markerOf(visit.shift?.id ?? null, [to.pressId]), 'inline'),
      );
      if (parts.length > MOST_RESPONSES) return 'it takes more messages than the platform allows in answer';
      for (const { text, blocks } of parts) {
        const sent = await out.respond(responseUrl, { text, blocks });
        if (sent.kind !== 'ok') return sent.kind === 'later' ? 'not now' : sent.why;
      }
      return null;
    }
    case 'home':
    case 'modal': {
      const view = messageView(services, visit, message, to.pressId);
      if (view === null) return 'it is longer than a sheet';
      const sent =
        place.kind === 'modal'
          ? await out.updateView({ id: place.view, hash: null }, view)
          : trigger === null
            ? ({ kind: 'retry', why: 'there is no trigger' } as const)
            : await out.openView(trigger, view);
      return sent.kind === 'ok' ? null : sent.kind === 'later' ? 'not now' : sent.why;
    }
  }
}

export async function tellDirectly(
  services: SlackServices,
  out: Sender,
  visit: Visit,
  id: string,
  message: Message,
): Promise<void> {
  const known = await services.memory.get(SLACK, `dm:${visit.member}`);
  const opened = known === null ? await out.openDm(visit.member) : ({ kind: 'ok', value: known } as const);
  if (opened.kind !== 'ok') {
    services.log.error({ member: visit.member, outcome: opened.kind }, 'somebody could not be answered');
    return;
  }
  const marker = markerOf(visit.shift?.id ?? null, [id, 'direct']);
  const parts = renderMessage(message, optionsFor(services, visit.texts, marker, 'inline'));
  for (const { text, blocks } of parts) {
    const sent = await insist(services, () => out.post({ channel: opened.value, text, blocks, marker }));
    if (sent.kind !== 'ok')
      services.log.error({ member: visit.member, outcome: sent.kind }, 'somebody could not be answered');
  }
}

/** A message as a sheet of its own; null when it is longer than one. */
export function messageView(
  services: Pick<SlackServices, 'pack' | 'words'>,
  visit: Pick<Visit, 'texts' | 'shift'>,
  message: Message,
  id: string,
): ModalView | null {
  const blocks = blocksOf(
    message,
    optionsFor(services, visit.texts, markerOf(visit.shift?.id ?? null, [id]), 'inline'),
  );
  const view: ModalView = {
    type: 'modal',
    callback_id: 'shown',
    title: {
      type: 'plain_text',
      text: 'Potbell',
      emoji: false,
    },
    close: {
      type: 'plain_text',
      text: cutText(visit.texts.say('talk.shut'), limits.modalClose.most),
      emoji: false,
    },
    blocks: [...blocks],
  };
  return blocks.length > limits.blocksInModal.most || viewBytes(view) > limits.viewBytes.most ? null : view;
}

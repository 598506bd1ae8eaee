import type { Page } from '../../src/message/action.ts';
import type { Form } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import { insist } from '../chat/insist.ts';
import { words } from '../chat/messages.ts';
import type { Showing } from '../chat/showing.ts';
import { todayMessage } from '../chat/today.ts';
import type { Visit } from '../chat/visit.ts';
import { cardBody, dialogBody } from './answers.ts';
import type { Conversations } from './conversations.ts';
import { postDirectly, type Shown } from './direct.ts';
import { formOptions } from './forms.ts';
import type { Place } from './inbound-parts.ts';
import { optionsFor } from './look.ts';
import { messageName } from './platform.ts';
import { offerRecord } from './record-file.ts';
import { refreshingTo } from './refresh.ts';
import { renderMessage } from './render.ts';
import { renderFormSteps } from './render-steps.ts';
import type { Reply } from './reply.ts';
import type { Sender } from './sender.ts';
import type { TeamsServices } from './services.ts';

export interface TeamsShowing extends Showing {
  cardsOf(visit: Visit, message: Message): readonly Shown[];
  /** In place of the form that was sent. */
  over(visit: Visit, cards: readonly Shown[]): Promise<void>;
}

/**
 * Over every dialog: Teams may cut its title short (from memory), so what it is about stands on its card, and once.
 */
const TITLE = 'Potbell';

/**
 * How Teams shows somebody what came of what they did. The request itself is answered once, with the first thing there is
 * to show that fits; whatever comes after, or is not for everybody in a channel, goes to their own chat.
 */
export function showingTo(
  services: TeamsServices,
  out: Pick<Sender, 'post' | 'update' | 'openPersonal'>,
  conversations: Pick<Conversations, 'userId'>,
  to: { readonly place: Place; readonly pressId: string; readonly reply: Reply },
): TeamsShowing {
  const { place, pressId, reply } = to;
  const { way } = reply;
  const dialog = way === 'dialog';
  const alone = place.kind === 'personal';
  let posted = 0;

  const cardsOf = ({ texts, shift }: Visit, message: Message): readonly Shown[] =>
    renderMessage(message, { ...optionsFor(services, texts, shift?.id ?? null), dialog });

  function post(visit: Visit, cards: readonly Shown[]): Promise<boolean> {
    posted += 1;
    return postDirectly(services, out, visit, `${pressId}-${posted}`, cards);
  }

  /** A dialog's buttons are of the older kind: below the dialog they are rendered anew. */
  async function directly({ texts, shift, ...visit }: Visit, message: Message): Promise<void> {
    const cards = renderMessage(message, optionsFor(services, texts, shift?.id ?? null));
    await post({ ...visit, texts, shift }, cards);
  }

  /** In the dialog, when all of it is one card and the dialog still waits. */
  function inDialog(cards: readonly Shown[]): boolean {
    const [only] = cards;
    return dialog && only !== undefined && cards.length === 1 && reply.give(dialogBody(TITLE, only.card));
  }

  async function tell(visit: Visit, message: Message): Promise<void> {
    if (dialog && inDialog(cardsOf(visit, message))) return;
    const where = visit.texts.say('talk.in-messages');
    // Whoever cannot be reached otherwise has the one line at least.
    reply.note(alone && !dialog ? message.summary : `${message.summary} ${where}`);
    await directly(visit, message);
  }

  async function openForm(visit: Visit, form: Form): Promise<boolean> {
    const [first] = renderFormSteps(form, formOptions(services, visit, pressId, dialog));
    if (first === undefined) throw new Error(`the form ${form.id} has no step`);
    if (inDialog([{ summary: first.title, card: first.card }])) return true;
    reply.note(visit.texts.say('talk.in-messages'));
    const [card] = renderFormSteps(form, formOptions(services, visit, pressId, false));
    return card !== undefined && post(visit, [{ summary: card.title, card: card.card }]);
  }

  async function openPage(visit: Visit, page: Page, given: Message): Promise<void> {
    const message = page === 'today' ? todayMessage(services, visit) : given;
    if (dialog && inDialog(cardsOf(visit, message))) return;
    reply.note(visit.texts.say(alone && !dialog ? 'talk.read-on' : 'talk.in-messages'));
    if (page !== 'today') return directly(visit, message);
    const cards = renderMessage(message, optionsFor(services, visit.texts, visit.shift?.id ?? null));
    await post(visit, await refreshingTo(conversations, visit, 'today', cards));
  }

  /** In the card that was pressed in: at once for who pressed, and then wherever else the chat is open. */
  async function changed(cards: readonly Shown[]): Promise<boolean> {
    const [only] = cards;
    const { messageId, conversation } = place;
    if (!alone || dialog || messageId === null || only === undefined || cards.length > 1) return false;
    if (way === 'card') reply.give(cardBody(only.card));
    const change = { conversation, id: messageId, thread: null, ...only };
    const sent = await insist(services, () => out.update(change));
    if (sent.kind !== 'ok')
      services.log.warn({ part: 'teams', outcome: sent }, 'a card could not be changed where it was pressed');
    return sent.kind === 'ok';
  }

  async function replace(visit: Visit, message: Message): Promise<boolean> {
    return changed(await refreshingTo(conversations, visit, 'sign-off', cardsOf(visit, message)));
  }

  async function over(visit: Visit, cards: readonly Shown[]): Promise<void> {
    if (inDialog(cards)) return;
    if (await changed(cards)) return;
    reply.note(visit.texts.say('talk.in-messages'));
    await post(visit, cards);
  }

  return {
    pressId,
    pressedIn:
      dialog || place.messageId === null || way === 'line'
        ? null
        : { channel: place.conversation, id: messageName(place.messageId, place.thread) },
    opensForms: way !== 'line',
    tellsDirectly: true,
    tell,
    directly,
    openForm,
    openPage,
    replace,
    async sendFile(visit, file) {
      posted += 1;
      if (await offerRecord(services, out, visit, `${pressId}-${posted}`, file)) return;
      // An app put in before it could bring files, or an organisation that does not let bots do it.
      const { fileName } = file;
      await directly(visit, words('plain', visit.texts.say('talk.record-on-board', { file: fileName })));
    },
    cardsOf,
    over,
  };
}

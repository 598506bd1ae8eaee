import { openQuestion } from '../../src/flow/sign-off.ts';
import { dict, text } from '../peers/slack/json.ts';
import type { Outcome } from '../peers/slack/types.ts';
import { CHANNEL, type Crew, STRANGER as STRANGER_MEMBER } from '../slack/crew.ts';
import { type Hands, STRANGER, shiftOf } from './stage.ts';

/** By what the platform knows somebody. */
export const memberOf = (crew: Crew, person: string): string =>
  person === STRANGER ? STRANGER_MEMBER : crew.member(person);

/** The action ids of the buttons with this label, from the top. */
function buttonsWith(label: string, inside: unknown): readonly string[] {
  if (Array.isArray(inside)) return inside.flatMap((one) => buttonsWith(label, one));
  const { type, action_id: id, text: words, ...rest } = dict(inside);
  if (type === 'button') return text(dict(words).text) === label ? [text(id)] : [];
  return Object.values(rest).flatMap((one) => buttonsWith(label, one));
}

export function handsOf(crew: Crew): Hands {
  const { slack } = crew;
  const top = (person: string) => slack.modals(memberOf(crew, person)).at(-1);
  const sheet = (person: string) => `${top(person)?.id} ${top(person)?.hash}`;

  /** As people do: when the app was away for a moment (a busy machine), once more. */
  async function acked(what: string, go: () => Promise<Outcome>): Promise<void> {
    const times = slack.socketsOpened();
    const sent = await go();
    if (sent.acked) return;
    if (sent.status !== 'connection_closed')
      throw new Error(`${what} was not taken: ${sent.status} ${sent.problem ?? ''}`);
    await slack.connected(times + 1);
    const again = await go();
    if (!again.acked) throw new Error(`${what} was not taken, nor again: ${again.status}`);
  }

  async function pressOwn(person: string, fits: (value: string) => boolean): Promise<void> {
    const message = crew.dm(person).find((one) => one.threadTs === null);
    if (!message) throw new Error(`${person} has no message of their own.`);
    const before = JSON.stringify(crew.dm(person));
    const values = JSON.stringify(message.blocks).match(/"value":"((?:[^"\\]|\\.)*)"/g) ?? [];
    const value = values.map((text) => String(JSON.parse(`{${text}}`).value)).find(fits);
    if (value === undefined) throw new Error(`${person}: no button fits in ${values.join(' ')}`);
    const channel = slack.dm(crew.member(person));
    await acked('A press', () => slack.press(crew.member(person), { channel, ts: message.ts, value }));
    await slack.until(() => JSON.stringify(crew.dm(person)) !== before);
  }

  const asked = (person: string, field?: string): boolean => {
    const view = top(person)?.view;
    if (view?.submit === undefined) return false;
    return field === undefined || JSON.stringify(view).includes(`"${field}"`);
  };

  const hands: Hands = {
    async typed(person, text) {
      const member = memberOf(crew, person);
      const before = slack.seenBy(member, CHANNEL).length;
      const stood = sheet(person);
      const own = () => JSON.stringify(person === STRANGER ? null : crew.dm(person));
      const stoodOwn = own();
      await acked(text, () => slack.command(member, '/potbell', text, CHANNEL));
      await slack.until(
        () => slack.seenBy(member, CHANNEL).length > before || sheet(person) !== stood || own() !== stoodOwn,
      );
      await crew.deliver();
    },
    async press(person, where, label) {
      const stood = sheet(person);
      const view = where === 'home' ? slack.home(memberOf(crew, person)) : top(person)?.view;
      // Of two that do the same, the upper one.
      const [actionId] = buttonsWith(label, view);
      await acked(label, () =>
        slack.pressIn(crew.member(person), where, actionId === undefined ? { label } : { actionId }),
      );
      await slack.until(() => sheet(person) !== stood);
      await crew.deliver();
    },
    asked,
    untilAsked: (person) => slack.until(() => asked(person)),
    async submit(person, answers) {
      await acked('A sheet', () => slack.submit(crew.member(person), { ...answers }));
      await crew.deliver();
    },
    async close(person) {
      while (top(person)) await acked('Closing a sheet', () => slack.closeModal(crew.member(person)));
    },
    async home(person) {
      const member = crew.member(person);
      const published = () => slack.callsOf('views.publish').length;
      const before = published();
      await acked('Opening the Home', () => slack.openHome(member));
      await slack.until(() => published() > before);
      await crew.deliver();
    },
    async todayFromHome(person) {
      await hands.press(person, 'home', 'Today');
      return true;
    },
    async pressInChannel(person, label) {
      const found = crew
        .channel()
        .findLast(({ blocks }) => JSON.stringify(blocks).includes(JSON.stringify(label)));
      if (!found) throw new Error(`No message of the channel has a button "${label}".`);
      const stood = sheet(person);
      const before = slack.seenBy(crew.member(person), CHANNEL).length;
      const as = JSON.stringify(crew.channel());
      await acked(label, () => slack.press(crew.member(person), { channel: CHANNEL, ts: found.ts, label }));
      await crew.deliver();
      await slack.until(
        () =>
          sheet(person) !== stood ||
          slack.seenBy(crew.member(person), CHANNEL).length > before ||
          JSON.stringify(crew.channel()) !== as,
      );
    },
    async answer(person, right) {
      const question = openQuestion(await shiftOf(crew), person);
      if (!question) throw new Error(`${person} has no question.`);
      const choice = question.order.findIndex((place) => (place === 0) === right);
      await pressOwn(person, (value) => value.includes('"answer"') && value.includes(`"choice":${choice}`));
    },
    sign: (person) => pressOwn(person, (value) => value.includes('"sign"')),
    async record(person) {
      await hands.typed(person, 'record');
      await slack.until(() => crew.dm(person).some(({ files }) => files.length > 0));
    },
  };
  return hands;
}

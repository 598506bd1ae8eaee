import { openQuestion } from '../../src/flow/sign-off.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Outcome } from '../peers/slack/types.ts';
import { CHANNEL, type Crew } from '../slack/crew.ts';

/** What people do with their thumbs. Each waits until what they did can be seen. */
export interface Hands {
  shift(): Promise<Shift>;
  typed(person: string, text: string): Promise<void>;
  /** Presses the button with this label on the Home or on the topmost sheet. */
  press(person: string, where: 'home' | 'modal', label: string): Promise<void>;
  submit(person: string, answers: Readonly<Record<string, string>>): Promise<void>;
  close(person: string): Promise<void>;
  home(person: string): Promise<void>;
  /** Presses in the last message of the channel in which the button with this label stands. */
  pressInChannel(person: string, label: string): Promise<void>;
  /** Answers the read-back in the own conversation; `right` false takes a wrong choice. */
  answer(person: string, right: boolean): Promise<void>;
  sign(person: string): Promise<void>;
}

export function handsOf(crew: Crew): Hands {
  const { slack } = crew;
  const top = (person: string) => slack.modals(crew.member(person)).at(-1);
  const sheet = (person: string) => `${top(person)?.id} ${top(person)?.hash}`;

  async function shift(): Promise<Shift> {
    const now = await crew.potbell.host.currentShift();
    if (!now) throw new Error('The demo has no shift yet.');
    return now;
  }

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

  return {
    shift,
    async typed(person, text) {
      const member = crew.member(person);
      const before = slack.seenBy(member, CHANNEL).length;
      const stood = sheet(person);
      const own = JSON.stringify(crew.dm(person));
      await acked(text, () => slack.command(member, '/potbell', text, CHANNEL));
      await slack.until(
        () =>
          slack.seenBy(member, CHANNEL).length > before ||
          sheet(person) !== stood ||
          JSON.stringify(crew.dm(person)) !== own,
      );
      await crew.deliver();
    },
    async press(person, where, label) {
      const stood = sheet(person);
      await acked(label, () => slack.pressIn(crew.member(person), where, { label }));
      await slack.until(() => sheet(person) !== stood);
      await crew.deliver();
    },
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
      const question = openQuestion(await shift(), person);
      if (!question) throw new Error(`${person} has no question.`);
      const choice = question.order.findIndex((place) => (place === 0) === right);
      await pressOwn(person, (value) => value.includes('"answer"') && value.includes(`"choice":${choice}`));
    },
    sign: (person) => pressOwn(person, (value) => value.includes('"sign"')),
  };
}

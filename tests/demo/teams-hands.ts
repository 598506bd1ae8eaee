import { loadTexts } from '../../adapters/files/load-texts.ts';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { actionsIn } from '../peers/teams/card.ts';
import type { MessageState, Outcome } from '../peers/teams/types.ts';
import { CHANNEL, type Crew, STRANGER as STRANGER_MEMBER } from '../teams/crew.ts';
import { type Hands, STRANGER, shiftOf } from './stage.ts';

const { textsFor } = loadTexts();

/** By what the platform knows somebody. */
export const memberOf = (crew: Crew, person: string): string =>
  person === STRANGER ? STRANGER_MEMBER : crew.member(person);

/** A person's own conversation with the app, each card as this person sees it. */
export function ownChat(crew: Crew, person: string): readonly MessageState[] {
  const member = memberOf(crew, person);
  const conversation = crew.teams.chat(member);
  return crew.teams
    .messages(conversation)
    .filter(({ deleted }) => !deleted)
    .map((one) =>
      one.card === null
        ? one
        : { ...one, card: crew.teams.cardSeen(member, { conversation, activityId: one.id }) },
    );
}

export function handsOf(crew: Crew): Hands {
  const { teams } = crew;
  const dialog = (person: string) => teams.dialog(memberOf(crew, person));
  const titlesIn = ({ card }: Pick<MessageState, 'card'>) =>
    actionsIn(card ?? {}).map(({ title }) => String(title));
  const own = (person: string) => ownChat(crew, person);
  /** The button that sends the open form. */
  const sending = (person: string) =>
    actionsIn(dialog(person)?.card ?? {}).find(({ data }) => Object(data).form !== undefined);

  function taken(what: string, outcome: Outcome): void {
    if (outcome.status !== 200 || outcome.problem !== undefined)
      throw new Error(`${what} was not taken: ${outcome.status} ${outcome.problem ?? ''}`);
  }

  async function press(person: string, message: MessageState, title: string): Promise<void> {
    const { conversation, id: activityId } = message;
    taken(title, await teams.press(crew.member(person), { conversation, activityId, title }));
    await crew.deliver();
  }

  async function pressOwn(person: string, fits: (value: string) => boolean): Promise<void> {
    const before = JSON.stringify(own(person));
    for (const message of own(person).toReversed()) {
      const action = actionsIn(message.card ?? {}).find(({ data }) => fits(String(Object(data).action)));
      if (action === undefined) continue;
      await press(person, message, String(action.title));
      await teams.until(() => JSON.stringify(own(person)) !== before);
      return;
    }
    throw new Error(`${person}: no button fits.`);
  }

  const asked = (person: string, field?: string): boolean =>
    sending(person) !== undefined &&
    (field === undefined || JSON.stringify(dialog(person)?.card).includes(`"field:${field}"`));

  const hands: Hands = {
    async typed(person, text) {
      const member = memberOf(crew, person);
      const before = own(person).length;
      // Somebody new writes where everybody writes; the crew to Potbell alone.
      const stranger = person === STRANGER;
      taken(text, await teams.say(member, stranger ? CHANNEL : teams.chat(member), text));
      await teams.until(() => own(person).length > before + (stranger ? 0 : 1));
      await crew.deliver();
      const language = crew.site.pack.people.find(({ id }) => id === person)?.language;
      const asks = textsFor(language ?? crew.site.pack.site.language).say('talk.open-form', { form: '' });
      const last = own(person).at(-1);
      if (last !== undefined && JSON.stringify(last.card).includes(asks))
        await press(person, last, titlesIn(last)[0] ?? '');
    },
    async press(person, _where, label) {
      if (titlesIn({ card: dialog(person)?.card ?? null }).includes(label)) {
        taken(label, await teams.submitDialog(crew.member(person), {}, { title: label }));
        return;
      }
      const message = own(person).findLast((one) => titlesIn(one).includes(label));
      if (!message) throw new Error(`${person} sees no button "${label}".`);
      await press(person, message, label);
    },
    asked,
    untilAsked: (person) => teams.until(() => asked(person)),
    async submit(person, answers) {
      const fields = Object.entries(answers).map(([name, value]) => [`field:${name}`, value] as const);
      const title = String(sending(person)?.title);
      taken('A sheet', await teams.submitDialog(crew.member(person), Object.fromEntries(fields), { title }));
      await crew.deliver();
    },
    async close(person) {
      if (dialog(person) !== null) teams.closeDialog(crew.member(person));
    },
    home: (person) => hands.typed(person, 'today'),
    todayFromHome: async () => false,
    async pressInChannel(person, label) {
      const message = crew.channel().findLast((one) => titlesIn(one).includes(label));
      if (!message) throw new Error(`No message of the channel has a button "${label}".`);
      await press(person, message, label);
    },
    async answer(person, right) {
      const question = openQuestion(await shiftOf(crew), person);
      if (!question) throw new Error(`${person} has no question.`);
      const choice = question.order.findIndex((place) => (place === 0) === right);
      await pressOwn(person, (value) => value.includes('"answer"') && value.includes(`"choice":${choice}`));
    },
    sign: (person) => pressOwn(person, (value) => value.includes('"sign"')),
    async record(person) {
      const before = own(person).length;
      await hands.typed(person, 'record');
      await teams.until(() => own(person).length >= before + 3);
    },
  };
  return hands;
}

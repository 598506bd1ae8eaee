import { expect } from 'vitest';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { actionsIn } from '../peers/teams/card.ts';
import { type Crew, type CrewOptions, crewOnTeams, DATE } from './crew.ts';

/** The button that sends the form somebody has open; undefined when they have none. */
export const sending = (crew: Crew, person: string) =>
  actionsIn(crew.teams.dialog(crew.member(person))?.card ?? {}).find(
    ({ data }) => Object(data).form !== undefined,
  );

/** Posts the day from the card of today, with the demo's example in every field. */
export async function postDay(
  crew: Crew,
  person: string,
  { date = DATE, title: press = 'Post the day' } = {},
): Promise<void> {
  const member = crew.member(person);
  const chat = crew.teams.chat(member);
  await crew.teams.say(member, chat, 'today');
  await crew.teams.until(() => JSON.stringify(crew.dm(person).at(-1)?.card ?? {}).includes('post-day'));
  const activityId = crew.dm(person).at(-1)?.id ?? '';
  await crew.teams.press(member, { conversation: chat, activityId, title: press });
  for (let steps = 0; sending(crew, person) !== undefined && steps < 20; steps += 1) {
    const sheet = JSON.stringify(crew.teams.dialog(member)?.card);
    const answers: Record<string, string> = sheet.includes('"field:date"')
      ? {
          'field:date': date,
          'field:start': '07:30',
          'field:end': '16:30',
          'field:breaks': '10:00-10:20, 12:30-13:15',
        }
      : {};
    const title = String(sending(crew, person)?.title);
    const sent = await crew.teams.submitDialog(member, answers, { title });
    expect(sent.problem).toBeUndefined();
  }
  crew.teams.closeDialog(member);
  expect(await crew.potbell.host.currentShift()).not.toBeNull();
}

/** Answers the question and signs, in the person's own chat. */
export async function signOff(crew: Crew, person: string): Promise<void> {
  const shift = await crew.potbell.host.currentShift();
  const question = shift && openQuestion(shift, person);
  const message = crew.dm(person).find(({ card }) => JSON.stringify(card).includes('\\"answer\\"'));
  if (!question || !message) throw new Error(`${person} is asked nothing`);
  const where = { conversation: message.conversation, activityId: message.id };
  const pressOn = async (fits: (value: string) => boolean) => {
    const seen = crew.teams.cardSeen(crew.member(person), where);
    const action = actionsIn(seen).find(({ data }) => fits(String(Object(data).action)));
    const pressed = { ...where, title: String(action?.title) };
    expect((await crew.teams.press(crew.member(person), pressed)).problem).toBeUndefined();
  };
  const right = question.order.indexOf(0);
  await pressOn((value) => value.includes('"answer"') && value.includes(`"choice":${right}`));
  await crew.teams.until(() => JSON.stringify(crew.dm(person)).includes('\\"sign\\"'));
  await pressOn((value) => value.includes('"sign"'));
  await crew.teams.until(() => !JSON.stringify(crew.dm(person)).includes('\\"sign\\"'));
}

/** Closes the shift from the line "close", with something still open. */
export async function closeDay(crew: Crew, person: string, reason: string): Promise<void> {
  const member = crew.member(person);
  const chat = crew.teams.chat(member);
  await crew.teams.say(member, chat, 'close');
  await crew.teams.until(() => JSON.stringify(crew.dm(person).at(-1)?.card ?? {}).includes('close-shift'));
  const activityId = crew.dm(person).at(-1)?.id ?? '';
  await crew.teams.press(member, { conversation: chat, activityId, title: 'Close the shift' });
  await crew.teams.submitDialog(
    member,
    { 'field:reason': reason },
    { title: String(sending(crew, person)?.title) },
  );
  // What came of it stands on the card, once; over it is only who says so.
  const shown = crew.teams.dialog(member);
  expect(shown?.title).toBe('Potbell');
  expect(JSON.stringify(shown?.card).split('Shift record 2026-06-08, Gannet').length).toBe(3);
  crew.teams.closeDialog(member);
  expect((await crew.potbell.host.currentShift())?.status).toBe('closed');
}

export async function withCrew(
  test: (crew: Crew) => Promise<void>,
  options: CrewOptions = {},
): Promise<void> {
  const crew = await crewOnTeams(options);
  try {
    await test(crew);
  } finally {
    await crew.close();
  }
}

/** What is wrong with Potbell, as it tells the foreman. */
export const problems = async (crew: Crew) => (await crew.potbell.host.health()).problems.join();

export const sayTo = (crew: Crew, person: string, words: string) =>
  crew.teams.say(crew.member(person), crew.teams.chat(crew.member(person)), words);

import { describe, expect, it } from 'vitest';
import { createReply } from '../../adapters/teams/reply.ts';
import { encodeAction } from '../../src/message/action.ts';
import { actionsIn } from '../peers/teams/card.ts';
import { attached, card, posted } from '../peers/teams/world.ts';
import { handTimers } from '../slack/by-hand.ts';
import { postDay, sending, signOff } from './actions.ts';
import { type Crew, type CrewOptions, crewOnTeams, read, STRANGER, TEAM } from './crew.ts';

async function withCrew(test: (crew: Crew) => Promise<void>, options: CrewOptions = {}): Promise<void> {
  const crew = await crewOnTeams(options);
  try {
    await test(crew);
  } finally {
    await crew.close();
  }
}

const lines = async (crew: Crew) => {
  const shift = await crew.potbell.host.currentShift();
  return shift === null ? 0 : (await crew.potbell.store.journal(shift.id)).length;
};
const problems = async (crew: Crew) => (await crew.potbell.host.health()).problems.join();
const said = (crew: Crew, person: string) => read(crew.dm(person).map(({ card }) => card));
const sayTo = (crew: Crew, person: string, words: string) =>
  crew.teams.say(crew.member(person), crew.teams.chat(crew.member(person)), words);
/** Opens what a typed line offers. */
async function opened(crew: Crew, person: string, words: string) {
  const before = crew.dm(person).length;
  await sayTo(crew, person, words);
  await crew.teams.until(() => JSON.stringify(crew.dm(person).slice(before + 1)).includes('Open the form'));
  const message = crew.dm(person).at(-1);
  const where = { conversation: message?.conversation ?? '', activityId: message?.id ?? '' };
  return crew.teams.press(crew.member(person), { ...where, title: 'Open the form' });
}

it('what Teams sends twice, also while the first is worked on or after a restart, changes nothing twice', () =>
  withCrew(async (crew) => {
    crew.teams.duplicate(2);
    await postDay(crew, 'ines');
    await crew.passTo('07:00');
    await signOff(crew, 'rui');
    await sayTo(crew, 'rui', 'reading 16 C 78 % steel 19 C');
    await crew.deliver();
    const shift = await crew.potbell.host.currentShift();
    expect(shift?.readings).toHaveLength(1);
    expect(shift?.people.rui?.signOffs).toHaveLength(1);
    expect(shift?.people.rui?.answers).toHaveLength(1);
    const before = await lines(crew);
    await crew.teams.replayLast();
    await crew.deliver();
    expect(await lines(crew)).toBe(before);
    // Answered once as well: three deliveries of one line are one line.
    expect(said(crew, 'rui').split('Dew point').length).toBeLessThanOrEqual(3);
    expect(crew.faults).toEqual([]);
  }));

it('what is to be mended comes back in the dialog with what was typed', () =>
  withCrew(async (crew) => {
    await postDay(crew, 'ines');
    await crew.passTo('07:00');
    await opened(crew, 'rui', 'reading');
    const title = String(sending(crew, 'rui')?.title);
    const card = () => JSON.stringify(crew.teams.dialog(crew.member('rui'))?.card);
    const fields = [...card().matchAll(/"id":"(field:[^"]+)"/g)].map(([, id = '']) => id);
    const typed = Object.fromEntries(fields.map((id, at) => [id, at === 0 ? 'warm' : '16']));
    const outcome = await crew.teams.submitDialog(crew.member('rui'), typed, { title });
    expect(outcome.problem).toBeUndefined();
    expect(read(crew.teams.dialog(crew.member('rui'))?.card)).toContain('Not sent yet.');
    expect(card()).toContain('"value":"warm"');
    expect((await crew.potbell.host.currentShift())?.readings).toHaveLength(0);
  }));

it('an old client gets the form as a card in the chat, and its answer stands where the form stood', () =>
  withCrew(async (crew) => {
    await postDay(crew, 'ines');
    await crew.passTo('07:00');
    const rui = crew.member('rui');
    const conversation = crew.teams.chat(rui);
    // What a client without dialogs sends of a button that asks for one: the data alone.
    const action = encodeAction({ kind: 'open', form: { id: 'raise-concern', about: {} } });
    const old = card('Old', { type: 'Action.Submit', title: 'Raise', data: { action } });
    const activityId = await posted(crew.teams, conversation, attached(old));
    await crew.teams.press(rui, { conversation, activityId, title: 'Raise' });
    await crew.teams.until(() => JSON.stringify(crew.dm('rui').at(-1)?.card).includes('field:text'));
    const form = crew.dm('rui').at(-1);
    const where = { conversation, activityId: form?.id ?? '' };
    const send = actionsIn(form?.card ?? {}).find(({ data }) => Object(data).form !== undefined);
    const sent = await crew.teams.press(rui, {
      ...where,
      title: String(send?.title),
      typed: { 'field:text': 'The ladder is loose.' },
      oldClient: true,
    });
    expect(sent).toMatchObject({ status: 200 });
    await crew.teams.until(() => !JSON.stringify(crew.dm('rui')).includes('field:text'));
    expect(read(crew.dm('rui').find(({ id }) => id === where.activityId)?.card)).toContain('Concern raised');
    const shift = await crew.potbell.host.currentShift();
    expect(JSON.stringify(shift?.concerns)).toContain('The ladder is loose.');
    expect(crew.faults).toEqual([]);
  }));

it('an answer that takes long says where it will be, and is there: the form in the chat works as well', () =>
  withCrew(
    async (crew) => {
      const rui = crew.member('rui');
      await sayTo(crew, 'rui', 'today');
      await crew.teams.until(() => crew.dm('rui').length > 1);
      const today = { conversation: crew.teams.chat(rui), activityId: crew.dm('rui').at(-1)?.id ?? '' };
      const answered = await crew.teams.press(rui, { ...today, title: 'Stop work' });
      expect(answered.problem).toBeUndefined();
      expect(crew.teams.notes(rui)).toEqual(['It is in your messages with Potbell.']);
      expect(crew.teams.dialog(rui)).toBeNull();
      await crew.teams.until(() => JSON.stringify(crew.dm('rui').at(-1)?.card).includes('field:'));
      const form = crew.dm('rui').at(-1)?.card ?? {};
      expect(actionsIn(form).map(({ type }) => type)).toEqual(['Action.Execute', 'Action.Execute']);
    },
    {
      again: (_ms, run) => {
        queueMicrotask(run);
        return () => undefined;
      },
    },
  ));

describe('the answer to one request', () => {
  it('is given once: by what there is to show, or by a few words when that takes long', async () => {
    const timers = handTimers();
    const slow = createReply('dialog', timers.again, () => 'Look below.');
    expect(timers.waits().every((ms) => ms <= 2_000)).toBe(true);
    timers.goOff();
    expect(await slow.given).toEqual({
      status: 200,
      body: { task: { type: 'message', value: 'Look below.' } },
    });
    expect(slow.give({ late: true })).toBe(false);
    const quick = createReply('card', timers.again, () => 'Look below.');
    expect(quick.give({ quick: true })).toBe(true);
    expect(timers.waits()).toEqual([]);
    expect(await quick.given).toEqual({ status: 200, body: { quick: true } });
  });

  it('to a message waits until it is done, so that Teams sends again what was lost', () => {
    const timers = handTimers();
    createReply('message', timers.again, () => 'Look below.');
    createReply('line', timers.again, () => 'Look below.');
    expect(timers.waits()).toEqual([]);
  });
});

it('somebody unknown hears who they are; who puts the app in is shown today, once', () =>
  withCrew(async (crew) => {
    await crew.teams.uninstalls(crew.member('rui'));
    expect(await problems(crew)).toContain('Rui no longer has Potbell in Teams');
    await crew.teams.installs(crew.member('rui'));
    await crew.teams.until(() => crew.dm('rui').length > 0);
    expect(await problems(crew)).not.toContain('Rui');
    await crew.teams.installs(STRANGER);
    await sayTo(crew, 'rui', 'help');
    await crew.teams.until(() => crew.dm('rui').length >= 4);
    expect(crew.teams.messages(crew.teams.chat(STRANGER))).toHaveLength(0);
    expect(crew.dm('rui').filter(({ card }) => card?.refresh !== undefined)).toHaveLength(2);
  }));

it('the foreman is told in words when the crew’s channel is taken away, until it is back', () =>
  withCrew(async (crew) => {
    expect(await problems(crew)).toBe('');
    await crew.teams.uninstalls(crew.member('ines'), TEAM);
    expect(await problems(crew)).toContain("no longer in the crew's channel in Teams");
    await crew.teams.installs(crew.member('ines'), TEAM);
    expect(await problems(crew)).toBe('');
  }));

it('Potbell runs without having heard from Teams, and says what is missing', () =>
  withCrew(
    async (crew) => {
      expect(await problems(crew)).toContain('Nothing has come from Teams yet');
      await sayTo(crew, 'ines', 'help');
      expect(await problems(crew)).not.toContain('Nothing has come');
    },
    { installed: false },
  ));

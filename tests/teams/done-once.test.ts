import { describe, expect, it } from 'vitest';
import { memoryStore } from '../../adapters/memory/store.ts';
import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { createReply } from '../../adapters/teams/reply.ts';
import { encodeAction } from '../../src/message/action.ts';
import { actionsIn } from '../peers/teams/card.ts';
import { attached, card, posted } from '../peers/teams/world.ts';
import { handTimers } from '../slack/by-hand.ts';
import { postDay, problems, sayTo, sending, signOff, withCrew } from './actions.ts';
import { type Crew, crewOnTeams, read } from './crew.ts';

const lines = async (crew: Crew) => {
  const shift = await crew.potbell.host.currentShift();
  return shift === null ? 0 : (await crew.potbell.store.journal(shift.id)).length;
};
/** Opens what a typed line offers. */
async function opened(crew: Crew, person: string, words: string) {
  const before = crew.dm(person).length;
  await sayTo(crew, person, words);
  await crew.teams.until(() =>
    JSON.stringify(crew.dm(person).slice(before + 1)).includes('Press to open the form'),
  );
  const message = crew.dm(person).at(-1);
  const [button] = actionsIn(message?.card ?? {});
  const where = { conversation: message?.conversation ?? '', activityId: message?.id ?? '' };
  return crew.teams.press(crew.member(person), { ...where, title: String(button?.title) });
}

it('what Teams sends twice, also while the first is worked on, changes nothing twice', () =>
  withCrew(async (crew) => {
    crew.teams.duplicate(2);
    await postDay(crew, 'ines');
    await crew.passTo('07:00');
    await signOff(crew, 'rui');
    const before = crew.dm('rui').length;
    await sayTo(crew, 'rui', 'reading 16 C 78 % steel 19 C');
    await crew.deliver();
    const shift = await crew.potbell.host.currentShift();
    expect(shift?.readings).toHaveLength(1);
    expect(shift?.people.rui?.signOffs).toHaveLength(1);
    expect(shift?.people.rui?.answers).toHaveLength(1);
    // What was written and one answer to it.
    expect(crew.dm('rui')).toHaveLength(before + 2);
    expect(crew.faults).toEqual([]);
  }));

it('what Teams sends again after a restart changes nothing either', async () => {
  const store = { ...memoryStore(), close: async () => undefined };
  const memory = memorySurfaceMemory({ now: () => 0 });
  const crew = await crewOnTeams({ store, memory });
  await postDay(crew, 'ines');
  await crew.passTo('07:00');
  await sayTo(crew, 'rui', 'reading 16 C 78 % steel 19 C');
  await crew.deliver();
  await crew.potbell.stop();
  const again = await crewOnTeams({ store, memory, teams: crew.teams, at: '07:00' });
  try {
    const before = await lines(again);
    expect(await crew.teams.replayLast()).toMatchObject({ status: 200 });
    await again.deliver();
    expect(await lines(again)).toBe(before);
    expect((await again.potbell.host.currentShift())?.readings).toHaveLength(1);
    // Nobody has to write to Potbell again for it to know where everybody is.
    expect(await problems(again)).toBe('');
  } finally {
    await again.close();
  }
});

it('what one person presses in the channel is answered in their own chat; a note there says so to them alone', () =>
  withCrew(async (crew) => {
    await postDay(crew, 'ines');
    await crew.passTo('07:00');
    const before = crew.dm('rui').length;
    const inChannel = crew.channel().length;
    const shown = crew
      .channel()
      .find(({ card: one }) => JSON.stringify(one).includes('"Read, answer, sign"'));
    const where = { conversation: shown?.conversation ?? '', activityId: shown?.id ?? '' };
    const outcome = await crew.teams.press(crew.member('rui'), { ...where, title: 'Read, answer, sign' });
    expect(outcome.problem).toBeUndefined();
    await crew.teams.until(() => crew.dm('rui').length > before);
    expect(crew.teams.notes(crew.member('rui'))).toEqual(['It is in your messages with Potbell.']);
    expect(crew.teams.notes(crew.member('ines'))).toEqual([]);
    expect(crew.channel()).toHaveLength(inChannel);
    // Once: the sign-off itself and no second message that says where it is.
    expect(crew.dm('rui')).toHaveLength(before + 1);
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
      const form = crew.dm('rui').at(-1);
      const [send] = actionsIn(form?.card ?? {});
      expect(send?.type).toBe('Action.Execute');
      const where = { conversation: today.conversation, activityId: form?.id ?? '' };
      const typed = { 'field:text': 'Leak at the gun.' };
      const sent = await crew.teams.press(rui, { ...where, title: String(send?.title), typed });
      expect(sent.problem).toBeUndefined();
      // In place of the form, though the press itself was answered long before.
      const stands = () => read(crew.dm('rui').find(({ id }) => id === where.activityId)?.card);
      await crew.teams.until(() => !stands().includes(String(send?.title)));
      expect(stands()).toContain('No shift is posted');
      expect(crew.faults).toEqual([]);
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

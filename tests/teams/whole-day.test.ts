import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordFile } from '../../adapters/cli/record-file.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { readRecord } from '../../adapters/record/read-record.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { decodeAction } from '../../src/message/action.ts';
import { flushSteps, rigChecks } from '../../src/model/checks.ts';
import { actionsIn } from '../peers/teams/card.ts';
import type { MessageState, Outcome } from '../peers/teams/types.ts';
import { CHANNEL, type Crew, crewOnTeams, DATE, read, STRANGER, STRANGER_ID } from './crew.ts';

const texts = loadTexts().textsFor('en');

/** The demo day with nothing but Teams: real store rules, the real library over HTTP, clocks moved by hand. */
describe('a whole day in Teams', () => {
  let crew: Crew;
  beforeAll(async () => {
    crew = await crewOnTeams();
  });
  afterAll(async () => {
    await crew?.close();
  });

  const shift = async () => {
    const now = await crew.potbell.host.currentShift();
    if (!now) throw new Error('no shift');
    return now;
  };
  const top = (person: string) => crew.teams.dialog(crew.member(person));
  const chat = (person: string) => crew.teams.chat(crew.member(person));
  const last = (person: string) => {
    const message = crew.dm(person).at(-1);
    if (message === undefined) throw new Error(`${person} has no message`);
    return message;
  };
  /** Nothing that a client would show as an error. */
  function taken(outcome: Outcome): Outcome {
    expect(outcome).toMatchObject({ status: 200 });
    expect(outcome.problem).toBeUndefined();
    return outcome;
  }
  /** What somebody is answered to a typed line, in their own chat. */
  async function typed(person: string, text: string): Promise<string> {
    const before = crew.dm(person).length;
    taken(await crew.teams.say(crew.member(person), chat(person), text));
    await crew.teams.until(() => crew.dm(person).length > before + 1);
    return read(
      crew
        .dm(person)
        .slice(before + 1)
        .map(({ card }) => card),
    );
  }
  const press = async (person: string, title: string, message: MessageState) =>
    taken(
      await crew.teams.press(crew.member(person), {
        conversation: message.conversation,
        activityId: message.id,
        title,
      }),
    );
  const field = (name: string) => `field:${name}`;
  const answersTo = (answers: Record<string, string>) =>
    Object.fromEntries(Object.entries(answers).map(([name, value]) => [field(name), value]));
  /** The button that sends the open form. */
  const sending = (person: string) =>
    actionsIn(top(person)?.card ?? {}).find(({ data }) => Object(data).form !== undefined);
  async function submit(person: string, answers: Record<string, string>): Promise<void> {
    taken(
      await crew.teams.submitDialog(crew.member(person), answersTo(answers), {
        title: String(sending(person)?.title),
      }),
    );
    expect(read(top(person)?.card)).not.toContain('Not sent yet.');
    expect(read(top(person)?.card)).not.toContain('Not taken.');
  }
  /** The form that a typed line is answered with: a button to press. */
  async function typedForm(person: string, text: string): Promise<void> {
    await typed(person, text);
    await press(person, 'Open the form', last(person));
    expect(top(person)).not.toBeNull();
  }

  it('the foreman finds the way on the card of today, posts the day, and the briefing goes out', async () => {
    expect(await typed('ines', 'hi')).toContain('Post the day');
    await press('ines', 'Post the day', last('ines'));
    let steps = 0;
    while (sending('ines') !== undefined) {
      const sheet = JSON.stringify(top('ines')?.card);
      const answers = sheet.includes('"field:date"')
        ? { date: DATE, start: '07:30', end: '16:30', breaks: '10:00-10:20, 12:30-13:15' }
        : {};
      await submit('ines', answers);
      steps += 1;
      if (steps > 20) break;
    }
    expect(read(top('ines')?.card)).toContain('Day posted.');
    crew.teams.closeDialog(crew.member('ines'));
    await crew.passTo('07:00');
    expect(crew.faults).toEqual([]);
    const [briefing] = crew.channel();
    expect(read(briefing?.card)).toContain('225 bar');
    expect(read(crew.channel().map(({ card }) => card))).toContain('Who signs');
    expect(read(crew.dm('tomas').map(({ card }) => card))).toContain('Tomas: lea la charla');
  });

  it('each reads, answers and signs in their own conversation with two taps', async () => {
    for (const { id } of crew.site.pack.people) {
      const question = openQuestion(await shift(), id);
      if (!question) throw new Error(`${id} has no question`);
      const message = crew.dm(id).find(({ card }) => JSON.stringify(card).includes('\\"answer\\"'));
      if (!message) throw new Error(`${id} has no message`);
      const seen = () =>
        crew.teams.cardSeen(crew.member(id), { conversation: chat(id), activityId: message.id });
      const pressOn = async (fits: (value: string) => boolean) => {
        const action = actionsIn(seen()).find(({ data }) => fits(String(Object(data).action)));
        if (action === undefined) throw new Error(`${id}: nothing fits in ${read(seen())}`);
        await press(id, String(action.title), message);
      };
      const right = question.order.indexOf(0);
      await pressOn((value) => value.includes('"answer"') && value.includes(`"choice":${right}`));
      // The next step stands where one pressed as soon as the press is answered.
      expect(JSON.stringify(seen())).toContain('\\"sign\\"');
      await crew.teams.until(() => JSON.stringify(crew.dm(id)).includes('\\"sign\\"'));
      await pressOn((value) => value.includes('"sign"'));
      expect(JSON.stringify(seen())).not.toContain('\\"sign\\"');
      await crew.teams.until(() => !JSON.stringify(crew.dm(id)).includes('\\"sign\\"'));
    }
    await crew.deliver();
    expect(Object.values((await shift()).people).every(({ signOffs }) => signOffs.length === 1)).toBe(true);
    expect(crew.faults).toEqual([]);
  });

  it('a stranger gets a kind answer with the id for the foreman, and can stop the work all the same', async () => {
    await crew.teams.say(STRANGER, CHANNEL, 'batch 10 L');
    const answers = () => read(crew.teams.messages(crew.teams.chat(STRANGER)).map(({ card }) => card));
    await crew.teams.until(() => answers().includes(STRANGER_ID));
    await crew.teams.say(STRANGER, CHANNEL, 'STOP!! leak at the gun');
    expect((await shift()).stop?.text).toContain('leak at the gun');
    await crew.deliver();
    const stop = crew.channel().find(({ card }) => read(card).includes('STOP WORK'));
    expect(read(stop?.card)).toContain('<at>Ines</at>');
    // In the channel itself, not in the thread of the day.
    expect(stop?.thread).toBe(stop?.id);
    await typed('ines', 'today');
    await press('ines', 'Clear the stop-work', last('ines'));
    await submit('ines', { text: 'Looked at it with Rui. The gun was changed.' });
    crew.teams.closeDialog(crew.member('ines'));
    expect((await shift()).stop).toBeNull();
    await crew.deliver();
  });

  it('rig checks by form, a reading typed, a batch typed: the times come back at once', async () => {
    for (const [person, rig] of [
      ['duarte', 'rig-1'],
      ['rui', 'rig-2'],
    ] as const) {
      await typedForm(person, `check ${rig}`);
      const answers = Object.fromEntries(rigChecks.map((check) => [check, 'ok']));
      await submit(person, answers);
      crew.teams.closeDialog(crew.member(person));
      expect((await shift()).rigs[rig]?.checked?.by).toBe(person);
    }
    await crew.passTo('08:10');
    expect(await typed('duarte', 'reading 16 C 78 % steel 19 C')).toContain('Dew point');
    await crew.passTo('08:15');
    const said = await typed('bento', 'batch 20 L 18 C rig-1');
    for (const part of ['use by 10:10', 'Start the flush by 10:35', 'Dead at 10:49'])
      expect(said).toContain(part);
    expect(await typed('bento', 'temp 280 C rig-1')).toContain('280');
    await crew.deliver();
    const [day] = crew.channel();
    const inThread = crew.channel().filter(({ thread, id }) => thread === day?.id && id !== day?.id);
    expect(inThread.some(({ card }) => read(card).includes('use by 10:10'))).toBe(true);
  });

  it("a line in one's own conversation is answered there; a form comes as a button to press", async () => {
    expect(await typed('bento', 'temp 18 C rig-1')).toContain('18 °C');
    expect((await shift()).rigs['rig-1']?.line?.history.at(-1)?.c).toBe(18);
    await typed('bento', 'defect rig-1 packing weeps');
    const offered = last('bento');
    const [button] = actionsIn(offered.card ?? {});
    expect(decodeAction(String(Object(button?.data).action))).toMatchObject({
      form: { id: 'report-defect' },
    });
    await press('bento', 'Open the form', offered);
    expect(JSON.stringify(top('bento')?.card)).toContain('"value":"packing weeps"');
    crew.teams.closeDialog(crew.member('bento'));
    expect(crew.faults).toEqual([]);
  });

  it('a bell calls the channel, and one answer there is the answer everywhere', async () => {
    await crew.passTo('10:11');
    const bell = crew.channel().findLast(({ card }) => read(card).includes('USE BY 10:10. Stop'));
    if (!bell) throw new Error('no bell');
    expect(read(bell.card)).toContain('<at>Ines</at>');
    expect(bell.thread).toBe(bell.id);
    await press('duarte', 'I am on it', bell);
    expect((await shift()).bells['use-by:rig-1:line:rig-1-1']?.answered?.by).toBe('duarte');
    await crew.deliver();
  });

  it('the flush goes step by step in its message, in order', async () => {
    await typed('duarte', 'flush rig-1');
    await crew.deliver();
    for (const step of flushSteps) {
      const flush = crew
        .channel()
        .findLast(({ card }) => JSON.stringify(card).includes(`\\"step\\":\\"${step}\\"`));
      if (!flush)
        throw new Error(`nothing to press for ${step}: ${read(crew.channel().map((one) => one.card))}`);
      await press('duarte', texts.say(`press.${step}`), flush);
      if (['primary-flush', 'secondary-flush', 'solvent-away'].includes(step)) {
        await submit('duarte', { litres: '6' });
        crew.teams.closeDialog(crew.member('duarte'));
      }
      await crew.deliver();
    }
    const rig = (await shift()).rigs['rig-1'];
    expect(rig).toMatchObject({ flush: null, line: null, pot: null });
    expect(Object.keys(rig?.flushes[0]?.steps ?? {})).toHaveLength(flushSteps.length);
    expect(crew.faults).toEqual([]);
  });

  it('the shift closes; the record comes as a file, and is what the store holds', async () => {
    await crew.passTo('16:20');
    await typedForm('ines', 'close');
    await submit('ines', {});
    crew.teams.closeDialog(crew.member('ines'));
    const { id, status } = await shift();
    expect(status).toBe('closed');
    await crew.deliver();
    const before = crew.dm('ines').length;
    await typed('ines', 'record');
    await crew.teams.until(() => crew.dm('ines').length >= before + 3);
    const asks = crew.dm('ines').find(({ activity }) => JSON.stringify(activity).includes('file.consent'));
    const where = { conversation: chat('ines'), activityId: asks?.id ?? '' };
    taken(await crew.teams.answersFile(crew.member('ines'), where, 'accept'));
    await crew.teams.until(() => !crew.dm('ines').some((message) => message.id === asks?.id));
    const [file] = crew.teams.files(crew.member('ines'));
    const html = new TextDecoder().decode(file?.bytes ?? undefined);
    const clock = { now: () => crew.teams.clock.now() };
    const record = await recordFile(crew.potbell.store, loadTexts().textsFor, clock, id, 'json');
    // The page has no check of its own: it carries the seal of the record that can be checked.
    const verified = verifyRecord(record?.body ?? '');
    expect(verified).toMatchObject({ ok: true, problems: [] });
    const read = readRecord(record?.body ?? '');
    if (!read.ok) throw new Error(read.problem);
    expect(html).toContain(read.record.seal.file);
    expect(html).toContain(String(verified.head));
    expect(crew.faults).toEqual([]);
  });
});

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { flushSteps, rigChecks } from '../../src/model/checks.ts';
import { CHANNEL, type Crew, crewOnSlack, DATE, read, STRANGER } from './crew.ts';

const texts = loadTexts().textsFor('en');

/** The demo day with nothing but Slack: real store rules, real Bolt over a WebSocket, clocks moved by hand. */
describe('a whole day in Slack', () => {
  let crew: Crew;
  beforeAll(async () => {
    crew = await crewOnSlack();
  });
  afterAll(async () => {
    await crew?.close();
  });

  const shift = async () => {
    const now = await crew.potbell.host.currentShift();
    if (!now) throw new Error('no shift');
    return now;
  };
  const top = (person: string) => crew.slack.modals(crew.member(person)).at(-1);
  /** What somebody sees for themselves after a typed line: an answer in the channel, or a sheet. */
  async function typed(person: string, text: string): Promise<string> {
    const member = crew.member(person);
    const before = crew.slack.seenBy(member, CHANNEL).length;
    const sheets = crew.slack.modals(member).length;
    const stood = top(person)?.id;
    const sent = await crew.slack.command(member, '/potbell', text, CHANNEL);
    expect(sent).toMatchObject({ acked: true });
    await crew.slack.until(
      () =>
        crew.slack.seenBy(member, CHANNEL).length > before ||
        crew.slack.modals(member).length > sheets ||
        top(person)?.id !== stood,
    );
    return read(
      crew.slack
        .seenBy(member, CHANNEL)
        .slice(before)
        .map(({ blocks }) => blocks),
    );
  }
  const press = (person: string, label: string, where: 'home' | 'modal') =>
    crew.slack.pressIn(crew.member(person), where, { label });
  async function submit(person: string, answers: Record<string, string>): Promise<void> {
    const sent = await crew.slack.submit(crew.member(person), answers);
    expect(sent).toMatchObject({ acked: true });
    expect(sent.body).not.toMatchObject({ response_action: 'errors' });
  }

  it('the foreman finds the way on the Home, posts the day, and the briefing goes out', async () => {
    await crew.slack.openHome(crew.member('ines'));
    await crew.slack.until(() => crew.slack.home(crew.member('ines')) !== null);
    expect(read(crew.slack.home(crew.member('ines'))?.view)).toContain('Post the day');
    await crew.slack.pressIn(crew.member('ines'), 'home', { label: 'Post the day' });
    await crew.slack.until(() => top('ines') !== undefined);
    let steps = 0;
    while (read(top('ines')?.view).includes('Step')) {
      const before = top('ines')?.hash;
      const sheet = JSON.stringify(top('ines')?.view);
      const answers = sheet.includes('"date"')
        ? { date: DATE, start: '07:30', end: '16:30', breaks: '10:00-10:20, 12:30-13:15' }
        : {};
      const sent = await crew.slack.submit(crew.member('ines'), answers);
      expect(sent).toMatchObject({ acked: true });
      steps += 1;
      if (steps > 20 || before === top('ines')?.hash) break;
    }
    expect(read(top('ines')?.view)).toContain('Day posted.');
    await crew.passTo('07:00');
    expect(crew.faults).toEqual([]);
    const [briefing] = crew.channel();
    expect(read(briefing?.blocks)).toContain('225 bar');
    expect(read(briefing?.blocks)).toContain('Who signs');
    expect(
      crew
        .dm('tomas')
        .map((one) => read(one.blocks))
        .join(),
    ).toContain('Tomas: lea la charla');
  });

  it('each reads, answers and signs in their own conversation with two taps', async () => {
    for (const { id } of crew.site.pack.people.filter((one) => one.id !== 'nuno')) {
      const question = openQuestion(await shift(), id);
      if (!question) throw new Error(`${id} has no question`);
      const message = crew.dm(id).find(({ threadTs }) => threadTs === null);
      if (!message) throw new Error(`${id} has no message`);
      const pressOn = (fits: (value: string) => boolean) => {
        const now = crew.dm(id).find(({ ts }) => ts === message.ts);
        const values = JSON.stringify(now?.blocks).match(/"value":"((?:[^"\\]|\\.)*)"/g) ?? [];
        const value = values.map((text) => JSON.parse(`{${text}}`).value as string).find((one) => fits(one));
        if (value === undefined) throw new Error(`${id}: nothing fits in ${values.join(' ')}`);
        return crew.slack.press(crew.member(id), {
          channel: crew.slack.dm(crew.member(id)),
          ts: message.ts,
          value,
        });
      };
      const right = question.order.indexOf(0);
      await pressOn((value) => value.includes('"answer"') && value.includes(`"choice":${right}`));
      await crew.slack.until(() => JSON.stringify(crew.dm(id)).includes('\\"sign\\"'));
      await pressOn((value) => value.includes('"sign"'));
      await crew.slack.until(() => !JSON.stringify(crew.dm(id)).includes('\\"sign\\"'));
    }
    // Nuno's phone lies at home: the foreman reads to him and signs as a witness.
    await crew.slack.openHome(crew.member('ines'));
    await crew.slack.until(() =>
      read(crew.slack.home(crew.member('ines'))?.view).includes('Read, answer, sign'),
    );
    await press('ines', 'Read, answer, sign', 'home');
    await crew.slack.until(() => read(top('ines')?.view).includes('Nuno'));
    await press('ines', 'One question first', 'modal');
    await crew.slack.until(() => JSON.stringify(top('ines')?.view).includes('"submit"'));
    const open = openQuestion(await shift(), 'nuno');
    const right = `${open?.order.indexOf(0)}|${open?.caution}/${open?.question}|1`;
    await submit('ines', { choice: right });
    await press('ines', texts.say('sign.sign'), 'modal');
    await crew.slack.until(() => !JSON.stringify(top('ines')?.view).includes('witnessFor'));
    expect((await shift()).people.nuno?.signOffs[0]).toMatchObject({ witnessedBy: 'ines' });
    await crew.deliver();
    expect(Object.values((await shift()).people).every(({ signOffs }) => signOffs.length === 1)).toBe(true);
    expect(crew.faults).toEqual([]);
  });

  it('a stranger gets a kind answer with the id for the foreman, and can stop the work all the same', async () => {
    await crew.slack.command(STRANGER, '/potbell', 'batch 10 L', CHANNEL);
    await crew.slack.until(() => read(crew.slack.seenBy(STRANGER, CHANNEL)).includes(STRANGER));
    await crew.slack.command(STRANGER, '/potbell', 'STOP!! leak at the gun', CHANNEL);
    expect((await shift()).stop?.text).toContain('leak at the gun');
    await crew.deliver();
    expect(
      crew.channel().some(({ text }) => text.startsWith('<!channel>') && text.includes('STOP WORK')),
    ).toBe(true);
    await typed('ines', 'today');
    await press('ines', 'Clear the stop-work', 'modal');
    await crew.slack.until(() => JSON.stringify(top('ines')?.view).includes('"submit"'));
    await submit('ines', { text: 'Looked at it with Rui. The gun was changed.' });
    expect((await shift()).stop).toBeNull();
    await crew.deliver();
  });

  it('rig checks by form, a reading typed, a batch typed: the times come back at once', async () => {
    for (const [person, rig] of [
      ['duarte', 'rig-1'],
      ['rui', 'rig-2'],
    ] as const) {
      await typed(person, `check ${rig}`);
      await crew.slack.until(() => top(person) !== undefined);
      const answers = Object.fromEntries(rigChecks.map((check) => [check, 'ok']));
      await submit(person, answers);
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
    await crew.slack.until(() => crew.slack.scheduled().length === 1);
    const [notice] = crew.slack.scheduled();
    expect(notice?.channel).toBe(CHANNEL);
    expect(notice?.text).toMatch(/^Backstop.*if nobody has confirmed.*10:49.*112/is);
    const [day] = crew.channel();
    const inThread = crew.channel().filter(({ threadTs }) => threadTs === day?.ts);
    expect(inThread.some(({ text }) => text.includes('use by 10:10'))).toBe(true);
  });

  it("a line in one's own conversation is answered there; a form comes as a button to press", async () => {
    const bento = crew.member('bento');
    const dm = crew.slack.dm(bento);
    const before = crew.dm('bento').length;
    await crew.slack.say(bento, dm, 'temp 18 C rig-1');
    await crew.slack.until(() => crew.dm('bento').length > before + 1);
    expect(read(crew.dm('bento').at(-1)?.blocks)).toContain('18 °C');
    expect((await shift()).rigs['rig-1']?.line?.history.at(-1)?.c).toBe(18);
    await crew.slack.say(bento, dm, 'defect rig-1 packing weeps');
    await crew.slack.until(() => JSON.stringify(crew.dm('bento').at(-1)?.blocks).includes('report-defect'));
    const offered = crew.dm('bento').at(-1);
    await crew.slack.press(bento, { channel: dm, ts: offered?.ts ?? '', label: 'Open the form' });
    await crew.slack.until(() => JSON.stringify(top('bento')?.view ?? {}).includes('"submit"'));
    expect(JSON.stringify(top('bento')?.view)).toContain('"initial_value":"packing weeps"');
    await crew.slack.closeModal(bento);
    expect(crew.faults).toEqual([]);
  });

  it('a bell calls the channel, and one answer there is the answer everywhere', async () => {
    await crew.passTo('10:11');
    const bell = crew.channel().findLast(({ text }) => text.includes('USE BY 10:10. Stop'));
    expect(bell?.text.startsWith('<!channel>')).toBe(true);
    if (!bell) throw new Error('no bell');
    await crew.slack.press(crew.member('duarte'), { channel: CHANNEL, ts: bell.ts, label: 'I am on it' });
    expect((await shift()).bells['use-by:rig-1:line:rig-1-1']?.answered?.by).toBe('duarte');
    await crew.deliver();
  });

  it('the flush goes step by step in its message, in order', async () => {
    await typed('duarte', 'flush rig-1');
    await crew.deliver();
    for (const step of flushSteps) {
      const flush = crew
        .channel()
        .findLast(({ blocks }) => JSON.stringify(blocks).includes(`\\"step\\":\\"${step}\\"`));
      if (!flush)
        throw new Error(`nothing to press for ${step} in ${read(crew.channel().map((one) => one.blocks))}`);
      await crew.slack.press(crew.member('duarte'), {
        channel: CHANNEL,
        ts: flush.ts,
        label: texts.say(`press.${step}`),
      });
      if (['primary-flush', 'secondary-flush', 'solvent-away'].includes(step)) {
        await crew.slack.until(() => JSON.stringify(top('duarte')?.view).includes('"submit"'));
        await submit('duarte', { litres: '6' });
      }
      await crew.deliver();
    }
    const rig = (await shift()).rigs['rig-1'];
    expect(rig).toMatchObject({ flush: null, line: null, pot: null });
    expect(Object.keys(rig?.flushes[0]?.steps ?? {})).toHaveLength(flushSteps.length);
    // The paint is out: what waited inside Slack is taken back, more than five minutes before its time.
    await crew.slack.until(() => crew.slack.scheduled().length === 0);
    expect(crew.faults).toEqual([]);
  });

  it('the shift closes; the record comes as a file', async () => {
    await crew.passTo('16:20');
    await typed('ines', 'close');
    await crew.slack.until(() => JSON.stringify(top('ines')?.view).includes('"submit"'));
    await submit('ines', {});
    expect((await shift()).status).toBe('closed');
    await crew.deliver();
    await typed('ines', 'record');
    await crew.slack.until(() => crew.dm('ines').some(({ files }) => files.length > 0));
    expect(crew.faults).toEqual([]);
  });
});

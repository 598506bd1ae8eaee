import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordFile } from '../../adapters/cli/record-file.ts';
import { loadWords } from '../../adapters/cli/site.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import { flushSteps, rigChecks } from '../../src/model/checks.ts';
import { dayOf, SHIFT, today } from './day.ts';
import { type Hands, the, withAction } from './hands.ts';
import { type Linked, openThree, type Three } from './three.ts';
import { wrongIn } from './wrong.ts';

/** Twenty people of one site, each where they are: on the board, in Slack, in Teams. */
describe('the board, Slack and Teams serve one site together', () => {
  let three: Three;
  beforeAll(async () => {
    three = await openThree();
  });
  afterAll(async () => {
    await three?.close();
  });

  const shift = () => today(three);
  const chats = (): readonly Hands[] => [three.onSlack, three.onTeams];
  const people = (where: Linked) => [...three.linked].filter(([, one]) => one === where).map(([id]) => id);
  const bodies = async () =>
    (await three.potbell.store.journal(SHIFT(three))).map(({ event: { by, body } }) => ({ by, body }));
  const saidEverywhere = (part: string) =>
    chats().map((hands) => hands.channel().filter(({ summary }) => summary.includes(part)).length);

  async function signInChat(hands: Hands, person: string): Promise<void> {
    const right = the(openQuestion(await shift(), person), `question for ${person}`).order.indexOf(0);
    const message = the(withAction(hands.own(person), '"answer"'), `message for ${person}`);
    await hands.press(
      person,
      message,
      ({ value }) => value.includes('"answer"') && value.includes(`"choice":${right}`),
    );
    await hands.until(() => withAction(hands.own(person), '"sign"') !== undefined);
    await hands.press(person, message, ({ value }) => value.includes('"sign"'));
    await hands.until(() => withAction(hands.own(person), '"sign"') === undefined);
  }
  async function signOnBoard(person: string): Promise<void> {
    const question = the(openQuestion(await shift(), person), `question for ${person}`);
    const { revision } = (await shift()).briefing;
    const choice = question.order.indexOf(0);
    await three.pressOnBoard(person, { type: 'answer', revision, question: questionId(question), choice });
    await three.pressOnBoard(person, { type: 'sign', revision });
  }

  it('the day is posted on the board; the briefing stands in both channels and reaches each where they are linked', async () => {
    const day = dayOf(three);
    const atWork = new Set(day.jobs.flatMap(({ sprayers, mixers }) => [...sprayers, ...mixers]));
    const others = [...three.linked.keys()].filter((id) => !atWork.has(id));
    await three.pressOnBoard('ines', { type: 'post-day', entry: { ...day, others } });
    await three.passTo('07:00');
    expect([...three.linked.keys()]).toHaveLength(20);
    for (const hands of chats()) {
      expect(await wrongIn(hands)).toEqual([]);
      expect(hands.channel()[0]?.text).toContain('Who signs');
    }
    for (const [id, where] of three.linked) {
      const told = chats().map((hands) => hands.own(id).length > 0);
      expect({ id, told }).toEqual({
        id,
        told: { slack: [true, false], teams: [false, true], both: [true, true], board: [false, false] }[
          where
        ],
      });
    }
    expect(three.faults).toEqual([]);
  });

  it('twenty sign, spread over the three; each surface sees all of it', async () => {
    await three.passTo('07:02');
    for (const [id, where] of three.linked) {
      if (where === 'slack') await signInChat(three.onSlack, id);
      else if (where === 'teams') await signInChat(three.onTeams, id);
      else if (where === 'board') await signOnBoard(id);
      else await signInChat(chats()[people('both').indexOf(id) % 2] ?? three.onSlack, id);
    }
    await three.deliver();
    expect((await bodies()).filter(({ body }) => body.type === 'signed')).toHaveLength(20);
    expect(saidEverywhere('has signed revision')).toEqual([20, 20]);
    // Who signed in one chat is no longer asked in the other.
    for (const id of people('both'))
      for (const hands of chats()) expect(withAction(hands.own(id), '"sign"')).toBeUndefined();
    expect(three.faults).toEqual([]);
  });

  it('a rig is checked on the board and paint mixed in Slack: each sees what the others did', async () => {
    await three.passTo('07:25');
    const sheet = Object.fromEntries(rigChecks.map((check) => [check, 'ok'] as const));
    await three.pressOnBoard('ines', { type: 'check-rig', rig: 'rig-1', results: sheet as never });
    await three.onSlack.type('ines', 'reading 16 C 70 % steel 19 C');
    await three.passTo('08:15');
    const batch = await three.onSlack.type('ines', 'batch 20 L 18 C rig-1');
    expect(batch).toContain('use by 10:10');
    await three.deliver();
    expect(saidEverywhere('use by 10:10')).toEqual([1, 1]);
    expect(await three.pageOf('bento')).toContain('10:10');
    expect(three.faults).toEqual([]);
  });

  it('a bell answered in one is answered in all', async () => {
    await three.passTo('10:11');
    const bells = chats().map((hands) =>
      the(
        hands.channel().findLast(({ summary }) => summary.includes('USE BY 10:10')),
        `bell in ${hands.title}`,
      ),
    );
    expect(bells.every(({ calls }) => calls)).toBe(true);
    await three.onTeams.press('ines', the(bells[1], 'bell in Teams'), 'I am on it');
    await three.deliver();
    expect((await shift()).bells['use-by:rig-1:line:rig-1-1']?.answered?.by).toBe('ines');
    for (const [at, hands] of chats().entries()) {
      const bell = hands.channel().find(({ id }) => id === bells[at]?.id);
      expect(bell?.text).toContain('Ines');
      expect(bell?.buttons.map(({ value }) => value).join()).not.toContain('answer-bell');
    }
    expect(await three.pageOf('ines')).not.toContain('USE BY 10:10. Stop');
  });

  it('work is paused in Teams, and the journal says where', async () => {
    await three.passTo('10:13');
    await three.onTeams.type('ines', 'pause rig-1');
    if (three.onTeams.sheet('ines') !== null) await three.onTeams.submit('ines', {});
    await three.onTeams.shut('ines');
    await three.deliver();
    expect((await shift()).rigs['rig-1']?.pausedAt).not.toBeNull();
    expect((await bodies()).at(-1)?.by).toMatchObject({ person: 'ines', surface: 'teams' });
  });

  it('Slack goes down: who is in both is reached in Teams, all others find it on the board; later Slack says it late', async () => {
    const stood = three.onSlack.channel().length;
    await three.onSlack.down(true);
    const caller = the(people('teams')[0], 'person in Teams alone');
    await three.onTeams.type(caller, 'STOP!! hose burst');
    for (let minutes = 0; minutes < 8; minutes += 1) {
      three.pass(60_000);
      await three.potbell.host.outbox.drain();
    }
    expect((await shift()).stop?.text).toContain('hose burst');
    expect(three.onSlack.channel()).toHaveLength(stood);
    const inTeams = three.onTeams.channel().filter(({ summary }) => summary.includes('STOP WORK, called'));
    expect(inTeams).toHaveLength(1);
    for (const id of [
      the(people('slack')[0], 'person in Slack alone'),
      the(people('board')[0], 'person on the board'),
    ])
      expect(await three.pageOf(id)).toContain('hose burst');
    const { problems } = await three.potbell.host.health();
    expect(problems.join()).toContain('Slack');
    expect(problems.join()).not.toContain('Teams');

    await three.onSlack.down(false);
    await three.deliver();
    expect(saidEverywhere('STOP WORK, called')).toEqual([1, 1]);
    await three.pressOnBoard('ines', { type: 'clear-stop-work', text: 'The hose is changed, Rui measured.' });
    await three.deliver();
    expect(saidEverywhere('The hose is changed').every((times) => times >= 1)).toBe(true);
    expect((await shift()).stop).toBeNull();
  });

  it('the flush goes on by turns in the three, in order; all see each step', async () => {
    await three.onTeams.type('ines', 'flush rig-1');
    await three.deliver();
    const flush = the((await shift()).rigs['rig-1']?.flush?.id, 'flush');
    const say = loadWords(three.site)('en').say;
    for (const [at, step] of flushSteps.entries()) {
      const hands = [three.onSlack, three.onTeams, null][at % 3];
      const measured = step.includes('flush') || step === 'solvent-away';
      if (hands === null || hands === undefined || measured) {
        const litres = measured ? { litres: 6 } : {};
        await three.pressOnBoard('ines', { type: 'confirm-step', rig: 'rig-1', flush, step, ...litres });
      } else {
        const message = the(withAction(hands.channel(), `"step":"${step}"`), `button for ${step}`);
        await hands.press('ines', message, say(`press.${step}`));
      }
      await three.deliver();
    }
    expect((await shift()).rigs['rig-1']).toMatchObject({ flush: null, line: null, pot: null });
    const steps = (await bodies()).flatMap(({ body }) => (body.type === 'step-confirmed' ? [body.step] : []));
    expect(steps).toEqual([...flushSteps]);
  });

  it('the journal tells one story in order, from all three; the shift closes and its record verifies', async () => {
    await three.passTo('16:20');
    await three.onSlack.type('ines', 'close');
    await three.onSlack.until(() => three.onSlack.sheet('ines')?.text.includes('lose') === true);
    const fields = three.onSlack.sheet('ines')?.fields ?? {};
    await three.onSlack.submit('ines', 'reason' in fields ? { reason: 'Rig 2 was not used.' } : {});
    await three.deliver();
    expect((await shift()).status).toBe('closed');
    const journal = await three.potbell.store.journal(SHIFT(three));
    expect(journal.map(({ event }) => event.seq)).toEqual(
      journal.map((_, at) => (journal[0]?.event.seq ?? 0) + at),
    );
    const times = journal.map(({ event }) => event.at);
    expect([...times].sort((a, b) => a - b)).toEqual(times);
    const from = new Set(journal.flatMap(({ event: { by } }) => ('surface' in by ? [by.surface] : [])));
    expect([...from].sort()).toEqual(['board', 'slack', 'teams']);
    const record = await recordFile(
      three.potbell.store,
      loadWords(three.site),
      three.clock,
      SHIFT(three),
      'json',
    );
    expect(verifyRecord(record?.body ?? '')).toMatchObject({ ok: true, lines: journal.length });
    // That Slack's connection broke is logged, and is no fault of Potbell's.
    expect(three.faults.filter((one) => !one.startsWith('WebSocket error'))).toEqual([]);
  });
});

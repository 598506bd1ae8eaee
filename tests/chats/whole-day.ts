import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { flushSteps, rigChecks } from '../../src/model/checks.ts';
import { today } from './day.ts';
import { type ChatKind, DATE, type Hands, type Stands, textOf, the, withAction } from './hands.ts';
import { journalLines } from './journal.ts';

const texts = loadTexts().textsFor('en');
const measured = new Set<string>(['primary-flush', 'secondary-flush', 'solvent-away']);

/** What must be otherwise in one chat than in the others. */
export interface ItsOwn {
  /** What a person is given of the record. */
  readonly record: RegExp;
  /** The next step of a sign-off stands as soon as the press is answered. */
  readonly atOnce: boolean;
  /** A bell as it stands in the channel. */
  bell(bell: Stands): void;
  /** Paint is in the line, and everything is said. */
  withPaint?(hands: Hands): Promise<void>;
  /** The paint is out, and everything is said. */
  flushed?(hands: Hands): Promise<void>;
}

/** The demo day with nothing but one chat: real store rules, the platform's real library, clocks moved by hand. */
export function wholeDay(kind: ChatKind, its: ItsOwn): void {
  describe(`a whole day in ${kind.name}`, () => {
    let hands: Hands;
    beforeAll(async () => {
      hands = await kind.open();
    });
    afterAll(async () => {
      await hands?.close();
    });

    const shift = () => today(hands);
    async function sent(person: string, answers: Record<string, string>): Promise<string> {
      const { kind: how, text } = await hands.submit(person, answers);
      expect({ how, text }).toMatchObject({ how: 'taken' });
      return text;
    }

    it('the foreman finds the way on what today looks like, posts the day, and the briefing goes out', async () => {
      const first = await hands.today('ines');
      expect(first.text).toContain('Post the day');
      await hands.press('ines', first, 'Post the day');
      await hands.until(() => Object.keys(hands.sheet('ines')?.fields ?? {}).length > 0);
      let last = '';
      for (let steps = 0; Object.keys(hands.sheet('ines')?.fields ?? {}).length > 0; steps += 1) {
        if (steps > 20) throw new Error('the form does not end');
        const answers = 'date' in (hands.sheet('ines')?.fields ?? {});
        last = await sent(
          'ines',
          answers ? { date: DATE, start: '07:30', end: '16:30', breaks: '10:00-10:20, 12:30-13:15' } : {},
        );
      }
      expect(last).toContain('Day posted.');
      await hands.shut('ines');
      await hands.passTo('07:00');
      expect(hands.faults).toEqual([]);
      const [briefing, ...below] = hands.channel();
      expect(briefing?.text).toContain('225 bar');
      expect(briefing?.text).toContain('Who signs');
      expect(briefing?.text).toContain('in the thread of this message');
      expect(textOf(below)).toContain('225 bar');
      expect(below.every(({ root }) => root === briefing?.id)).toBe(true);
      expect(textOf(hands.own('tomas'))).toContain('Tomas: lea la charla');
    });

    it('each reads, answers and signs in their own conversation with two taps', async () => {
      await hands.passTo('07:05');
      for (const { id } of hands.site.pack.people) {
        const question = the(openQuestion(await shift(), id), `question for ${id}`);
        const message = the(withAction(hands.own(id), '"answer"'), `message for ${id}`);
        const right = question.order.indexOf(0);
        await hands.press(
          id,
          message,
          ({ value }) => value.includes('"answer"') && value.includes(`"choice":${right}`),
        );
        if (its.atOnce) expect(withAction(hands.own(id), '"sign"')).toBeDefined();
        await hands.until(() => withAction(hands.own(id), '"sign"') !== undefined);
        await hands.press(id, message, ({ value }) => value.includes('"sign"'));
        await hands.until(() => withAction(hands.own(id), '"sign"') === undefined);
      }
      await hands.deliver();
      expect(Object.values((await shift()).people).every(({ signOffs }) => signOffs.length === 1)).toBe(true);
      expect(hands.faults).toEqual([]);
    });

    it('a stranger gets a kind answer with the id for the foreman, and can stop the work all the same', async () => {
      await hands.passTo('07:20');
      const { person, id } = hands.stranger;
      expect(await hands.type(person, 'batch 10 L')).toContain(id);
      await hands.type(person, 'STOP!! leak at the gun');
      expect((await shift()).stop?.text).toContain('leak at the gun');
      await hands.deliver();
      const stop = the(
        hands.channel().find(({ text }) => text.includes('STOP WORK')),
        'stop-work',
      );
      expect(stop.calls).toBe(true);
      its.bell(stop);
      await hands.passTo('07:22');
      await hands.press('ines', await hands.today('ines'), 'Clear the stop-work');
      await hands.until(() => 'text' in (hands.sheet('ines')?.fields ?? {}));
      await sent('ines', { text: 'Looked at it with Rui. The gun was changed.' });
      await hands.shut('ines');
      expect((await shift()).stop).toBeNull();
      await hands.deliver();
    });

    it('rig checks by form, a reading typed, a batch typed: the times come back at once', async () => {
      await hands.passTo('07:30');
      for (const [person, rig] of [
        ['duarte', 'rig-1'],
        ['rui', 'rig-2'],
      ] as const) {
        await hands.type(person, `check ${rig}`);
        await hands.until(() => Object.keys(hands.sheet(person)?.fields ?? {}).length > 0);
        await sent(person, Object.fromEntries(rigChecks.map((check) => [check, 'ok'])));
        await hands.shut(person);
        expect((await shift()).rigs[rig]?.checked?.by).toBe(person);
      }
      await hands.passTo('08:10');
      expect(await hands.type('duarte', 'reading 16 C 78 % steel 19 C')).toContain('Dew point');
      await hands.passTo('08:15');
      const said = await hands.type('bento', 'batch 20 L 18 C rig-1');
      for (const part of ['use by 10:10', 'Start the flush by 10:35', 'Dead at 10:49'])
        expect(said).toContain(part);
      expect(await hands.type('bento', 'temp 280 C rig-1')).toContain('280');
      await hands.deliver();
      const [day] = hands.channel();
      const inThread = hands.channel().filter(({ root }) => root === day?.id);
      expect(inThread.some(({ summary }) => summary.includes('use by 10:10'))).toBe(true);
      await its.withPaint?.(hands);
    });

    it("a line in one's own conversation is answered there; a form comes as a button to press", async () => {
      await hands.passTo('08:25');
      const before = hands.own('bento').length;
      await hands.write('bento', 'temp 18 C rig-1');
      await hands.until(() => hands.own('bento').length > before + 1);
      expect(hands.own('bento').at(-1)?.text).toContain('18 °C');
      expect((await shift()).rigs['rig-1']?.line?.history.at(-1)?.c).toBe(18);
      await hands.write('bento', 'defect rig-1 packing weeps');
      await hands.until(() => hands.own('bento').at(-1)?.buttons.length === 1);
      const offered = the(hands.own('bento').at(-1), 'form to open');
      expect(offered.buttons[0]?.value).toContain('report-defect');
      // Which form it is stands on its button.
      expect(offered.buttons[0]?.label).toBe('Defect: Rig 1 (large pump)');
      await hands.press('bento', offered, offered.buttons[0]?.label ?? '');
      await hands.until(() => Object.keys(hands.sheet('bento')?.fields ?? {}).length > 0);
      expect(Object.values(hands.sheet('bento')?.fields ?? {})).toContain('packing weeps');
      await hands.shut('bento');
      expect(hands.faults).toEqual([]);
    });

    it('a bell calls the channel, and one answer there is the answer everywhere', async () => {
      await hands.passTo('10:11');
      const bell = the(
        hands.channel().findLast(({ summary }) => summary.includes('USE BY 10:10. Stop')),
        'bell',
      );
      expect(bell.calls).toBe(true);
      its.bell(bell);
      await hands.press('duarte', bell, 'I am on it');
      expect((await shift()).bells['use-by:rig-1:line:rig-1-1']?.answered?.by).toBe('duarte');
      await hands.deliver();
    });

    it('the flush goes step by step in its message, in order', async () => {
      await hands.passTo('10:13');
      await hands.type('duarte', 'flush rig-1');
      await hands.deliver();
      for (const [index, step] of flushSteps.entries()) {
        await hands.passTo(`10:${15 + 2 * index}`);
        const flush = the(withAction(hands.channel(), `"step":"${step}"`), `button for ${step}`);
        await hands.press('duarte', flush, texts.say(`press.${step}`));
        if (measured.has(step)) {
          await hands.until(() => 'litres' in (hands.sheet('duarte')?.fields ?? {}));
          await sent('duarte', { litres: '6' });
          await hands.shut('duarte');
        }
        await hands.deliver();
      }
      const rig = (await shift()).rigs['rig-1'];
      expect(rig).toMatchObject({ flush: null, line: null, pot: null });
      expect(Object.keys(rig?.flushes[0]?.steps ?? {})).toHaveLength(flushSteps.length);
      await its.flushed?.(hands);
      expect(hands.faults).toEqual([]);
    });

    it('what is to be mended is said beside what was typed', async () => {
      await hands.passTo('13:20');
      await hands.type('rui', 'reading');
      await hands.until(() => 'airC' in (hands.sheet('rui')?.fields ?? {}));
      const before = (await shift()).readings.length;
      const numbers = Object.keys(hands.sheet('rui')?.fields ?? {}).filter((name) =>
        /^(airC|rhPct|steelC)$/.test(name),
      );
      const typed = Object.fromEntries(numbers.map((name) => [name, name === 'rhPct' ? '180' : '16']));
      expect((await hands.submit('rui', typed)).kind).toBe('problems');
      expect((await shift()).readings).toHaveLength(before);
      await sent('rui', { rhPct: '60' });
      expect((await shift()).readings.at(-1)).toMatchObject({ airC: 16, rhPct: 60, steelC: 16 });
      await hands.shut('rui');
    });

    it('the shift closes; the record is to be had', async () => {
      await hands.passTo('16:20');
      await hands.type('ines', 'close');
      await hands.until(() => hands.sheet('ines') !== null);
      await sent('ines', {});
      await hands.shut('ines');
      expect((await shift()).status).toBe('closed');
      await hands.deliver();
      expect(await hands.record('ines')).toMatch(its.record);
      expect(hands.faults).toEqual([]);
    });

    it('the journal is the same in every chat', async () => {
      await expect(await journalLines(hands)).toMatchFileSnapshot('../golden/chats/whole-day.txt');
    });
  });
}

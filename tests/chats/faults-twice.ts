import { afterEach, describe, expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { rigChecks } from '../../src/model/checks.ts';
import { dayOf, lines, mustOnBoard, playOnBoard, SHIFT, today } from './day.ts';
import { type ChatKind, type Hands, type Stands, the, withAction } from './hands.ts';

const { textsFor } = loadTexts();
const NEXT = '2026-06-09';

/** What comes twice, at the same time as another one's, or late. */
export function twiceAndLate(kind: ChatKind): void {
  let hands: Hands;
  afterEach(async () => {
    await hands.close();
  });
  const words = (person: string) =>
    textsFor(hands.site.pack.people.find(({ id }) => id === person)?.language ?? 'en');
  /** What this person was shown alone, but for what they had been shown before. */
  function since(person: string, before: readonly string[]): string {
    const left = [...before];
    return hands
      .alone(person)
      .filter((one) => {
        const at = left.indexOf(one);
        if (at >= 0) left.splice(at, 1);
        return at < 0;
      })
      .join('\n');
  }
  const sheetOf = (person: string) => hands.sheet(person)?.text ?? '';

  /** What came before has been answered by then: another one's line is, and each takes as long. */
  async function answered(): Promise<void> {
    for (let times = 0; times < 3; times += 1) await hands.type('rui', 'help');
  }

  /** Paint is in the line of rig 1, the hose turned warm, and the bell to start the flush has rung in the channel. */
  async function withBell(): Promise<Stands> {
    hands = await kind.open();
    await playOnBoard(hands, () => undefined, '10:06');
    await hands.passTo('10:06');
    return the(withAction(hands.channel(), 'start-flush:rig-1'), 'bell to start the flush');
  }
  const answer = (person: string, bell: Stands) =>
    hands.press(person, bell, textsFor('en').say('bell.answer'));
  const startFlush = (person: string, bell: Stands) =>
    hands.press(person, bell, textsFor('en').say('today.press-flush'));

  describe(`what comes twice in ${kind.name} changes nothing twice`, () => {
    it('a press delivered twice: one event, one answer', async () => {
      const bell = await withBell();
      const shown = hands.alone('duarte').length;
      const before = await lines(hands);
      await answer('duarte', bell);
      await hands.until(() => hands.alone('duarte').length > shown);
      expect(await lines(hands)).toBe(before + 1);
      await answered();
      const told = hands.alone('duarte');
      // In Teams the button itself answers in a few words, and the whole of it stands in their own chat.
      expect(told).toHaveLength(shown + { slack: 1, teams: 2 }[hands.surface]);
      await hands.duplicateLast();
      await answered();
      expect(await lines(hands)).toBe(before + 1);
      expect(hands.alone('duarte')).toEqual(told);
      expect(hands.faults).toEqual([]);
    });

    it('everything twice: a typed line is taken once', async () => {
      await withBell();
      const before = await lines(hands);
      const stood = hands.own('tomas').length;
      hands.duplicate(1);
      await hands.write('tomas', 'STOP!! viento');
      hands.duplicate(0);
      await hands.until(() => hands.own('tomas').length > stood + 1);
      expect((await today(hands)).stop?.text).toContain('viento');
      await answered();
      expect(hands.own('tomas')).toHaveLength(stood + 2);
      expect(await lines(hands)).toBe(before + 1);
      await hands.deliver();
      const stops = hands.channel().filter(({ summary }) => summary.includes('STOP WORK, called'));
      expect(stops).toHaveLength(1);
      expect(hands.faults).toEqual([]);
    });

    it('a reading typed and delivered twice', async () => {
      await withBell();
      await hands.type('duarte', 'reading 16 C 78 % steel 19 C');
      const before = await lines(hands);
      await hands.duplicateLast();
      await answered();
      const told = hands.alone('duarte');
      expect(await lines(hands)).toBe(before);
      expect(told.filter((one) => one.includes('Dew point')).length).toBeLessThanOrEqual(1);
      expect((await today(hands)).readings.filter(({ airC }) => airC === 16)).toHaveLength(2);
    });

    it('a sheet sent twice', async () => {
      await withBell();
      await hands.type('duarte', 'check rig-1');
      await hands.until(() => Object.keys(hands.sheet('duarte')?.fields ?? {}).length > 0);
      const before = await lines(hands);
      await hands.submit('duarte', Object.fromEntries(rigChecks.map((one) => [one, 'ok'])));
      const after = await lines(hands);
      expect(after).toBeGreaterThan(before);
      await hands.duplicateLast();
      expect(await lines(hands)).toBe(after);
    });
  });

  describe(`two people press one button in ${kind.name}`, () => {
    it('both are on it: one is, the other reads who, in their own language', async () => {
      const bell = await withBell();
      const before = await lines(hands);
      const shown = { duarte: hands.alone('duarte'), tomas: hands.alone('tomas') };
      await Promise.all([answer('duarte', bell), answer('tomas', bell)]);
      expect(await lines(hands)).toBe(before + 1);
      const by = (await today(hands)).bells['start-flush:rig-1:line:rig-1-1']?.answered?.by;
      const [first, second] =
        by === 'duarte' ? (['duarte', 'tomas'] as const) : (['tomas', 'duarte'] as const);
      const name = hands.site.pack.people.find(({ id }) => id === first)?.name ?? '';
      const done = words(first).say('done.answer-bell');
      const late = words(second).say('refusal.bell-answered', { person: name });
      await hands.until(
        () => since(first, shown[first]).includes(done) && since(second, shown[second]).length > 0,
      );
      expect(since(second, shown[second])).toContain(late);
    });

    it('both start the flush: there is one flush', async () => {
      const bell = await withBell();
      const shown = { duarte: hands.alone('duarte'), tomas: hands.alone('tomas') };
      await Promise.all([startFlush('duarte', bell), startFlush('tomas', bell)]);
      const flushes = (await hands.potbell.store.journal(SHIFT(hands))).filter(
        ({ event }) => event.body.type === 'flush-started',
      );
      expect(flushes).toHaveLength(1);
      await hands.until(
        () => since('duarte', shown.duarte).length > 0 && since('tomas', shown.tomas).length > 0,
      );
      expect(since('tomas', shown.tomas)).not.toContain('Start the flush');
      expect(hands.faults).toEqual([]);
    });
  });

  describe(`a press on an earlier day's message in ${kind.name}`, () => {
    /** Yesterday was closed; today's briefing is out. Yesterday's bell and what Tomas saw of his day still stand. */
    async function nextDay() {
      hands = await kind.open();
      await playOnBoard(hands, () => undefined, '10:06');
      const day = await hands.today('tomas');
      expect(day.buttons.some(({ value }) => value.includes('raise-concern'))).toBe(true);
      await playOnBoard(hands, () => undefined, '24:00', '10:06');
      expect((await today(hands)).status).toBe('closed');
      hands.pass(14 * 3_600_000);
      await mustOnBoard(hands, 'ines', { type: 'post-day', entry: dayOf(hands, NEXT) }, NEXT);
      hands.pass(3_600_000);
      await hands.potbell.host.bells.runDue();
      await hands.deliver();
      expect((await hands.potbell.host.currentShift())?.date).toBe(NEXT);
      const bell = hands
        .channel()
        .find(({ buttons }) => buttons.some(({ value }) => value.includes('start-flush:rig-1')));
      return { day, bell: the(bell, "bell of yesterday's") };
    }

    it('does nothing to today, and says so kindly', async () => {
      const { bell } = await nextDay();
      const before = [await lines(hands), await lines(hands, NEXT)];
      for (const press of [answer, startFlush]) {
        const shown = hands.alone('tomas');
        await press('tomas', bell);
        const old = words('tomas').say('talk.old-button');
        await hands.until(() => since('tomas', shown).includes(old));
        expect(since('tomas', shown)).toContain(words('tomas').say('board.oldButtonTitle'));
      }
      expect([await lines(hands), await lines(hands, NEXT)]).toEqual(before);
      expect(hands.faults).toEqual([]);
    });

    it('a form of it is not opened; the work of today is stopped all the same', async () => {
      const { day } = await nextDay();
      const { say } = words('tomas');
      const before = [await lines(hands), await lines(hands, NEXT)];
      for (const label of [say('today.press-concern'), say('today.press-flush')]) {
        const shown = hands.alone('tomas');
        await hands.press('tomas', day, label);
        const seen = () => sheetOf('tomas') + since('tomas', shown);
        await hands.until(() => seen().includes(say('talk.old-button')));
        expect(hands.sheet('tomas')?.fields ?? {}).toEqual({});
        await hands.shut('tomas');
      }
      expect([await lines(hands), await lines(hands, NEXT)]).toEqual(before);
      await hands.press('tomas', day, say('talk.stop'));
      await hands.until(() => 'text' in (hands.sheet('tomas')?.fields ?? {}));
      await hands.submit('tomas', { text: 'viento' });
      expect((await today(hands, NEXT)).stop?.text).toBe('viento');
      expect((await today(hands)).stop).toBeNull();
    });

    it('that works over its time and is still open counts for its own day', async () => {
      hands = await kind.open({ at: '21:00' });
      const night = { ...dayOf(hands), start: '22:00', end: '06:30', breaks: [], forecast: [] };
      await mustOnBoard(hands, 'ines', { type: 'post-day', entry: night });
      await hands.passTo('22:30');
      await mustOnBoard(hands, 'tomas', { type: 'stop-work', text: 'Wind.' });
      hands.pass(20 * 60_000);
      await hands.potbell.host.bells.runDue();
      await hands.deliver();
      const bell = the(withAction(hands.channel(), 'answer-bell'), 'bell');
      const key = /"bell":"([^"]+)/.exec(bell.buttons.map(({ value }) => value).join())?.[1] ?? '';
      const entry = { ...dayOf(hands, NEXT), start: '07:00' };
      await mustOnBoard(hands, 'ines', { type: 'post-day', entry }, NEXT);
      hands.pass(8 * 3_600_000 + 15 * 60_000);
      expect((await hands.potbell.host.currentShift())?.date).toBe(NEXT);
      const before = await lines(hands, NEXT);
      await answer('duarte', bell);
      expect((await today(hands)).bells[key]?.answered?.by).toBe('duarte');
      expect(await lines(hands, NEXT)).toBe(before);
    });
  });
}

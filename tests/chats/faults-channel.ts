import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { dayOf, lines, mustOnBoard, today } from './day.ts';
import type { ChatKind, Hands } from './hands.ts';

export function talkInTheChannel(kind: ChatKind): void {
  let hands: Hands;
  beforeEach(async () => {
    hands = await kind.open();
    await mustOnBoard(hands, 'ines', { type: 'post-day', entry: dayOf(hands) });
    await hands.passTo('07:00');
    await hands.deliver();
  });
  afterEach(async () => {
    await hands.close();
  });
  const ours = () => hands.channel().filter(({ by }) => by === 'potbell').length;

  describe(`what is said in ${kind.name} and is not for Potbell`, () => {
    it('people talking, in the channel or a thread, changes nothing and is not answered', async () => {
      const before = [await lines(hands), ours(), hands.alone('tomas').length];
      const [day] = hands.channel();
      await hands.talk('tomas', 'stop by the shed later, bring 20 L');
      await hands.talk('tomas', 'flush rig-1', day);
      // What comes after it has been answered by then.
      await hands.type('rui', 'help');
      expect([await lines(hands), ours(), hands.alone('tomas').length]).toEqual(before);
      expect(hands.faults).toEqual([]);
    });

    it('a line that was edited or deleted was taken as it was written', async () => {
      const stood = hands.own('tomas').length;
      const id = await hands.write('tomas', 'STOP!! viento');
      await hands.until(() => hands.own('tomas').length > stood + 1);
      const before = await lines(hands);
      const shown = hands.alone('tomas').length;
      await hands.rewrite('tomas', id, 'STOP!! fuego');
      await hands.erase('tomas', id);
      await hands.type('rui', 'help');
      expect((await today(hands)).stop?.text).toContain('viento');
      expect(await lines(hands)).toBe(before);
      expect(hands.alone('tomas')).toHaveLength(shown);
      expect(hands.faults).toEqual([]);
    });

    it('a stranger who names Potbell gets an answer for them alone', async () => {
      const { person, id } = hands.stranger;
      const before = ours();
      await hands.call(person, 'batch 10 L');
      await hands.until(() => hands.alone(person).join('\n').includes(id));
      expect(ours()).toBe(before);
      expect(hands.faults).toEqual([]);
    });
  });
}

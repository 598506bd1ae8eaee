import { describe, expect, it } from 'vitest';
import { dayOf, mustOnBoard } from './day.ts';
import { type ChatKind, type Hands, type Stands, the, withHands } from './hands.ts';
import { wrongIn } from './wrong.ts';

/** The lines that are left of the first two rings of the missing sign-offs, in the channel. */
export const left = [
  'Call 1 at 07:10: sign-off chased. Rang again at 07:14, below.',
  'Call 2 at 07:14: sign-off chased. Rang again at 07:18, below.',
];
const CALL = /^Call \d+ |^Briefing not signed/;

/** The rings of the missing sign-offs in the channel, each by what opens it. */
export const ringsIn = (hands: Hands): readonly Stands[] =>
  hands.channel().filter(({ summary, part }) => part.head && CALL.test(summary));

const answers = ({ buttons }: Stands): boolean =>
  buttons.some(({ value }) => value.includes('"answer-bell"'));

/** Nobody signs, so the same bell rings three times: for the crew, and for each of them alone. */
export async function threeRings(hands: Hands): Promise<void> {
  await mustOnBoard(hands, 'ines', { type: 'post-day', entry: dayOf(hands) });
  await hands.passTo('07:18');
}

/** BE12: three rings of one bell, then answered in the newest of them. */
async function ringsAndAnswer(hands: Hands): Promise<void> {
  await threeRings(hands);
  // No time has been left for it: each still stands as it was said, and can be answered.
  expect(ringsIn(hands).map(answers)).toEqual([true, true, true]);
  expect(await wrongIn(hands)).toEqual([]);

  expect(ringsIn(hands).map(({ summary }) => summary)).toEqual([
    ...left,
    expect.stringMatching(/^Call 3 since 07:10\. Briefing not signed: Duarte/),
  ]);
  expect(ringsIn(hands).map(({ buttons }) => buttons.length)).toEqual([0, 0, 2]);
  expect(hands.own('tomas').filter(answers)).toHaveLength(1);
  expect(hands.own('tomas').map(({ summary }) => summary)).toContain(
    '2.ª llamada de las 07:14: Tomas, reclamar firma. Volvió a sonar a las 07:18, más abajo.',
  );
  // What is one line has nothing under it.
  for (const one of hands.channel())
    expect(
      ringsIn(hands)
        .slice(0, 2)
        .map(({ id }) => id),
    ).not.toContain(one.root);

  const newest = the(ringsIn(hands).at(-1), 'third ring');
  await hands.press('bento', newest, ({ value }) => value.includes('"answer-bell"'));
  await hands.deliver();
  await hands.rest?.();
  const after = ringsIn(hands).map(({ summary }) => summary);
  expect(after.slice(0, 2)).toEqual(left);
  expect(
    hands.channel().filter(({ summary }) => summary.includes('Bento is on it since 07:18.')),
  ).toHaveLength(1);
  expect(hands.channel().filter(answers)).toEqual([]);
  expect(hands.faults).toEqual([]);
}

/** An older ring that is not one line yet is answered: that is the answer to the bell. */
async function pressedOnAnOlder(hands: Hands): Promise<void> {
  await threeRings(hands);
  const oldest = the(ringsIn(hands)[0], 'first ring');
  await hands.press('bento', oldest, ({ value }) => value.includes('"answer-bell"'));
  await hands.deliver();
  await hands.rest?.();
  expect(ringsIn(hands).map(({ summary }) => summary)).toEqual([
    ...left,
    expect.stringContaining('Bento is on it since 07:18.'),
  ]);
  expect(hands.channel().filter(answers)).toEqual([]);
}

export function olderRings(kind: ChatKind): void {
  describe(`BE12 the older rings of a bell in ${kind.name}`, () => {
    it('are a line each, and the newest is whole', () => withHands(kind, ringsAndAnswer));

    it('can be answered as well, as long as they stand in full', () => withHands(kind, pressedOnAnOlder));

    it.each(['busy', 'out of order', 'dropped before', 'dropped after'] as const)(
      'with %s at each change: every ring is said once, and the lines come later',
      (fault) =>
        withHands(kind, async (hands) => {
          await threeRings(hands);
          hands.fault('update', fault, 3);
          await hands.rest?.();
          expect(hands.faultsLeft()).toBe(0);
          expect(await wrongIn(hands)).toEqual([]);
          expect(hands.faults).toEqual([]);
        }),
    );
  });
}

import { describe, expect, test } from 'vitest';
import {
  cardInPlace,
  dialog,
  dialogWords,
  fewWords,
  nothing,
  notOurs,
} from '../../adapters/teams/invoke-answer.ts';
import type { Answer } from '../../adapters/teams/link.ts';
import { ANA, attached, BEN, card, DOCK, execute, posted } from '../peers/teams/world.ts';
import { withLink as withDoor } from './link-helpers.ts';
import { content } from './sender-helpers.ts';

const mine = content('You have signed').card;

/** Somebody presses, and the door answers so; the peer says what a client would make of it. */
const pressed = (
  answer: Answer,
  title: string,
  look: (linked: Parameters<Parameters<typeof withDoor>[0]>[0], id: string) => Promise<void>,
) =>
  withDoor(
    async (linked) => {
      const opens = { type: 'Action.Submit', title: 'Ask', data: { msteams: { type: 'task/fetch' } } };
      const shown = card('Briefing', execute('Sign', 'do'), opens);
      const id = await posted(linked.teams, DOCK, attached(shown));
      const outcome = await linked.teams.press(ANA, { conversation: DOCK, activityId: id, title });
      expect(outcome).toMatchObject({ status: answer.status });
      if (answer.status === 200) expect(outcome).not.toHaveProperty('problem');
      await look(linked, id);
    },
    async () => answer,
  );

describe('a press is answered', () => {
  test('with a card that only who pressed sees', () =>
    pressed(cardInPlace(mine), 'Sign', async ({ teams }, id) => {
      const where = { conversation: DOCK, activityId: id };
      expect(teams.cardSeen(ANA, where)).toEqual(mine);
      expect(teams.cardSeen(BEN, where)).not.toEqual(mine);
    }));

  test('with a few words', () =>
    pressed(fewWords('Signed at 06:41'), 'Sign', async ({ teams }) => {
      expect([teams.notes(ANA), teams.notes(BEN)]).toEqual([['Signed at 06:41'], []]);
    }));

  test('with a dialog, and words that close it', async () => {
    await pressed(dialog('Batch', mine), 'Ask', async ({ teams }) => {
      expect(teams.dialog(ANA)).toMatchObject({ title: 'Batch', card: mine });
    });
    await pressed(dialogWords('Noted'), 'Ask', async ({ teams }) => {
      expect([teams.dialog(ANA), teams.notes(ANA)]).toEqual([null, ['Noted']]);
    });
  });

  test('with 501 when it is not ours', () => pressed(notOurs, 'Sign', async () => undefined));

  test('a line is answered with nothing', () =>
    withDoor(
      async ({ teams }) => {
        expect(await teams.say(ANA, teams.chat(ANA), 'x')).toMatchObject({ status: 200, body: {} });
      },
      async () => nothing,
    ));
});

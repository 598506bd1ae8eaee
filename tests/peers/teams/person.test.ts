import type { TurnContext } from 'botbuilder';
import { describe, expect, it } from 'vitest';
import { type Dict, dict } from '../slack/json.ts';
import type { TeamsPeer } from './peer.ts';
import { CARD } from './state.ts';
import { ANA, at, attached, BEN, CREW, call, card, execute, posted, withTurn } from './world.ts';

const FIELD = { type: 'Input.Text', id: 'note', label: 'Note', isRequired: true, errorMessage: 'Note' };
const fields = (title: string, ...actions: Dict[]): Dict => ({ ...card(title, ...actions), body: [FIELD] });
const SEND = { type: 'Action.Submit', title: 'Send' };
const SKIP = { ...SEND, title: 'Skip', data: { skip: true }, associatedInputs: 'none' };
const BACK = {
  ...SEND,
  title: 'Say it',
  data: { msteams: { type: 'messageBack', text: 'said', value: { n: 1 } } },
};
const OPEN = { ...SEND, title: 'Open', data: { msteams: { type: 'task/fetch' } }, associatedInputs: 'none' };
const ASKED = fields('Work', SEND, SKIP, BACK, OPEN, execute('Mine', 'mine'), {
  type: 'Action.OpenUrl',
  title: 'See',
  url: 'https://yard.invalid',
});

/** Answers a press with a card for that person, a dialog with a form, and its form with nothing. */
function turns(heard: Dict[], answer: (name: string) => Dict | undefined) {
  return async (context: TurnContext): Promise<void> => {
    const { type, name = '', value, text } = context.activity;
    heard.push({ type, name, value: dict(value), text });
    if (type !== 'invoke') return;
    await context.sendActivity({ type: 'invokeResponse', value: { status: 200, body: answer(name) } });
  };
}

const FORM = {
  task: {
    type: 'continue',
    value: { title: 'Form', card: { contentType: CARD, content: fields('Form', SEND) } },
  },
};

function usual(name: string): Dict | undefined {
  if (name === 'task/fetch') return FORM;
  return name === 'task/submit' ? undefined : { statusCode: 200, type: CARD, value: card('Yours') };
}

async function withCard(
  test: (
    teams: TeamsPeer,
    where: { conversation: string; activityId: string },
    heard: Dict[],
  ) => Promise<void>,
  answer = usual,
): Promise<void> {
  const heard: Dict[] = [];
  await withTurn(turns(heard, answer), async (teams) => {
    await test(teams, { conversation: CREW, activityId: await posted(teams, CREW, attached(ASKED)) }, heard);
  });
}

describe('a person with a card', () => {
  it('sends what was typed beside the button’s own data, or the data alone', () =>
    withCard(async (teams, where, heard) => {
      await expect(teams.press(ANA, { ...where, title: 'Send' })).rejects.toThrow('required and empty');
      await expect(teams.press(ANA, { ...where, title: 'Send', typed: { no: 'x' } })).rejects.toThrow(
        'no field no',
      );
      await teams.press(ANA, { ...where, title: 'Send', typed: { note: 'dry' } });
      await teams.press(ANA, { ...where, title: 'Skip' });
      await teams.press(ANA, { ...where, title: 'Say it', typed: { note: 'dry' } });
      expect(heard).toMatchObject([
        { type: 'message', value: { note: 'dry' } },
        { type: 'message', value: { skip: true } },
        { type: 'message', text: 'said', value: { n: 1 } },
      ]);
      expect(heard[1]?.value).toEqual({ skip: true });
      await expect(teams.press(ANA, { ...where, title: 'See' })).rejects.toThrow(
        'of which the bot hears nothing',
      );
      await expect(teams.press(ANA, { ...where })).rejects.toThrow('Say which button');
    }));

  it('sees the card for all again when the bot changes it', () =>
    withCard(async (teams, where) => {
      await teams.press(ANA, { ...where, verb: 'mine', typed: { note: 'x' } });
      expect(teams.cardSeen(ANA, where)).toEqual(card('Yours'));
      expect(teams.cardSeen(BEN, where)).toEqual(ASKED);
      await call(teams, 'PUT', `${at(CREW)}/${where.activityId}`, attached(card('For all')));
      expect(teams.cardSeen(ANA, where)).toEqual(card('For all'));
      expect(await teams.looks(ANA, where)).toMatchObject({ status: 'no_refresh' });
    }));

  it('has the dialog closed by an empty answer, or by hand', () =>
    withCard(async (teams, where, heard) => {
      await teams.press(ANA, { ...where, title: 'Open' });
      expect(teams.dialog(ANA)).toMatchObject({ title: 'Form', conversation: CREW });
      expect((await teams.submitDialog(ANA, { note: 'dry' })).problem).toBeUndefined();
      expect(teams.dialog(ANA)).toBeNull();
      expect(heard.at(-1)).toMatchObject({ name: 'task/submit', value: { data: { note: 'dry' } } });
      await teams.press(BEN, { ...where, title: 'Open' });
      teams.closeDialog(BEN);
      expect(() => teams.closeDialog(BEN)).toThrow('has no dialog open');
    }));

  it('is shown that something went wrong, and why is told to the test', () =>
    withCard(
      async (teams, where) => {
        const pressed = await teams.press(ANA, { ...where, verb: 'mine', typed: { note: 'x' } });
        expect(pressed.problem).toContain('statusCode undefined');
        expect((await teams.press(ANA, { ...where, title: 'Open' })).problem).toContain(
          'neither continue nor message',
        );
        expect([teams.cardSeen(ANA, where), teams.dialog(ANA), teams.notes(ANA)]).toEqual([ASKED, null, []]);
      },
      () => ({ odd: true }),
    ));
});

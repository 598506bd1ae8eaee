import type { TurnContext } from 'botbuilder';
import { describe, expect, test } from 'vitest';
import { dialogBody } from '../../adapters/teams/answers.ts';
import { type FormOptions, renderForm } from '../../adapters/teams/render-form.ts';
import { readMetadata } from '../../adapters/teams/render-metadata.ts';
import { readForm } from '../../adapters/teams/render-read.ts';
import { encodeAction } from '../../src/message/action.ts';
import type { Form } from '../../src/message/form.ts';
import { everyField } from '../board/fakes.ts';
import { dict } from '../peers/slack/json.ts';
import type { TeamsPeer } from '../peers/teams/peer.ts';
import { ANA, attached, CREW, card, posted, withTurn } from '../peers/teams/world.ts';
import { shownValues } from '../slack/render-form-check.ts';
import { actionsIn, options } from './render-check.ts';
import { formFaults, sent } from './render-form-check.ts';

const OPEN = { type: 'Action.Submit', title: 'Open', data: { msteams: { type: 'task/fetch' } } };

/** A form shown in a dialog of the loopback Teams. `heard` is what came back from it. */
function withDialog(
  form: Form,
  more: Partial<FormOptions>,
  then: (teams: TeamsPeer, problem: string | undefined, heard: unknown[]) => Promise<void>,
): Promise<void> {
  const heard: unknown[] = [];
  const turn = async (context: TurnContext): Promise<void> => {
    const { name, value } = context.activity;
    const { title, card: content } = renderForm(form, { ...options, ...more });
    if (name === 'task/submit') heard.push(dict(value).data);
    const answer = { status: 200, body: name === 'task/fetch' ? dialogBody(title, content) : null };
    await context.sendActivity({ type: 'invokeResponse', value: answer });
  };
  return withTurn(turn, async (teams) => {
    const activityId = await posted(teams, CREW, attached(card('Work', OPEN)));
    const { problem } = await teams.press(ANA, { conversation: CREW, activityId, title: 'Open' });
    await then(teams, problem, heard);
  });
}

describe('a form in a dialog', () => {
  // From memory: Action.Execute is for cards in messages; a dialog sends with Action.Submit.
  test('sends as the dialogs of the platform do, and comes back as it was shown', () =>
    withDialog(everyField, { dialog: true }, async (teams, problem, heard) => {
      expect(problem).toBeUndefined();
      expect(teams.dialog(ANA)).toMatchObject({ title: everyField.title });
      const typed = { 'field:litres': '12,5', 'field:coating': 'c3' };
      expect(await teams.submitDialog(ANA, typed)).toMatchObject({ status: 200 });
      const data = dict(heard[0]);
      expect(readMetadata(data.form)).toMatchObject({ form: everyField.id });
      expect(readForm(data)).toEqual({ ...shownValues(everyField), litres: '12,5', coating: 'c3' });
    }));

  test('is refused there when it is made for a message', () =>
    withDialog(everyField, {}, async (teams, problem) => {
      expect(problem).toContain('is an Action.Execute, a dialog takes Action.Submit only');
      expect(teams.dialog(ANA)).toBeNull();
    }));

  test('buttons of what it says first, of a refusal and the way back are of the same kind', () => {
    const buttons = [
      { label: 'See why', tone: 'plain', action: { kind: 'show', page: 'why' } },
      { label: 'Log another', tone: 'plain', action: { kind: 'open', form: { id: 'pause', about: {} } } },
    ] as const;
    const blocks = [{ kind: 'buttons', buttons }] as const;
    const { title, card: made } = renderForm(
      { ...everyField, intro: blocks },
      {
        ...options,
        dialog: true,
        refusal: { summary: 'Rig 1 is tagged', tone: 'danger', blocks },
        back: { kind: 'show', page: 'today' },
      },
    );
    expect(formFaults(made, title)).toEqual([]);
    const actions = actionsIn(made);
    expect(actions.map(({ title: label }) => label)).toEqual([
      ...['See why', 'Log another', 'See why', 'Log another'],
      ...['Log the batch', 'Back without sending'],
    ]);
    for (const action of actions) {
      if (action.type !== 'Action.Submit') throw new Error(`"${action.title}" is an ${action.type}`);
      // It would ask for a dialog over the dialog.
      expect(action.data).not.toHaveProperty('msteams');
    }
    expect(actions.at(-1)).toMatchObject({
      associatedInputs: 'none',
      data: { action: encodeAction({ kind: 'show', page: 'today' }) },
    });
    expect(readForm(sent(made))).toEqual(shownValues(everyField));
  });
});

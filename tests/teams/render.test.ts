import { describe, expect, test } from 'vitest';
import { renderMessage } from '../../adapters/teams/render.ts';
import { activityOf, type Card } from '../../adapters/teams/render-card.ts';
import { decodeAction } from '../../src/message/action.ts';
import type { Block, Button } from '../../src/message/message.ts';
import { actionsIn, elementsIn, options, parsedAgain, readCard } from './render-check.ts';
import { button, message, paragraph, render } from './render-helpers.ts';

function oneCard(...blocks: readonly Block[]): Card {
  const [part, ...more] = render(message(blocks));
  if (!part || more.length > 0) throw new Error('this test wants one card');
  return part.card;
}
const lines = (...blocks: readonly Block[]) =>
  readCard(oneCard(...blocks))
    .split('\n')
    .slice(1);
describe('a message', () => {
  test('is a card of version 1.5 alone in its activity, as wide as there is room', () => {
    const [part] = render(message([paragraph('Flush now.')]));
    const activity = activityOf(part ?? never());
    expect(Object.keys(activity).sort()).toEqual(['attachments', 'summary', 'type']);
    expect(activity.attachments).toHaveLength(1);
    expect(part?.card).toMatchObject({ type: 'AdaptiveCard', version: '1.5', msteams: { width: 'Full' } });
  });

  test('says its tone by a word as well as by colour, in the notification first', () => {
    const words = {
      danger: '!! Danger: ',
      attention: '! Attention: ',
      good: 'Noted: ',
      plain: '',
    } as const;
    const styles = { danger: 'attention', attention: 'warning', good: 'good', plain: 'default' } as const;
    for (const tone of ['danger', 'attention', 'good', 'plain'] as const) {
      const [part] = render(message([{ kind: 'note', tone, line: ['Mind it'] }], { tone, summary: 'Now' }));
      expect(part?.summary).toBe(`${words[tone]}Now`);
      expect(readCard(part?.card ?? never())).toBe(`${words[tone]}Now\n${words[tone]}Mind it`);
      expect(part?.card.body).toMatchObject([{ style: styles[tone] }, { style: styles[tone] }]);
    }
  });

  test('does not say its summary twice', () => {
    expect(lines({ kind: 'heading', text: 'Rig 1: start the flush by 09:46' }, paragraph('x'))).toEqual([
      'x',
    ]);
    expect(lines({ kind: 'note', tone: 'good', line: ['Rig 1: start the flush by 09:46'] })).toHaveLength(1);
  });

  test('a countdown prints the wall clock, in the notification as well', () => {
    const given = message([{ kind: 'countdown', label: 'Dead at', to: 0, clock: '10:00', tone: 'danger' }]);
    const [part] = render(given);
    expect(readCard(part?.card ?? never())).toContain('!! Danger: Dead at: 10:00');
    expect(part?.summary).toBe('!! Danger: Rig 1: start the flush by 09:46 · Dead at: 10:00');
  });

  test('lists, facts, checks and a timeline are lines with a word for each state', () => {
    const segment = { kind: 'spray', from: 0, to: 1, name: 'spray', label: 'batch 1', mark: '1' } as const;
    expect(
      lines(
        { kind: 'list', ordered: true, items: [['a'], ['b']] },
        { kind: 'list', ordered: false, items: [['c']] },
        { kind: 'facts', facts: [{ label: 'Tip', value: [{ kind: 'strong', text: '517' }] }] },
        {
          kind: 'checklist',
          items: (['done', 'open', 'next', 'skipped', 'defect'] as const).map((state) => ({
            state,
            line: ['x'],
          })),
        },
        {
          kind: 'timeline',
          label: 'The day',
          listLabel: 'As a list',
          list: 'here',
          from: 0,
          to: 1,
          marks: [],
          lanes: [{ label: 'Rig 1', segments: [{ ...segment, clock: '07:33–07:43' }] }],
        },
      ),
    ).toEqual([
      ...['1. a', '2. b', '• c', 'Tip', '517'],
      ...['[x] Done: x', '[ ] Open: x', '[>] Next: x', '[-] Skipped: x', '[!] Defect: x'],
      ...['The day', 'As a list', 'Rig 1', '• 07:33–07:43 spray: batch 1'],
    ]);
  });

  test('the whole of what is said in short is a card of its own for the thread', () => {
    const parts = render(
      message([
        paragraph('In short.'),
        { kind: 'below', label: 'The whole', blocks: [paragraph('At length.')] },
        { kind: 'buttons', buttons: [button('Go')] },
      ]),
    );
    expect(parts.map(({ thread }) => thread)).toEqual([false, true]);
    expect(parts.map(({ card }) => readCard(card).split('\n').slice(1))).toEqual([
      ['In short.', 'The whole (in the thread of this message)', 'Go'],
      ['The whole', 'At length.'],
    ]);
  });

  test('a divider is a line above what follows; one at the end is none', () => {
    const card = oneCard(paragraph('a'), { kind: 'divider' }, { kind: 'divider' }, paragraph('b'), {
      kind: 'divider',
    });
    expect(card.body.map((one) => one.separator === true)).toEqual([false, false, true]);
  });

  test('has no property that the official parser does not know', () => {
    const card = oneCard(
      { kind: 'heading', text: 'Rig 1' },
      {
        kind: 'paragraph',
        line: ['a ', { kind: 'strong', text: 'b' }, { kind: 'person', id: 'pia', name: 'Pia' }],
      },
      { kind: 'facts', facts: [{ label: 'Tip', value: ['517'] }] },
      { kind: 'note', tone: 'attention', line: ['x'] },
      { kind: 'more', label: 'More on this', blocks: [paragraph('inside')] },
      { kind: 'buttons', buttons: [button('Go', 'main'), button('No', 'danger')] },
    );
    // It keeps fallbacks to itself, and what is of the platform is not of the cards.
    expect(missingIn(card, parsedAgain(card))).toEqual([
      '.body.7.actions.0.fallback',
      '.body.7.actions.1.fallback',
      '.msteams',
    ]);
  });
});

describe('buttons', () => {
  const open: Button = {
    label: 'Log a batch',
    tone: 'main',
    action: { kind: 'open', form: { id: 'mix-batch', about: { rig: 'rig-1' } } },
  };

  const show: Button = { label: 'Today', tone: 'plain', action: { kind: 'show', page: 'today' } };

  test('carry the action and the shift, the same where the newer kind of action is not known', () => {
    const pressed = [button('Start the flush', 'danger'), show];
    const actions = actionsIn(oneCard({ kind: 'buttons', buttons: pressed }));
    expect(actions).toHaveLength(2);
    actions.forEach((action, at) => {
      if (action.type !== 'Action.Execute') throw new Error(action.type);
      expect(action.verb).toBe(['do', 'show'][at]);
      expect(decodeAction(action.data.action ?? '')).toEqual(pressed[at]?.action);
      expect(action.data.of).toBe('shift-mark');
      expect(action.fallback).toMatchObject({
        type: 'Action.Submit',
        title: action.title,
        data: action.data,
      });
    });
    expect(actions.map(({ style }) => style)).toEqual(['destructive', undefined]);
  });

  // Source: learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/task-modules/task-modules-bots
  test('that open a form have the platform ask for a dialog', () => {
    const [action] = actionsIn(oneCard({ kind: 'buttons', buttons: [open] }));
    if (action?.type !== 'Action.Submit') throw new Error(action?.type);
    expect(action).toMatchObject({ title: 'Log a batch', style: 'positive' });
    expect(action.data.msteams).toEqual({ type: 'task/fetch' });
    expect(decodeAction(String(action.data.action))).toEqual(open.action);
    expect(action.data.of).toBe('shift-mark');
  });

  test('in a dialog are of the older kind, and none asks for a second dialog', () => {
    const pressed = [open, show];
    const [part] = renderMessage(message([{ kind: 'buttons', buttons: pressed }]), {
      ...options,
      dialog: true,
    });
    if (part === undefined) throw new Error('no part');
    const actions = actionsIn(part.card);
    expect(actions.map(({ type }) => type)).toEqual(['Action.Submit', 'Action.Submit']);
    expect(JSON.stringify(actions)).not.toContain('msteams');
  });

  const rowsOf = (...labels: readonly string[]) => {
    const card = oneCard({ kind: 'buttons', buttons: labels.map((label) => button(label)) });
    expect(actionsIn(card).map(({ title }) => title)).toEqual(labels);
    return card.body.flatMap((one) => (one.type === 'ActionSet' ? one.actions.length : []));
  };

  test('stand at most six in a row, in their order', () => {
    expect(rowsOf(...'ABCDEFGHIJKLMN')).toEqual([6, 6, 2]);
  });

  test('stand side by side only where a phone shows them whole', () => {
    expect(rowsOf('Take a reading', 'Raise a concern', 'Today', 'Briefing', 'More')).toEqual([2, 3]);
    expect(rowsOf('Something is wrong: raise a concern', 'One question first')).toEqual([1, 1]);
  });

  test('a label that a phone may cut short stands whole above, under its number', () => {
    const long = `Start the flush of rig 1 ${'and mind the pressure '.repeat(3)}`.trim();
    const card = oneCard({ kind: 'buttons', buttons: [button('No'), button(long)] });
    expect(readCard(card)).toContain(`2. ${long}`);
    expect(actionsIn(card)[1]?.title).toMatch(/^2\. Start .{5,26}…$/);
  });

  test('one that carries too much is an error that names it', () => {
    const about = { rig: 'r'.repeat(2000) };
    const action = { kind: 'open', form: { id: 'mix-batch', about } } as const;
    const given = message([{ kind: 'buttons', buttons: [{ label: 'Log', tone: 'plain', action }] }]);
    expect(() => renderMessage(given, options)).toThrow(
      /The button "Log" \(open\) carries 20\d\d characters/,
    );
  });
});

describe('detail one tap away', () => {
  test('is hidden behind a button with its label', () => {
    const card = oneCard({
      kind: 'more',
      label: 'Why',
      blocks: [paragraph('Because'), { kind: 'more', label: 'Deeper', blocks: [paragraph('So')] }],
    });
    const hidden = elementsIn(card.body).filter((one) => one.type === 'Container' && one.isVisible === false);
    expect(hidden).toHaveLength(2);
    expect(actionsIn(card).map(({ title }) => title)).toEqual(['Why', 'Deeper']);
    expect(card.body.slice(1).map(({ type }) => type)).toEqual(['ActionSet', 'Container']);
  });

  test('too long for one fold is in several, each with its button', () => {
    const blocks = Array.from({ length: 200 }, (_, at) => paragraph(`${at} ${'background '.repeat(9)}`));
    const card = oneCard({ kind: 'more', label: 'Why', blocks });
    expect(actionsIn(card).map(({ title }) => title)).toEqual([1, 2, 3].map((at) => `Why (${at} of 3)`));
  });

  test('facts stand side by side; beside a long label a phone has no room, so each has its own line', () => {
    const of = (label: string) => ({ kind: 'facts', facts: [{ label, value: ['09:02 (20 L)'] }] }) as const;
    const kinds = (label: string) => elementsIn(oneCard(of(label)).body).map(({ type }) => type);
    expect(kinds('Mixed')).toContain('FactSet');
    const long = 'Last mix to spray out before the break 10:00';
    expect(kinds(long)).not.toContain('FactSet');
    expect(lines(of(long))).toEqual([`${long}: 09:02 (20 L)`]);
  });

  test('several under one long label keep their numbers on the button, and the label stands whole once', () => {
    const blocks = Array.from({ length: 200 }, (_, at) => paragraph(`${at} ${'background '.repeat(9)}`));
    const label = 'Nine more cautions: mixing, flush twice, wind';
    const card = oneCard({ kind: 'more', label, blocks });
    const titles = actionsIn(card).map(({ title }) => title);
    expect(titles).toEqual([1, 2, 3].map((at) => `Show (${at} of 3)`));
    expect(readCard(card).split(label)).toHaveLength(2);
  });

  test('with nothing behind it there is no button', () => {
    expect(actionsIn(oneCard({ kind: 'more', label: 'Why', blocks: [] }))).toEqual([]);
  });
});

function never(): never {
  throw new Error('no card');
}

/** Paths of what stands in `given` and not in `other`. */
function missingIn(given: unknown, other: unknown, path = ''): readonly string[] {
  if (other === undefined) return [path];
  if (typeof given !== 'object' || given === null) return [];
  const held = new Map(typeof other === 'object' && other !== null ? Object.entries(other) : []);
  return Object.entries(given).flatMap(([key, value]) => missingIn(value, held.get(key), `${path}.${key}`));
}

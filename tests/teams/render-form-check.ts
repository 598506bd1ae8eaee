import { activityOf, type Card, type CardInput } from '../../adapters/teams/render-card.ts';
import { SEND } from '../../adapters/teams/render-form.ts';
import type { Form } from '../../src/message/form.ts';
import { actionsIn, elementsIn, parseFaults, readCard, same } from './render-check.ts';

export const inputsOf = (card: Card): readonly CardInput[] =>
  elementsIn(card.body).flatMap((one) =>
    one.type === 'Input.Text' ||
    one.type === 'Input.Date' ||
    one.type === 'Input.Time' ||
    one.type === 'Input.ChoiceSet'
      ? [one]
      : [],
  );

/** What the platform sends for a card, with what a person changed by field name. Empty inputs are left out. */
export function sent(card: Card, changed: Readonly<Record<string, string>> = {}): Record<string, unknown> {
  const send = actionsIn(card).find((one) =>
    one.type === 'Action.Execute' ? one.verb === SEND : one.type === 'Action.Submit' && 'form' in one.data,
  );
  if (send === undefined || send.type === 'Action.ToggleVisibility')
    throw new Error('nothing sends this card');
  const typed = inputsOf(card).map(({ id, value = '' }) => [id, changed[id.replace(/^field:/, '')] ?? value]);
  return { ...send.data, ...Object.fromEntries(typed.filter(([, value]) => value !== '')) };
}

/** What the platform would refuse in a form's card, or hold back without a word. */
export function formFaults(card: Card, title: string): readonly string[] {
  const ids = inputsOf(card).map(({ id }) => id);
  const hidden = elementsIn(card.body).flatMap((one) =>
    one.type === 'Container' && one.isVisible === false ? elementsIn(one.items) : [],
  );
  return [
    ...parseFaults(card),
    ...(JSON.stringify(activityOf({ summary: title, card })).length * 2 > 81_920 ? ['too large'] : []),
    ...(new Set(ids).size < ids.length ? ['ids'] : []),
    ...hidden.flatMap((one) =>
      'isRequired' in one && one.isRequired ? [`hidden and required: ${one.id}`] : [],
    ),
    ...inputsOf(card).flatMap((one) => {
      if (one.type !== 'Input.ChoiceSet') return [];
      const values = one.choices.map(({ value }) => value);
      const apart = new Set(values).size === values.length && values.every((value) => !value.includes(','));
      return apart ? [] : [`values of ${one.id}`];
    }),
  ];
}

/** Labels, hints, units and options of a form that are on none of its cards. */
export function lostOnCards(form: Form, cards: readonly Card[]): readonly string[] {
  const shown = same(cards.map(readCard).join('\n'));
  const words = form.fields.flatMap((field) => [
    field.label,
    ...(field.kind !== 'group' && field.hint !== undefined ? [field.hint] : []),
    ...(field.kind === 'number' ? [field.unit] : []),
    ...(field.kind === 'choice' || field.kind === 'choices' ? field.options.map(({ label }) => label) : []),
  ]);
  return [form.title, ...words].filter((text) => !shown.includes(same(text)));
}

import { needsToSign } from '../briefing/build.ts';
import { nameOf, namesOf } from '../flow/decision.ts';
import { buttons, message, paragraph } from '../message/build.ts';
import type { PersonId } from '../model/id.ts';
import { injectionFooter } from './cautions.ts';
import type { View } from './context.ts';
import { type Panel, panel } from './panel.ts';
import { answeredNotes, concernInstead, nextPress, signOffMessage, titles } from './sign-off.ts';
import { uncheckedBlocks } from './unchecked.ts';

/**
 * SO4: the sheet of a foreman who reads to people and signs for them as a witness. What all of them need stands once, on
 * top; under each name what this person needs besides, and the press. Of every one each caution is named.
 */
export function witnessPanels(view: View, people: readonly PersonId[]): readonly Panel[] {
  const { shift, texts } = view;
  const titleOf = (id: PersonId) => texts.say('sign.witness', { person: nameOf(shift, id) });
  const needs = people.map((id) => needsToSign(shift.briefing, shift.people[id]?.signed ?? {}));
  const [first = []] = needs;
  const shared = first.filter((caution) => needs.every((needed) => needed.includes(caution)));
  if (people.length < 2 || shared.length === 0 || shift.issuedAt === null)
    return people.map((id) => panel(`witness-${id}`, titleOf(id), signOffMessage(view, id, true)));
  const all = texts.say('sign.witness-all', { people: namesOf(shift, people) });
  return [
    panel(
      'witness-all',
      all,
      message(
        all,
        'attention',
        ...uncheckedBlocks(view),
        titles(view, shared),
        injectionFooter(view),
        ...buttons(concernInstead(view)),
      ),
    ),
    ...people.map((id, index) => {
      const own = (needs[index] ?? []).filter((caution) => !shared.includes(caution));
      const ask = texts.say('sign.ask', { person: nameOf(shift, id) });
      return panel(
        `witness-${id}`,
        titleOf(id),
        message(
          ask,
          'attention',
          ...(own.length === 0
            ? []
            : [
                paragraph(texts.say('sign.witness-besides', { person: nameOf(shift, id) })),
                titles(view, own),
              ]),
          ...answeredNotes(view, id),
          ...buttons(nextPress(view, id, true)),
        ),
      );
    }),
  ];
}

import { heading, list, message } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import type { Actor } from '../model/actor.ts';
import type { Day } from '../model/day.ts';
import type { Texts } from '../texts/texts.ts';
import type { View } from './context.ts';
import { dayDifference, packDifference } from './day-difference.ts';
import { actorName } from './stop.ts';

/** Every difference between two versions of a day, what was typed first, then what came with the site pack. */
export function dayChanges(texts: Texts, before: Day, after: Day): readonly string[] {
  const names = {
    coatings: { ...before.coatings, ...after.coatings },
    rigs: { ...before.rigs, ...after.rigs },
    people: { ...before.people, ...after.people },
  };
  return [
    ...dayDifference({ texts, names }, before.entry, after.entry),
    ...packDifference(texts, before, after),
  ];
}

/** Said when the day is changed after its briefing: what is different, in words. */
export function dayChangedMessage(view: View, before: Day, after: Day, by: Actor): Message {
  const { texts } = view;
  const changes = dayChanges(texts, before, after);
  const person = actorName(view, by);
  return message(
    texts.say('change.summary', { person, changes: changes.join('; ') }),
    'attention',
    heading(texts.say('change.title', { person })),
    list(changes),
  );
}

import { facts, heading, list, message, note } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import type { Emergency, Person } from '../model/site.ts';
import type { Texts } from '../texts/texts.ts';

/** First response, in order. Works without a shift: an injury does not wait for the day entry. */
export function emergencyMessage(
  emergency: Emergency,
  people: readonly Person[],
  pressures: string,
  texts: Texts,
  onShift: (person: string) => boolean,
): Message {
  const { call, address, hospital, assembly, eyewash } = emergency;
  const name = people.find(({ id }) => id === emergency.firstAider)?.name ?? emergency.firstAider;
  const firstAider = onShift(emergency.firstAider)
    ? name
    : texts.say('emergency.off-shift', { person: name });
  return message(
    texts.say('emergency.summary', { call, address }),
    'danger',
    facts([texts.say('emergency.call'), call], [texts.say('emergency.address'), address]),
    heading(texts.say('emergency.injection')),
    list(
      [
        texts.say('emergency.injection-1'),
        texts.say('emergency.injection-2', { call, hospital }),
        texts.say('emergency.injection-3'),
        texts.say('emergency.injection-4'),
        texts.say('emergency.injection-5'),
        texts.say('emergency.injection-6'),
      ],
      true,
    ),
    ...(pressures === '' ? [] : [note('attention', texts.say('emergency.pressure', { list: pressures }))]),
    facts(
      [texts.say('emergency.hospital'), hospital],
      [texts.say('emergency.first-aider'), firstAider],
      [texts.say('emergency.assembly'), assembly],
      [texts.say('emergency.eyewash'), eyewash],
    ),
    heading(texts.say('emergency.eyes')),
    list([texts.say('emergency.eyes-1', { eyewash }), texts.say('emergency.eyes-2', { call })], true),
    heading(texts.say('emergency.collapse')),
    list([texts.say('emergency.collapse-1'), texts.say('emergency.collapse-2', { call })], true),
    heading(texts.say('emergency.breath')),
    list([texts.say('emergency.breath-1')]),
    heading(texts.say('emergency.fire')),
    list([texts.say('emergency.fire-1', { assembly, call }), texts.say('emergency.fire-2')], true),
    note('plain', texts.say('emergency.doctors')),
  );
}

import type { Because } from '../briefing/because.ts';
import { rulesFor } from '../briefing/own-rules.ts';
import { heading, list, paragraph } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { Texts } from '../texts/texts.ts';
import type { View } from './context.ts';

/** Which written facts put each caution into the briefing, and which cautions the day gave no cause for. */
export function whyCautions({ shift, texts }: View): readonly Block[] {
  const { cautions } = shift.briefing;
  const here = new Set(cautions.map(({ id }) => id));
  const absent = rulesFor(shift.day)
    .filter(({ id }) => !here.has(id))
    .map(({ id }) => texts.caution(id).title);
  return [
    ...cautions.flatMap(({ id, because }) => [
      heading(texts.caution(id).title),
      list(because.map((fact) => becauseText(texts, fact))),
    ]),
    ...(absent.length > 0 ? [paragraph(texts.say('because.absent', { titles: absent.join(', ') }))] : []),
  ];
}

/** "coating Epoxy grey: hazards: H226, H317". Field names stand as in the files, in every language. */
function becauseText(texts: Texts, { from, of, field, value }: Because): string {
  const place =
    from === 'day' || from === 'site'
      ? texts.say(`because.from.${from}`)
      : texts.say(`because.from.${from}`, { of });
  return value === null
    ? texts.say('because.not-given', { place, field })
    : texts.say('because.fact', { place, field, value });
}

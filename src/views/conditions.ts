import { tenth, tenthDown, tenthUp } from '../facts/round.ts';
import { climateOf, nextReadingDue } from '../flow/holds.ts';
import { buttons, facts, message, note } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import { dewPointC } from '../trade/climate.ts';
import { at, type View } from './context.ts';
import { heatFacts, heatNotes } from './heat.ts';
import { holdText } from './holds.ts';
import { closingOf, trendWords } from './trend.ts';

/** The last reading with dew point and margin, where they are heading, and what the air is to people. */
export function conditionsMessage(view: View): Message {
  const { shift, texts } = view;
  const reading = shift.readings.at(-1);
  const press = buttons({
    label: texts.say('today.press-reading'),
    tone: 'main',
    action: { kind: 'open', form: { id: 'take-reading', about: {} } },
  });
  if (!reading) {
    const none = texts.say('reading.none');
    return message(none, 'attention', note('attention', none), ...press);
  }
  const dew = dewPointC(reading.airC, reading.rhPct);
  // The margin is shown rounded down: 2.96 °C must not read as the 3 °C that is asked for.
  const margin = tenthDown(reading.steelC - dew);
  const figures = {
    time: at(view, reading.at),
    air: reading.airC,
    rh: reading.rhPct,
    steel: reading.steelC,
    dew: tenthUp(dew),
    margin,
  };
  const coatings = [...new Set(shift.day.entry.jobs.map((job) => job.coating))];
  const missed = coatings.flatMap((coating) =>
    climateOf(shift.day, reading, coating).failures.map(({ limit, value, allowed }) =>
      holdText(view, { kind: 'climate', coating, limit, value, allowed }),
    ),
  );
  const closing = closingOf(view, reading);
  const trend = trendWords(view, reading);
  const next = at(view, nextReadingDue(shift, reading));
  const summary = texts.say('reading.summary', figures);
  const degrees = (c: number) => texts.say('reading.degrees', { c: tenth(c) });
  return message(
    [summary, ...missed, ...(closing === null ? [] : [closing])].join(' '),
    missed.length > 0 || closing !== null ? 'attention' : 'plain',
    ...missed.map((text) => note('danger', text)),
    facts(
      [texts.say('reading.air'), degrees(reading.airC)],
      [texts.say('reading.rh'), texts.say('reading.percent', { p: reading.rhPct })],
      [texts.say('reading.steel'), degrees(reading.steelC)],
      [texts.say('reading.dew'), degrees(tenthUp(dew))],
      [texts.say('reading.margin'), texts.say('reading.difference', { d: margin })],
      ...(trend === null ? [] : [[texts.say('reading.trend'), trend] as const]),
      ...heatFacts(view, reading),
      ...(reading.place ? [[texts.say('reading.place'), reading.place] as const] : []),
      [texts.say('reading.next'), next],
    ),
    ...(closing === null ? [] : [note('attention', texts.say('reading.closing-do', { closing, next }))]),
    ...heatNotes(view, reading),
    note('plain', texts.say('reading.decide')),
    ...press,
    ...buttons({ label: texts.say('why.press'), tone: 'plain', action: { kind: 'show', page: 'why' } }),
    ...buttons({
      label: texts.say('today.press-void-reading'),
      tone: 'plain',
      action: { kind: 'open', form: { id: 'void-reading', about: { at: String(reading.at) } } },
    }),
  );
}

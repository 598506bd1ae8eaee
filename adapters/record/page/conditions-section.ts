import { html } from 'hono/html';
import { holdText } from '../../../src/views/holds.ts';
import type { ReadingSummary } from '../summary/readings.ts';
import { clock, type Page } from './context.ts';
import { type Html, lines, named, type Row, section, table, tight, under, wide } from './markup.ts';

/** Every reading with dew point, margin and each limit it missed. */
export function conditionsSection(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(texts.say('paper.journal.time')),
    named(texts.say('paper.journal.who')),
    tight(texts.say('reading.air')),
    tight(texts.say('reading.rh')),
    tight(texts.say('reading.steel')),
    tight(texts.say('reading.dew')),
    tight(texts.say('reading.margin')),
    wide(texts.say('paper.conditions.limits')),
  ];
  const degrees = (c: number) => texts.say('reading.degrees', { c });
  const rows = summary.readings.map(
    (reading): Row => ({
      tone: reading.missed.length > 0 ? 'alarm' : 'plain',
      cells: [
        clock(page, reading.at),
        [reading.by.name, ...(reading.place ? [under(reading.place)] : [])],
        degrees(reading.airC),
        [
          texts.say('reading.percent', { p: reading.rhPct }),
          ...(reading.wetC === null
            ? []
            : [under(texts.say('paper.conditions.wet-bulb', { c: reading.wetC }))]),
        ],
        degrees(reading.steelC),
        degrees(reading.dewPointC),
        // Rounded down: 2.96 must not read as the 3 that is asked for.
        texts.say('reading.difference', { d: Math.floor(reading.marginC * 10) / 10 }),
        reading.withdrawn
          ? texts.say('paper.conditions.withdrawn', {
              person: reading.withdrawn.by.name,
              reason: reading.withdrawn.text,
            })
          : reading.missed.length === 0
            ? texts.say('paper.conditions.none-missed')
            : missed(page, reading),
      ],
    }),
  );
  const decide = html`<p class="empty">${texts.say('reading.decide')}</p>`;
  return section(
    'conditions',
    texts.say('reading.title'),
    table(heads, rows, texts.say('paper.page.none')),
    decide,
  );
}

function missed({ view }: Page, reading: ReadingSummary): readonly Html[] {
  return lines(
    reading.missed.map(({ coating, limit, value, allowed }) =>
      holdText(view, { kind: 'climate', coating: coating.id, limit, value, allowed }),
    ),
  );
}

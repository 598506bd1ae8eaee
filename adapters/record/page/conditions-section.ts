import { html } from 'hono/html';
import { oneDecimal } from '../../../src/views/context.ts';
import { holdText } from '../../../src/views/holds.ts';
import { label } from '../labels.ts';
import type { ReadingSummary } from '../summary/readings.ts';
import { clock, type Page } from './context.ts';
import { type Html, lines, named, type Row, section, table, tight, under, wide } from './markup.ts';

/** Every reading with dew point, margin and each limit it missed. */
export function conditionsSection(page: Page): Html {
  const { summary, texts } = page;
  const heads = [
    tight(label('journal.time')),
    named(label('journal.who')),
    tight(texts.say('reading.air')),
    tight(texts.say('reading.rh')),
    tight(texts.say('reading.steel')),
    tight(texts.say('reading.dew')),
    tight(texts.say('reading.margin')),
    wide(label('conditions.limits')),
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
          ...(reading.wetC === null ? [] : [under(label('conditions.wet-bulb', { c: reading.wetC }))]),
        ],
        degrees(reading.steelC),
        degrees(oneDecimal(reading.dewPointC)),
        // Rounded down: 2.96 must not read as the 3 that is asked for.
        degrees(Math.floor(reading.marginC * 10) / 10),
        reading.withdrawn
          ? label('conditions.withdrawn', {
              person: reading.withdrawn.by.name,
              reason: reading.withdrawn.text,
            })
          : reading.missed.length === 0
            ? label('conditions.none-missed')
            : missed(page, reading),
      ],
    }),
  );
  const decide = html`<p class="empty">${texts.say('reading.decide')}</p>`;
  return section('conditions', texts.say('reading.title'), table(heads, rows, label('page.none')), decide);
}

function missed({ view }: Page, reading: ReadingSummary): readonly Html[] {
  return lines(
    reading.missed.map(({ coating, limit, value, allowed }) =>
      holdText(view, { kind: 'climate', coating: coating.id, limit, value, allowed }),
    ),
  );
}

import { beforeAll, describe, expect, test } from 'vitest';
import { eventText } from '../../adapters/record/event-text.ts';
import type { RecordInput } from '../../adapters/record/record-input.ts';
import { recordPage } from '../../adapters/record/record-page.ts';
import { walkJournal } from '../../adapters/record/walk.ts';
import { demoPack, textsFor } from './crew-day.ts';
import { DATE, wholeDay } from './whole-day.ts';

const CLOSING =
  'Potbell reminds and records. The foreman, the permit, the data sheets, local law and licensed people decide.';

let input: RecordInput;
let page: string;

beforeAll(async () => {
  input = await (await wholeDay()).record();
  page = recordPage(input);
}, 30_000);

/** What a reader sees of a part of the page. */
function words(html: string): string {
  return html
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ');
}

const part = (id: string, html = page) =>
  words(new RegExp(`<section id="${id}".*?</section>`, 's').exec(html)?.[0] ?? '');

describe('the page to print', () => {
  test('has every part, in the order of the day', () => {
    const ids = [...page.matchAll(/<section id="([a-z-]+)"/g)].map(([, id]) => id);
    expect(ids).toEqual([
      'glance',
      'day',
      'briefing',
      'sign-offs',
      'concerns',
      'rigs',
      'conditions',
      'batches',
      'temperatures',
      'bells',
      'flushes',
      'open',
      'undelivered',
      'journal',
      'seal',
      'signatures',
    ]);
  });

  test('begins with site, date and revision, also as its title and at the head of each printed page', () => {
    const title = `Shift record ${DATE} · Gannet Footbridge repaint · Briefing revision 2`;
    expect(page).toContain(`<title>${title}</title>`);
    const head = /@top-left \{ content: "([^"]*)"/.exec(page)?.[1] ?? '';
    const plain = head.replace(/\\([0-9a-f]{1,6}) /g, (_, code: string) =>
      String.fromCodePoint(Number.parseInt(code, 16)),
    );
    expect(plain).toBe(title);
    expect(words(page)).toContain('Europe/Lisbon (UTC+01:00)');
  });

  test('ends with the seal, lines to sign, and who decides', () => {
    expect(part('seal')).toContain(input.journal.at(-1)?.hash);
    expect(part('signatures')).toMatch(/Ines foreman.*Clara safety contact/);
    expect(words(page).trim().endsWith(CLOSING)).toBe(true);
  });

  test('says every line of the journal in words, whatever its type', () => {
    const texts = textsFor('en');
    const walk = walkJournal(
      input.shift.id,
      input.journal.map(({ event }) => event),
    );
    const rows = [
      ...(/<section id="journal".*?<\/section>/s.exec(page)?.[0] ?? '').matchAll(
        /<tr class="plain">(.*?)<\/tr>/gs,
      ),
    ];
    expect(rows).toHaveLength(walk.lines.length);
    for (const [index, told] of walk.lines.entries())
      expect(words(rows[index]?.[1] ?? ''), told.body.type).toContain(
        eventText(told, texts).replace(/\s+/g, ' '),
      );
  });

  test('names jobs, cautions with the reason, and what the second revision changed', () => {
    expect(part('day')).toMatch(
      /Span 2, girders and bracing.*150 µm dry 193 µm wet.*up to 248 bar.*Duarte, Marta.*Bento/,
    );
    expect(part('day')).toMatch(/From the shift of 2026-06-05.*6 L Cleaner E/);
    expect(part('day')).toMatch(/07:26 Ines Job 1: Air pressure at the pump 5 bar 5\.5 bar/);
    expect(part('briefing')).toMatch(/Revision 1, given out 07:00.*STOP.*can reach 225 bar today/);
    expect(part('briefing')).toMatch(/Revision 2, given out 07:26.*can reach 248 bar today/);
  });

  test('says who signed, how, and that a read-back was wrong first', () => {
    expect(part('sign-offs')).toMatch(/Bento mixer 1 07:03 self, at board wrong: .* right: /);
    expect(part('sign-offs')).toMatch(/Nuno helper 1 07:08 witnessed by Ines, at board/);
    expect(part('sign-offs')).toMatch(/Tomas standby · arrived 07:20/);
  });

  test('shows stops, tags, limits missed, holds, late bells and skipped steps in plain sight', () => {
    expect(part('concerns')).toMatch(
      /STOP WORK 09:31 somebody who gave no name Somebody under the scaffold 09:37 Ines: Barrier closed/,
    );
    expect(part('rigs')).toMatch(/DEFECT: Earth lead.*Clamp broken/);
    expect(part('rigs')).toMatch(/hairline crack at the swivel STILL TAGGED OUT/);
    expect(part('conditions')).toMatch(/11:41.*86\.2 %.*2\.8 °C.*At least 3 °C is needed/);
    expect(part('batches')).toMatch(/rig-2-2.*MIXED UNDER A HOLD: weather outside the limits/);
    expect(part('batches')).toMatch(
      /rig-1-2 line Rig 1 \(large pump\) 09:33 09:33 09:46 09:42 first flush 4 min before dead/,
    );
    expect(part('bells')).toMatch(/LATE 3 min 33 s \(due 09:57:27\) 10:01 Rui/);
    expect(part('batches')).toMatch(
      /rig-2-4.*TAKEN BACK 14:08 by Ines, never in this rig: Livia and Rui both logged it/,
    );
    expect(part('glance')).toMatch(/5; taken back: 1/);
    expect(part('flushes')).toMatch(
      /GIVEN UP 14:08 by Duarte before the pressure was relieved: Meant the small pump/,
    );
    expect(part('flushes')).toMatch(
      /First flush .* confirmed less than 1 min after the step before; this pump needs about \d+ min for it/,
    );
    expect(part('flushes')).toMatch(
      /1 LEFT OUT.*11 Clean the filters of gun and pump 10:09 Duarte LEFT OUT: New filters go in tomorrow/,
    );
    expect(part('open')).toMatch(
      /tagged out.*Reason: Rig 1 waits for a new gun.*Goes to the next briefing.*gun: hairline crack/,
    );
    expect(part('undelivered')).toMatch(/Clara phone .*the phone is switched off/);
    expect(part('glance')).toMatch(
      /9 of 9 signed.*outside a limit: 1.*late, worst \d+ min.*steps left out: 1/,
    );
  });

  test('stands alone: no script, nothing fetched, nothing to send', () => {
    expect(page).not.toMatch(/<(script|link|img|iframe|object|embed|form|base|a)\b/i);
    expect(page).not.toMatch(/\s(src|href|action|on\w+|style)=/i);
    expect(page).not.toMatch(/url\(|@import|https?:/i);
    expect(page).toContain(
      `content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"`.replaceAll(
        "'",
        '&#39;',
      ),
    );
  });

  test('repeats the head of a table on each page and splits no row', () => {
    expect(page).toMatch(/thead \{ display: table-header-group; \}/);
    expect(page).toMatch(/tr \{ break-inside: avoid; \}/);
    const tables = [...page.matchAll(/<table[^>]*>(<thead>)?/g)];
    expect(tables.every(([, head]) => head === '<thead>')).toBe(true);
  });
});

describe('hostile names and words', () => {
  const evil = `</style></title><script>alert(1)</script><img src=x onerror=alert(2)>"'&`;

  test('are shown as they were written and do nothing', async () => {
    const { pack } = demoPack();
    const name = evil.slice(0, 58);
    const hostile = await wholeDay({
      pack: {
        ...pack,
        site: { ...pack.site, name: evil },
        people: pack.people.map((person) => (person.id === 'marta' ? { ...person, name } : person)),
        rigs: pack.rigs.map((rig) => ({ ...rig, name: `<b>${rig.id}</b>` })),
      },
      said: () => evil,
    });
    const record = await hostile.record();
    const html = recordPage(record);
    const tags = new Set([...html.matchAll(/<\/?([a-z][a-z0-9]*)/gi)].map(([, tag]) => tag?.toLowerCase()));
    expect([...tags].filter((tag) => ['script', 'img'].includes(tag ?? ''))).toEqual([]);
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    expect(html.match(/<\/title>/g)).toHaveLength(1);
    expect(html.match(/<b>/g)?.length).toBe(page.match(/<b>/g)?.length);
    for (const id of ['day', 'concerns', 'rigs', 'temperatures', 'flushes', 'open', 'journal'])
      expect(part(id, html), id).toContain(evil);
    expect(part('sign-offs', html)).toContain(name);
  });
});

describe('a record with something wrong', () => {
  test('a journal that does not hold is said loudly', () => {
    const broken = input.journal.map((line, index) =>
      index === 20 ? { ...line, hash: 'f'.repeat(64) } : line,
    );
    const html = recordPage({ ...input, journal: broken });
    expect(part('seal', html)).toMatch(/THE JOURNAL DOES NOT HOLD AT LINE 21.*Do not rely on this record/);
    expect(part('seal')).not.toMatch(/DOES NOT HOLD/);
  });

  test('words that are in no language file any more do not keep it from printing', () => {
    const html = recordPage({
      ...input,
      textsFor: (language) => ({
        ...textsFor(language),
        caution: (id) => {
          if (id === 'injection') throw new Error('no such caution');
          return textsFor(language).caution(id);
        },
      }),
    });
    expect(part('briefing', html)).toMatch(
      /STOP injection \(the words of this caution are in no language file any more\).*225/,
    );
  });

  test('an empty journal and one with a hole are refused with the reason', () => {
    expect(() => recordPage({ ...input, journal: [] })).toThrow(
      /journal of shift "gannet-footbridge:2026-06-08" is empty/,
    );
    expect(() => recordPage({ ...input, journal: input.journal.toSpliced(7, 1) })).toThrow(
      /cannot be replayed at line 9/,
    );
  });
});

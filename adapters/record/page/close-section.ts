import { html } from 'hono/html';
import { foremen, nameOf, safetyContacts } from '../../../src/flow/decision.ts';
import type { FlushStep } from '../../../src/model/checks.ts';
import { stepName } from '../../../src/views/flush.ts';
import { carryLines } from './carry.ts';
import { clock, type Page } from './context.ts';
import { alarm, type Html, list, name, named, type Row, section, table, under } from './markup.ts';

/** What is open at the end, the reason given, and what the next briefing will be told. */
export function closeSection(page: Page): Html {
  const { summary, texts } = page;
  const open = summary.open.map((one) => alarm(openText(page, one)));
  const carries = carryLines(page, summary.carriesOver);
  return section(
    'open',
    texts.say('paper.close.title'),
    open.length === 0 ? html`<p>${texts.say('paper.close.nothing')}</p>` : html`${list(open)}`,
    html`<p>${howClosed(page)}</p>`,
    carries.length === 0 ? '' : html`<h3>${texts.say('paper.close.carries')}</h3>${list(carries)}`,
  );
}

function openText({ texts, view }: Page, one: Page['summary']['open'][number]): string {
  if (one.what !== 'open.step') return texts.say(one.what, { name: one.name });
  const step = stepName(view, one.rig ?? '', one.step as FlushStep);
  return texts.say('open.step', { name: one.name, step, reason: one.reason ?? '' });
}

function howClosed(page: Page): Html | string {
  const { texts, summary } = page;
  const { closed } = summary;
  if (!closed) return alarm(texts.say('record.still-open'));
  const time = clock(page, closed.at);
  if (!closed.by) return alarm(texts.say('paper.close.handed-over', { time, to: closed.handedTo ?? '' }));
  const reason = closed.reason ? ` ${texts.say('close.reason', { reason: closed.reason })}` : '';
  return `${texts.say('paper.close.closed-by', { time, person: closed.by.name })}.${reason}`;
}

/** Messages that reached nobody; the same one again is counted, not repeated. */
export function undeliveredSection(page: Page): Html {
  const { summary, shift, texts } = page;
  const heads = [
    named(texts.say('paper.journal.time')),
    named(texts.say('paper.undelivered.to')),
    named(texts.say('paper.undelivered.surface')),
    texts.say('paper.undelivered.message'),
    texts.say('paper.undelivered.why'),
  ];
  const groups = new Map<string, Undelivered[]>();
  for (const one of summary.undelivered) {
    const key = JSON.stringify([one.to, one.surface, one.message, one.why]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const rows = [...groups.values()].flatMap((group): readonly Row[] => {
    const [first] = group;
    const last = group.at(-1);
    if (!first || !last) return [];
    const from = clock(page, first.at);
    const to = clock(page, last.at);
    const times = from === to ? from : `${from}–${to}`;
    return [
      {
        tone: 'alarm',
        cells: [
          group.length === 1 ? times : texts.say('paper.undelivered.times', { times, count: group.length }),
          first.to === 'crew' ? texts.say('paper.undelivered.crew') : nameOf(shift, first.to),
          first.surface,
          shownText(page, first),
          first.why,
        ],
      },
    ];
  });
  return section(
    'undelivered',
    texts.say('paper.undelivered.title'),
    table(heads, rows, texts.say('paper.page.none')),
  );
}

type Undelivered = Page['summary']['undelivered'][number];

/** The first line of the message without its mark, where it is among those kept; else its key. */
function shownText({ record }: Page, { message, to, surface }: Undelivered): string {
  const found = record.shown.find(
    ({ key, person, surface: where }) =>
      key === message && where === surface && (person?.id ?? 'crew') === to,
  );
  return found?.text.split('\n')[0]?.replace(/^!+ /, '') ?? message;
}

/** Lines to sign on paper, for the foremen and the safety contacts of the shift. */
export function signaturesSection({ shift, texts }: Page): Html {
  const lines = [
    ...foremen(shift).map((id) => ({ id, role: texts.say('word.role.foreman') })),
    ...safetyContacts(shift).map((id) => ({ id, role: texts.say('word.role.safety') })),
  ];
  const rows = lines.map(({ id, role }) => ({ cells: [[name(nameOf(shift, id)), under(role)], '', ''] }));
  const heads = [
    texts.say('paper.signatures.name'),
    texts.say('paper.signatures.signature'),
    texts.say('paper.signatures.date'),
  ];
  return section(
    'signatures',
    texts.say('paper.signatures.title'),
    table(heads, rows, texts.say('paper.page.none'), 'sign'),
  );
}

import { html } from 'hono/html';
import type { BellKind } from '../../../src/flow/bells/wanted.ts';
import type { BellSummary, RingSummary } from '../summary/bells.ts';
import type { Summary } from '../summary/summary.ts';
import { clock, clockSeconds, type Page } from './context.ts';
import { alarm, type Html, named, type Row, section, table, tight, under, wide } from './markup.ts';

/** Each bell with all its rings, how late each came, and who answered. A bell whose cause ended needs no answer. */
export function bellsSection(page: Page): Html {
  const { texts } = page;
  const heads = [
    wide(texts.say('paper.bells.bell')),
    tight(texts.say('paper.bells.due')),
    texts.say('paper.bells.rings'),
    named(texts.say('paper.bells.answered')),
  ];
  const rows = page.summary.bells.map((bell) => bellRow(page, bell));
  const late = html`<p class="lead">${lateText(page)}</p>`;
  return section(
    'bells',
    texts.say('paper.bells.title'),
    late,
    table(heads, rows, texts.say('paper.page.none')),
  );
}

/** "14. 2 late, worst 3 min" */
export function lateText({ summary, texts }: Page): string {
  const { rings, late, worstSeconds } = lateness(summary);
  return `${rings}. ${texts.say('record.late', { count: late, minutes: Math.round(worstSeconds / 60) })}`;
}

export function lateness({ bells }: Summary): {
  readonly rings: number;
  readonly late: number;
  readonly worstSeconds: number;
} {
  const rings = bells.flatMap((bell) => bell.rings);
  return {
    rings: rings.length,
    late: rings.filter(({ late }) => late).length,
    worstSeconds: Math.max(0, ...rings.map(({ lateSeconds }) => lateSeconds)),
  };
}

function bellRow(page: Page, bell: BellSummary): Row {
  const { texts } = page;
  const about = [bell.rig?.name, bell.person?.name].filter((part) => part !== undefined).join(', ');
  const rings = bell.rings.map((ring) => html`<span class="ring">${ringWords(page, ring)}</span> `);
  return {
    tone: bell.rings.some(({ late }) => late) ? 'alarm' : 'plain',
    cells: [
      [texts.say(`next.${bell.kind as BellKind}`), ...(about ? [under(about)] : [])],
      clockSeconds(page, bell.dueAt),
      rings,
      bell.answered ? `${clock(page, bell.answered.at)} ${bell.answered.by.name}` : '–',
    ],
  };
}

function ringWords(page: Page, ring: RingSummary): string | Html {
  const { texts } = page;
  const level = texts.say(`word.level.${ring.level}`);
  const time = clockSeconds(page, ring.rangAt);
  const seconds = Math.round(ring.lateSeconds);
  if (!ring.late) return texts.say('paper.bells.ring', { time, level, seconds });
  const behind = {
    minutes: Math.floor(seconds / 60),
    seconds: seconds % 60,
    due: clockSeconds(page, ring.scheduledFor),
  };
  const missed = ring.missedRings > 0 ? texts.say('paper.bells.missed', { count: ring.missedRings }) : '';
  return alarm(`${texts.say('paper.bells.late-ring', { time, level, ...behind })}${missed}`);
}

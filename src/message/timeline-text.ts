import type { Block, Lane, Segment, SegmentKind } from './message.ts';

type Timeline = Extract<Block, { kind: 'timeline' }>;

const signs: Readonly<Record<SegmentKind, string>> = {
  mix: 'm',
  stand: '.',
  spray: '=',
  break: 'b',
  flush: 'f',
  hold: '/',
};

/** In a picture of a lane mixing has a row of its own, because it goes on while the gun is busy. */
export const rowOf: Readonly<Record<SegmentKind, 'pot' | 'gun'>> = {
  mix: 'pot',
  stand: 'pot',
  spray: 'gun',
  break: 'gun',
  flush: 'gun',
  hold: 'gun',
};

/** No wider than a terminal or a phone message shows without a break. */
const MOST_COLUMNS = 60;
const MINUTES_A_COLUMN = [5, 10, 15, 20, 30, 60] as const;
const MINUTE = 60_000;

/** A bar of characters for each lane, what they mean, and everything once more as a list, unless words beside it say it. */
export function timelineLines(block: Timeline): readonly string[] {
  const minutes = (block.to - block.from) / MINUTE;
  const step = (MINUTES_A_COLUMN.find((one) => minutes / one <= MOST_COLUMNS) ?? 120) * MINUTE;
  const columns = Math.max(1, Math.ceil((block.to - block.from) / step));
  const ruler = rulerOf(block, step, columns);
  return [
    `${block.label}:`,
    ...block.lanes.flatMap((lane) => [
      lane.label,
      `  ${ruler}`,
      ...bars(block, lane, step, columns).map((bar) => `  ${bar}`),
    ]),
    `  ${legend(block.lanes).join('   ')}`,
    ...(block.list === 'beside' ? [] : block.lanes).flatMap((lane) => [
      `${block.lanes.length > 1 ? lane.label : block.listLabel}:`,
      ...lane.segments.map((segment) => `- ${segmentText(segment)}`),
    ]),
  ];
}

export const segmentText = ({ clock, name, label }: Segment): string =>
  label === '' ? `${clock} ${name}` : `${clock} ${name}: ${label}`;

function bars(block: Timeline, lane: Lane, step: number, columns: number): readonly string[] {
  return (['pot', 'gun'] as const).flatMap((row) => {
    const mine = lane.segments.filter(({ kind }) => rowOf[kind] === row);
    if (mine.length === 0) return [];
    const cells = Array.from({ length: columns }, (_, i) => {
      const from = block.from + i * step;
      const share = (one: Segment) => Math.min(one.to, from + step) - Math.max(one.from, from);
      const most = mine.reduce<Segment | null>(
        (best, one) => (share(one) > (best ? share(best) : 0) ? one : best),
        null,
      );
      return most ? signs[most.kind] : ' ';
    });
    return [`|${cells.join('')}|`];
  });
}

/** Marks where their time is, as many as fit. */
function rulerOf(block: Timeline, step: number, columns: number): string {
  let line = ' ';
  for (const { at, label } of block.marks) {
    const column = 1 + Math.round((at - block.from) / step);
    if (column < line.length || column + label.length > columns + 6) continue;
    line = `${line.padEnd(column)}${label} `;
  }
  return line.trimEnd();
}

function legend(lanes: readonly Lane[]): readonly string[] {
  const named = new Map(
    lanes.flatMap(({ segments }) => segments.map(({ kind, name }) => [kind, name] as const)),
  );
  return [...named].map(([kind, name]) => `${signs[kind]} ${name}`);
}

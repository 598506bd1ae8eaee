import { unsigned } from '../flow/holds.ts';
import { buttons, facts, heading, list, message, note } from '../message/build.ts';
import type { Block, Message } from '../message/message.ts';
import { coatBlocks } from './coats.ts';
import { at, type View } from './context.ts';
import { openTexts } from './open-items.ts';

/** How late bells rang: every ring, its lateness in whole minutes. */
export function lateRings({ shift }: Pick<View, 'shift'>): {
  readonly rings: number;
  readonly late: number;
  readonly worstMinutes: number;
} {
  const rings = Object.values(shift.bells).flatMap(({ past, rings }) => [...past, ...rings]);
  const late = rings.filter((ring) => ring.late);
  const worst = Math.max(0, ...rings.map((ring) => ring.at - ring.scheduledFor));
  return { rings: rings.length, late: late.length, worstMinutes: Math.round(worst / 60_000) };
}

/** The shift in figures, what is open, and where the files are. */
export function recordSummary(view: View): Message {
  const { shift, texts } = view;
  const rigs = Object.values(shift.rigs);
  const late = lateRings(view);
  const closed = shift.closedAt === null ? texts.say('record.still-open') : at(view, shift.closedAt);
  const signed = shift.day.crew.length - unsigned(shift).length;
  return message(
    texts.say('record.summary', { date: shift.date, site: shift.day.site.name }),
    'plain',
    heading(texts.say('record.title', { date: shift.date })),
    facts(
      [texts.say('record.closed'), closed],
      [texts.say('record.signed'), texts.say('sign.count', { signed, all: shift.day.crew.length })],
      [texts.say('record.readings'), String(shift.readings.length)],
      [texts.say('record.batches'), String(rigs.reduce((sum, rig) => sum + rig.batches.length, 0))],
      [
        texts.say('record.bells'),
        `${late.rings}, ${texts.say('record.late', { count: late.late, minutes: late.worstMinutes })}`,
      ],
      [texts.say('record.flushes'), String(rigs.reduce((sum, rig) => sum + rig.flushes.length, 0))],
      [texts.say('record.defects'), String(rigs.filter((rig) => rig.tag).length)],
    ),
    ...openBlocks(view),
    ...coatBlocks(view),
    ...buttons({
      label: texts.say('today.press-record'),
      tone: 'main',
      action: { kind: 'show', page: 'record' },
    }),
  );
}

/** What is still open and goes to the next briefing, with the reason it was closed all the same. */
export function openBlocks(view: View): readonly Block[] {
  const { shift, texts } = view;
  const open = openTexts(view);
  if (open.length === 0) return [];
  return [
    note('attention', texts.say('close.open')),
    list(open),
    ...(shift.closeReason ? [note('plain', texts.say('close.reason', { reason: shift.closeReason }))] : []),
  ];
}

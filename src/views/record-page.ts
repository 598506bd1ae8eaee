import { nameOf } from '../flow/decision.ts';
import { rigName } from '../flow/rig-update.ts';
import { list, message, paragraph } from '../message/build.ts';
import type { Message } from '../message/message.ts';
import { signList } from './briefing.ts';
import { at, type View } from './context.ts';
import { voidedLines } from './corrections.ts';
import { flushMessage } from './flush.ts';
import { type Panel, panel } from './panel.ts';
import { recordSummary } from './record.ts';

/** The record as it stands, open or closed, in parts. The full journal is in the files. */
export function recordPanels(view: View): readonly Panel[] {
  const { shift, texts } = view;
  const flushes = Object.entries(shift.rigs).flatMap(([rig, state]) =>
    [...state.flushes, ...(state.flush ? [state.flush] : [])].map((flush) =>
      panel(
        flush.id,
        texts.say('flush.title', { rig: rigName(shift, rig) }),
        withoutButtons(flushMessage(view, rig, flush)),
      ),
    ),
  );
  return [
    panel('record', texts.say('record.title', { date: shift.date }), withoutButtons(recordSummary(view))),
    panel(
      'record-signed',
      texts.say('record.signed'),
      message(texts.say('record.signed'), 'plain', signList(view)),
    ),
    panel(
      'record-readings',
      texts.say('record.readings'),
      lines(texts.say('record.readings'), readings(view), view),
    ),
    panel(
      'record-batches',
      texts.say('record.batches'),
      lines(texts.say('record.batches'), [...batches(view), ...voidedLines(view)], view),
    ),
    ...flushes,
  ];
}

function lines(title: string, items: readonly string[], { texts }: View): Message {
  return message(title, 'plain', items.length > 0 ? list(items) : paragraph(texts.say('word.none')));
}

function readings(view: View): readonly string[] {
  const { shift, texts } = view;
  return shift.readings.map((reading) => {
    const figures = `${texts.say('reading.degrees', { c: reading.airC })}, ${texts.say('reading.percent', { p: reading.rhPct })}`;
    const steel = `${texts.say('reading.steel')} ${texts.say('reading.degrees', { c: reading.steelC })}`;
    return `${at(view, reading.at)} ${nameOf(shift, reading.by)}: ${figures}, ${steel}`;
  });
}

function batches(view: View): readonly string[] {
  const { shift, texts } = view;
  return Object.values(shift.rigs)
    .flatMap((rig) => rig.batches)
    .sort((x, y) => x.at - y.at)
    .map((batch) => {
      const coating = shift.day.coatings[batch.coating]?.name ?? batch.coating;
      const mixed = texts.say('batch.mixed-value', {
        litres: batch.litres,
        coating,
        time: at(view, batch.at),
        c: batch.paintC,
        person: nameOf(shift, batch.by),
      });
      return `${batch.id}: ${mixed}`;
    });
}

/** A record is read, not pressed. */
function withoutButtons(whole: Message): Message {
  return { ...whole, blocks: whole.blocks.filter((block) => block.kind !== 'buttons') };
}

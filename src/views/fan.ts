import { fanDueAt, mayTestFan } from '../flow/bells/fan.ts';
import { rigName } from '../flow/rig-update.ts';
import { type FanState, fanState } from '../flow/test-fan.ts';
import { message, note, paragraph } from '../message/build.ts';
import type { Block, Message } from '../message/message.ts';
import { at, type View } from './context.ts';

/** "11:05, tip 517: 240 mm wide. New by its code: 254 mm. First with this tip today: 250 mm." */
export function fanValue(view: View, rig: string): string {
  const { shift, texts } = view;
  const state = shift.rigs[rig];
  const fan = state ? fanState(shift.day, state) : null;
  if (!fan) return texts.say('fan.none');
  const { last, codeMm, first } = fan;
  return [
    texts.say('fan.value', { time: at(view, last.at), tip: last.tip, width: Math.round(last.widthMm) }),
    ...(codeMm === null ? [] : [texts.say('fan.code', { code: Math.round(codeMm) })]),
    ...(first === null ? [] : [texts.say('fan.first', { first: Math.round(first.widthMm) })]),
    ...(fan.against ? [] : [texts.say('fan.nothing-known', { tip: last.tip })]),
  ].join(' ');
}

/** What stands out about the fan of this rig: a worn tip, or a test that is due. */
export function fanNotes(view: View, rig: string): readonly Block[] {
  const { shift, texts } = view;
  const state = shift.rigs[rig];
  const fan = state ? fanState(shift.day, state) : null;
  const due = fanDueAt(shift, rig);
  return [
    ...(fan?.worn ? [note('attention', `${wornText(view, rig, fan)} ${texts.say('fan.worn-do')}`)] : []),
    ...(due !== null && due <= view.now && mayTestFan(shift, rig)
      ? [note('attention', texts.say('fan.due', { time: at(view, due) }))]
      : []),
  ];
}

function wornText({ shift, texts }: View, rig: string, { last, against, narrowerPct }: FanState): string {
  return texts.say('fan.worn', {
    rig: rigName(shift, rig),
    tip: last.tip,
    width: Math.round(last.widthMm),
    percent: Math.floor(narrowerPct + 1e-9),
    against: Math.round(against?.mm ?? 0),
  });
}

/** What the crew is told when a fan has been measured. */
export function fanMessage(view: View, rig: string): Message {
  const { shift, texts } = view;
  const state = shift.rigs[rig];
  const fan = state ? fanState(shift.day, state) : null;
  if (fan?.worn) {
    const text = wornText(view, rig, fan);
    return message(text, 'attention', note('attention', text), paragraph(texts.say('fan.worn-do')));
  }
  const text = texts.say('fan.noted', {
    rig: rigName(shift, rig),
    tip: fan?.last.tip ?? '',
    width: Math.round(fan?.last.widthMm ?? 0),
  });
  return message(text, 'plain', paragraph(text), paragraph(fanValue(view, rig)));
}

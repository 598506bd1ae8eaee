import { wholeUp } from '../facts/round.ts';
import { clockOf, rigClocks, usedUp } from '../flow/clocks.ts';
import { nameOf } from '../flow/decision.ts';
import { plannedPressure } from '../flow/holds.ts';
import { rigName } from '../flow/rig-update.ts';
import { buttons, facts, message, note } from '../message/build.ts';
import type { FormId } from '../message/form-ids.ts';
import type { Block, Button, Message, Tone } from '../message/message.ts';
import type { CommandInput } from '../model/command.ts';
import { commandSchema } from '../model/command.ts';
import { clockBlocks, clockTone, conflictBlocks } from './batch.ts';
import { basisNotes, ifWarmerNotes, measureHose, sunNotes, sunText } from './clock-notes.ts';
import { at, type View } from './context.ts';
import { voidBatchButtons } from './corrections.ts';
import { fanNotes, fanValue } from './fan.ts';
import { flushMessage } from './flush.ts';
import { tagText, unflushedText } from './holds.ts';
import { airNotes, rateLines } from './spray.ts';

/** One rig now: its clocks, what is open on it, and what can be pressed next. */
export function rigMessage(view: View, rig: string): Message {
  const { shift, texts } = view;
  const state = shift.rigs[rig];
  if (!state) return message(rigName(shift, rig), 'plain');
  if (state.flush) return flushMessage(view, rig, state.flush);
  const clocks = rigClocks(shift, rig);
  const name = rigName(shift, rig);
  const mixed = state.line ?? state.pot;
  const status: Block[] = [];
  if (state.tag) status.push(note('danger', tagText(view, rig)));
  if (state.unflushed) status.push(note('danger', unflushedText(view, rig)));
  if (state.pausedAt !== null)
    status.push(note('attention', texts.say('today.rig-paused', { time: at(view, state.pausedAt) })));
  if (!mixed && !state.unflushed) status.push(note('plain', texts.say('today.rig-idle')));
  const tone: Tone =
    state.tag || state.unflushed ? 'danger' : clocks[0] ? clockTone(clocks[0], view.now) : 'plain';
  return message(
    name,
    tone,
    ...status,
    ...clocks.flatMap((clock) => [
      note(
        'plain',
        `${texts.say('today.clock-line', { where: clock.where, batch: clock.mixed.batch })}. ${texts.say('today.used', { percent: Math.ceil(usedUp(shift.day, clock, view.now) * 100) })}`,
      ),
      ...clockBlocks(view, clock),
      ...(clock === clocks[0] ? basisNotes(view, clock) : []),
      ...conflictBlocks(view, rig, clock),
    ]),
    ...ifWarmerNotes(view, rig),
    ...sunNotes(view, rig),
    ...(state.line && state.pot && state.line.batch !== state.pot.batch && state.renewLitres !== null
      ? [note('attention', texts.say('batch.older', { batch: state.line.batch, litres: state.renewLitres }))]
      : []),
    ...fanNotes(view, rig),
    ...airNotes(view, rig),
    rigFacts(view, rig),
    ...buttons(...rigPresses(view, rig), ...voidBatchButtons(view, rig)),
  );
}

function rigFacts(view: View, rig: string): Block {
  const { shift, texts } = view;
  const state = shift.rigs[rig];
  const bar = plannedPressure(shift.day, rig);
  const checked = state?.checked
    ? texts.say('today.rig-checked', {
        time: at(view, state.checked.at),
        person: nameOf(shift, state.checked.by),
      })
    : texts.say('today.rig-unchecked');
  const flushed = state?.flushes.at(-1)?.finishedAt;
  return facts(
    ...(bar === null
      ? []
      : [
          [
            texts.say('today.rig-pressure'),
            texts.say('today.rig-pressure-value', { bar: wholeUp(bar) }),
          ] as const,
        ]),
    ...rateLines(view, rig).map((line) => [texts.say('spray.tip'), line] as const),
    [texts.say('today.press-check'), checked],
    ...(state && state.batches.length > 0 ? [[texts.say('spray.fan'), fanValue(view, rig)] as const] : []),
    ...(flushed ? [[texts.say('today.rig-last-flush'), at(view, flushed)] as const] : []),
  );
}

/** What can be pressed on a rig now, the most likely first. */
export function rigPresses(view: View, rig: string): readonly Button[] {
  const { shift, texts } = view;
  const state = shift.rigs[rig];
  if (!state || shift.status === 'closed') return [];
  const open = (label: string, id: FormId, tone: Button['tone'] = 'plain'): Button => ({
    label,
    tone,
    action: { kind: 'open', form: { id, about: { rig } } },
  });
  const act = (label: string, command: CommandInput, tone: Button['tone'] = 'plain'): Button => ({
    label,
    tone,
    action: { kind: 'do', command: commandSchema.parse(command) },
  });
  const defect = open(texts.say('today.press-defect'), 'report-defect', 'danger');
  const check = open(texts.say('today.press-check'), 'check-rig', state.checked ? 'plain' : 'main');
  const batch = open(texts.say('today.press-batch'), 'mix-batch', state.checked ? 'main' : 'plain');
  const flush = act(texts.say('today.press-flush'), { type: 'start-flush', rig });
  const mixed = state.line ?? state.pot;
  if (state.tag)
    return [
      ...(mixed || state.unflushed ? [flush] : []),
      open(texts.say('today.press-clear-tag'), 'clear-tag'),
    ];
  if (!mixed)
    return [
      check,
      ...(state.unflushed ? [] : [batch]),
      ...(state.batches.length > 0 || state.unflushed ? [flush] : []),
      defect,
    ];
  const timed = clockOf(shift.day, rig, 'line', mixed) !== null;
  return [
    act(texts.say('today.press-flush'), { type: 'start-flush', rig }, 'main'),
    open(texts.say('today.press-batch'), 'mix-batch'),
    ...(timed
      ? [
          open(texts.say('today.press-temp'), 'pot-temperature'),
          // With an estimate it stands right beside it.
          ...(sunText(view, rig) === null ? [measureHose(view, rig)] : []),
          open(texts.say('today.press-mend'), 'mend-mix-temperature'),
          act(texts.say('today.press-hose-warm'), { type: 'hose-warm', rig }),
        ]
      : []),
    state.pausedAt === null
      ? open(texts.say('today.press-pause'), 'pause')
      : act(texts.say('today.press-resume'), { type: 'resume', rig }),
    ...(state.pausedAt === null && !shift.stop ? [open(texts.say('today.press-test-fan'), 'test-fan')] : []),
    ...(state.pot ? [open(texts.say('today.press-pot-empty'), 'pot-empty')] : []),
    ...(state.renewLitres !== null ? [open(texts.say('today.press-renewed'), 'line-renewed')] : []),
    defect,
  ];
}

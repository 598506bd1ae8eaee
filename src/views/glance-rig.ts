import { rigClocks } from '../flow/clocks.ts';
import { rigName } from '../flow/rig-update.ts';
import { buttons, heading, paragraph } from '../message/build.ts';
import type { FormId } from '../message/form-ids.ts';
import type { Block, Button } from '../message/message.ts';
import type { Flush } from '../model/shift.ts';
import { clockSentence } from './batch.ts';
import type { View } from './context.ts';
import { flushMessage } from './flush.ts';
import { rigPresses } from './rig.ts';

/** Put right once in a while; in the way of a thumb every other time. They stand on the page "more". */
const rareForms: readonly FormId[] = [
  'mend-mix-temperature',
  'hose-temperature',
  'test-fan',
  'void-batch',
  'abandon-flush',
  'skip-step',
];
const MOST_OWN = 3;

/** One rig on a small screen: its times and its next presses, more of them for whoever works on it. */
export function rigGlance(view: View, rig: string, own: boolean): readonly Block[] {
  const { shift, texts } = view;
  const state = shift.rigs[rig];
  if (state?.flush) return flushGlance(view, rig, state.flush, own);
  const clock = rigClocks(shift, rig)[0];
  const times = clock ? clockSentence(view, rig, clock) : texts.say('today.rig-idle');
  const presses = rigPresses(view, rig);
  return [
    heading(rigName(shift, rig)),
    paragraph(times),
    // A tagged rig has few, and each of them ends the tag or empties the line.
    ...buttons(...(state?.tag ? presses : shortly(presses, own))),
  ];
}

/** The likeliest first; a defect can be told of one's own rig at any time. */
function shortly(presses: readonly Button[], own: boolean): readonly Button[] {
  const usual = presses.filter((press) => press.tone !== 'danger' && !isRare(press));
  if (!own) return usual.slice(0, 1);
  return [...usual.slice(0, MOST_OWN), ...presses.filter(({ tone }) => tone === 'danger')];
}

function isRare({ action }: Button): boolean {
  switch (action.kind) {
    case 'open':
      return rareForms.includes(action.form.id);
    case 'do':
      return action.command.type === 'hose-warm';
    case 'show':
      return false;
  }
}

/** The step that comes next. What has been done and the volumes are for who flushes. */
function flushGlance(view: View, rig: string, flush: Flush, own: boolean): readonly Block[] {
  const { blocks } = flushMessage(view, rig, flush);
  const shown = blocks.filter(({ kind }) => own || (kind !== 'checklist' && kind !== 'facts'));
  return shown.flatMap((block) =>
    block.kind === 'buttons' ? buttons(...block.buttons.filter((press) => !isRare(press))) : [block],
  );
}

import type { Caution } from '../briefing/caution.ts';
import { readingOrder } from '../briefing/reading-order.ts';
import type { Task } from '../briefing/task.ts';
import { heading, list, note, paragraph } from '../message/build.ts';
import type { Block } from '../message/message.ts';
import type { View } from './context.ts';
import { spoken } from './spoken.ts';

/**
 * Cautions as somebody with these tasks reads them: about seven, every stop among them, and the others under one fold that
 * names them.
 */
export function cautionsInOrder(
  view: View,
  cautions: readonly Caution[],
  tasks: readonly Task[],
): readonly Block[] {
  const { shift, texts } = view;
  const { first, rest } = readingOrder(shift.briefing, cautions, tasks);
  const shown = first.flatMap((caution) => cautionBlocks(view, caution));
  if (rest.length === 0) return shown;
  const titles = rest.map(({ id }) => texts.caution(id).title).join(', ');
  return [
    ...shown,
    {
      kind: 'more',
      label: texts.say('brief.rest', { count: rest.length, titles }),
      blocks: rest.flatMap((caution) => cautionBlocks(view, caution)),
    },
  ];
}

/** All of them with every word, nothing folded, in the order in which a crew reads. */
export function cautionsInFull(view: View, cautions: readonly Caution[]): readonly Block[] {
  const { first, rest } = readingOrder(view.shift.briefing, cautions, []);
  return [...first, ...rest].flatMap((caution) => cautionBlocks(view, caution));
}

/** Under every list of cautions, on every surface: what an injection is, whom to call and where to go. */
export function injectionFooter({ shift, texts }: View): Block {
  const { call, hospital } = shift.day.emergency;
  return note('danger', texts.say('brief.injection-footer', { call, hospital }));
}

/** One caution: grade, title, why today with today's numbers, what to do. Detail is one tap away. */
function cautionBlocks(view: View, caution: Caution): readonly Block[] {
  const { texts } = view;
  const words = texts.caution(caution.id);
  const params = spoken(caution.params, texts);
  const rows = caution.each.map((row) => words.each(spoken(row, texts))).filter((row) => row !== null);
  return [
    heading(cautionTitle(view, caution)),
    paragraph(words.reason(params)),
    ...(rows.length > 0 ? [list(rows)] : []),
    list(words.steps(params), true),
    ...(words.more.length > 0
      ? [{ kind: 'more', label: texts.say('brief.more'), blocks: [list(words.more)] } as const]
      : []),
  ];
}

/** "NEW TODAY · STOP · Breathing" */
export function cautionTitle({ shift, texts }: View, caution: Caution): string {
  const grade = texts.say(`word.grade.${caution.grade}`);
  const title = [mark({ shift, texts }, caution), grade, texts.caution(caution.id).title];
  return title.filter((part) => part !== '').join(' · ');
}

/** A changed day comes before a new one: who has signed this morning looks for what is different since. */
function mark({ shift, texts }: Pick<View, 'shift' | 'texts'>, { id }: Caution): string {
  const { revision, changed, fresh } = shift.briefing;
  if (revision > 1 && changed.includes(id)) return texts.say('brief.changed');
  return fresh.includes(id) ? texts.say('brief.fresh') : '';
}

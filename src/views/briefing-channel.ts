import type { Caution } from '../briefing/caution.ts';
import { readingOrder } from '../briefing/reading-order.ts';
import { holdsOf } from '../flow/holds.ts';
import { buttons, facts, heading, list, message, note, paragraph, strong } from '../message/build.ts';
import type { Block, Line, Message } from '../message/message.ts';
import {
  briefingSummary,
  briefPresses,
  changesSince,
  dayBlocks,
  jobName,
  jobPeople,
  lateness,
} from './briefing.ts';
import { cautionsInFull, cautionTitle, injectionFooter } from './cautions.ts';
import { at, type View } from './context.ts';
import { holdText } from './holds.ts';
import { planBlocks } from './plan.ts';
import { spoken } from './spoken.ts';
import { peopleMessage } from './today.ts';
import { uncheckedBlocks } from './unchecked.ts';

/**
 * The briefing in the crew's channel, read standing up in under a minute: what holds, what can kill or is new in a line
 * each, who does what, who signs. Everything else stands below it, word for word; nobody signs on the short of it.
 */
export function briefingInChannel(view: View): Message {
  const { shift, texts } = view;
  const { entry } = shift.day;
  return message(
    briefingSummary(view),
    'plain',
    ...lateness(view),
    facts([texts.say('brief.hours'), texts.say('brief.hours-value', { start: entry.start, end: entry.end })]),
    ...changesSince(view),
    ...uncheckedBlocks(view),
    ...holdBlocks(view),
    ...cautionLines(view),
    heading(texts.say('brief.jobs')),
    {
      kind: 'list',
      ordered: false,
      items: entry.jobs.map((job): Line => [strong(jobName(view, job)), ' ', jobPeople(view, job)]),
    },
    ...(entry.notes ? [note('plain', strong(`${texts.say('brief.notes')}: `), entry.notes)] : []),
    heading(texts.say('brief.sign-list')),
    paragraph(strong(peopleMessage(view).summary)),
    paragraph(texts.say('brief.sign-where')),
    injectionFooter(view),
    note('plain', texts.say('brief.footer')),
    {
      kind: 'below',
      label: texts.say('brief.whole', { count: shift.briefing.cautions.length }),
      blocks: [
        heading(texts.say('brief.title', { site: shift.day.site.name, date: shift.date })),
        ...dayBlocks(view),
        ...cautionsInFull(view, shift.briefing.cautions),
        ...planBlocks(view),
      ],
    },
    ...buttons(...briefPresses(view)),
  );
}

function holdBlocks(view: View): readonly Block[] {
  const holds = heldWords(view);
  return [
    heading(view.texts.say('brief.holds-at', { time: at(view, view.now) })),
    holds.length === 0 ? note('plain', view.texts.say('hold.none')) : list(holds),
  ];
}

/** What holds, but for who has not signed: that stands further down, with who has. */
function heldWords(view: View): readonly string[] {
  return holdsOf(view.shift, view.now)
    .filter(({ kind }) => kind !== 'unsigned')
    .map((hold) => holdText(view, hold));
}

/** SO11: whether what the channel reads of the holds is no longer so. */
export function holdsChanged(before: View, after: View): boolean {
  return heldWords(before).join('\n') !== heldWords(after).join('\n');
}

/** Every stop, whatever else may not be folded and what is new or changed with its reason. Below are all. */
function cautionLines(view: View): readonly Block[] {
  const { shift, texts } = view;
  const { briefing } = shift;
  const { first, rest } = readingOrder(briefing, briefing.cautions, []);
  const lines = [...first, ...rest].filter((caution) => inLine(view, caution));
  return [
    heading(texts.say('brief.first')),
    {
      kind: 'list',
      ordered: false,
      items: lines.map((caution): Line => {
        const reason = texts.caution(caution.id).reason(spoken(caution.params, texts));
        return [strong(`${cautionTitle(view, caution)}:`), ` ${reason}`];
      }),
    },
  ];
}

function inLine({ shift }: View, { grade, unfolded, id }: Caution): boolean {
  const { revision, changed, fresh } = shift.briefing;
  return (
    grade === 'stop' || unfolded === true || fresh.includes(id) || (revision > 1 && changed.includes(id))
  );
}

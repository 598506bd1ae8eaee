import {
  type Coat,
  type CoatState,
  coatState,
  coatWindow,
  neverOpens,
  stillWaits,
  worstFirst,
} from '../facts/recoat.ts';
import { tenth, tenthDown, tenthUp } from '../facts/round.ts';
import { coatOfBell } from '../flow/bells/recoat.ts';
import { waitingCoats } from '../flow/coats.ts';
import { facts, list, message, note } from '../message/build.ts';
import type { Block, Message, Tone } from '../message/message.ts';
import type { Job } from '../model/day-entry.ts';
import { HOUR, type Instant, MINUTE, weekdayTime } from '../model/time.ts';
import type { RecoatEnd, RecoatWindow } from '../trade/recoat.ts';
import type { BellWords, RungBell } from './bell-words.ts';
import type { View } from './context.ts';

/** Longer than this without looking, and a cold or hot spell can have come and gone. */
const GAP_MS = 4 * HOUR;

const tones: Readonly<Record<CoatState, Tone>> = {
  closed: 'danger',
  closing: 'attention',
  after: 'attention',
  unknown: 'attention',
  early: 'plain',
  open: 'plain',
};

/** A coat that waits, with its window and how it stands now. */
export interface ShownCoat {
  readonly coat: Coat;
  readonly window: RecoatWindow | null;
  readonly state: CoatState;
}

/** RW4: the coats that wait, those that need somebody first at the front. */
export function shownCoats({ shift, now }: Pick<View, 'shift' | 'now'>): readonly ShownCoat[] {
  return waitingCoats(shift)
    .filter((coat) => stillWaits(coat, shift.day))
    .map((coat) => {
      const window = coatWindow(shift.day, coat);
      return { coat, window, state: coatState(window, now, shift.day.endsAt) };
    })
    .sort(
      (x, y) =>
        worstFirst[x.state] - worstFirst[y.state] ||
        (x.window?.closes?.at ?? Number.POSITIVE_INFINITY) -
          (y.window?.closes?.at ?? Number.POSITIVE_INFINITY),
    );
}

/** The panel of coats that wait; null when none does. */
export function coatsMessage(view: View): Message | null {
  const { texts } = view;
  const shown = shownCoats(view);
  const [worst] = shown;
  if (!worst) return null;
  return message(
    coatLine(view, worst),
    tones[worst.state],
    ...shown.flatMap((one) => [note(tones[one.state], coatLine(view, one)), ...windowBlocks(view, one)]),
    note('plain', texts.say('coats.rule')),
  );
}

/** RW6: what goes on while nobody is here, with both times: for who closes the shift, and for the record. */
export function coatBlocks(view: View): readonly Block[] {
  const shown = shownCoats(view);
  if (shown.length === 0) return [];
  return [note('attention', view.texts.say('close.coats')), list(shown.map((one) => coatTimes(view, one)))];
}

/** One coat in a sentence: where it stands and its next time. */
export function coatLine(view: View, { coat: about, window, state }: ShownCoat): string {
  const { texts } = view;
  const coat = coatName(view, about);
  if (!window || state === 'unknown') return texts.say('coats.unknown', { coat });
  const opens = opensWords(view, window);
  const closes = window.closes ? closesWords(view, window.closes) : '';
  if (window.closes?.maxHours === null)
    return texts.say('bell.recoat-hot', { coat, closes, c: tenth(window.closes.heldC ?? 0) });
  switch (state) {
    case 'early':
      return texts.say('coats.early', { coat, opens });
    case 'open':
      return texts.say('coats.open', { coat, opens });
    case 'closing':
      return texts.say('coats.closing', { coat, closes });
    case 'after':
      return texts.say('coats.after', { coat, closes });
    case 'closed':
      return texts.say('coats.closed', { coat, closes });
  }
}

/** A coat in one line with both times: for closing the shift and for the record. */
export function coatTimes(view: View, { coat, window }: ShownCoat): string {
  if (!window) return view.texts.say('coats.unknown', { coat: coatName(view, coat) });
  return `${coatName(view, coat)}: ${startWords(view, window)}; ${endWords(view, window.closes)}`;
}

function windowBlocks(view: View, { coat, window }: ShownCoat): readonly Block[] {
  const { texts } = view;
  if (!window) return [];
  const gap = longestGap(coat, view.now);
  return [
    facts(
      [texts.say('coats.opens'), startWords(view, window)],
      [texts.say('coats.closes'), endWords(view, window.closes)],
    ),
    ...(neverOpens(window) ? [note('attention', texts.say('coats.never'))] : []),
    ...(gap > GAP_MS ? [note('plain', texts.say('coats.gap', { hours: Math.floor(gap / HOUR) }))] : []),
  ];
}

function startWords(view: View, window: RecoatWindow): string {
  const words = { time: opensWords(view, window), hours: tenthUp(window.minHours) };
  return window.coldestC === null
    ? view.texts.say('coats.from-unread', words)
    : view.texts.say('coats.from', { ...words, c: tenth(window.coldestC) });
}

function endWords(view: View, closes: RecoatEnd | null): string {
  const { texts } = view;
  if (!closes) return texts.say('coats.to-none');
  const time = closesWords(view, closes);
  if (closes.maxHours === null) return texts.say('coats.to-hot', { time, c: tenth(closes.heldC ?? 0) });
  const words = { time, hours: tenthDown(closes.maxHours) };
  return closes.heldC === null
    ? texts.say('coats.to-unread', words)
    : texts.say('coats.to', { ...words, c: tenth(closes.heldC) });
}

export function coatName(
  { shift, texts }: Pick<View, 'shift' | 'texts'>,
  { area, coating, coat }: Coat,
): string {
  return texts.say('coats.name', {
    area,
    coat: texts.say(`word.coat.${coat as Job['coat']}`),
    coating: shift.day.coatings[coating]?.name ?? coating,
  });
}

/** Rounded to the minute that waits longer; an end to the one that comes sooner. */
export const opensWords = (
  view: Pick<View, 'shift' | 'texts'>,
  { opensAt }: Pick<RecoatWindow, 'opensAt'>,
): string => dated(view, Math.ceil(opensAt / MINUTE) * MINUTE);
export const closesWords = (view: Pick<View, 'shift' | 'texts'>, closes: Pick<RecoatEnd, 'at'>): string =>
  dated(view, closes.at);

export function dated({ shift, texts }: Pick<View, 'shift' | 'texts'>, at: Instant): string {
  return weekdayTime(at, shift.day.site.timeZone, shift.date, texts.locale);
}

function longestGap({ steel, firstAt }: Coat, now: Instant): number {
  const moments = [...steel.map(({ at }) => Math.max(at, firstAt)), now];
  return Math.max(0, ...moments.map((at, i) => at - (moments[i - 1] ?? firstAt)));
}

/** What the two bells say. Never that the next coat may go on: the sheet's time is over, no more. */
export function recoatBellWords(view: View, rung: RungBell): BellWords {
  const { shift, texts } = view;
  const about = coatOfBell(shift, rung.bell);
  const window = about && coatWindow(shift.day, about);
  const covered = texts.say('bell.recoat-covered');
  if (!about || !window) return { say: covered, todo: texts.say('coats.rule') };
  const coat = coatName(view, about);
  const { closes } = window;
  if (rung.kind === 'recoat-open')
    return {
      say: texts.say('bell.recoat-open', { coat, opens: opensWords(view, window) }),
      todo: texts.say('bell.recoat-open-do', { closes: endWords(view, closes) }),
    };
  if (!closes) return { say: covered, todo: texts.say('coats.rule') };
  const time = closesWords(view, closes);
  if (closes.maxHours === null)
    return {
      say: texts.say('bell.recoat-hot', { coat, closes: time, c: tenth(closes.heldC ?? 0) }),
      todo: texts.say('bell.recoat-hot-do'),
    };
  if (rung.bell.endsWith(':end'))
    return {
      say: texts.say('bell.recoat-closed', { coat, closes: time }),
      todo: texts.say('bell.recoat-closed-do'),
    };
  return {
    say: texts.say('bell.recoat-closing', { coat, closes: time }),
    todo: texts.say('bell.recoat-closing-do', { by: endWords(view, closes) }),
  };
}

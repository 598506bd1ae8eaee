import { tenth, tenthDown, tenthUp } from '../../facts/round.ts';
import { HOUR, MINUTE } from '../../model/time.ts';
import type { RecoatEnd, RecoatWindow } from '../../trade/recoat.ts';
import { closesWords, coatName, dated, opensWords, type ShownCoat, shownCoats } from '../coats.ts';
import type { View } from '../context.ts';
import type { WhyItem } from './item.ts';

/** Each coat that waits: its two times back to the rows of the sheet and the steel readings. */
export function whyRecoat(view: View): readonly WhyItem[] {
  return shownCoats(view).flatMap((shown) => (shown.window ? [whyOne(view, shown, shown.window)] : []));
}

function whyOne(view: View, { coat }: ShownCoat, window: RecoatWindow): WhyItem {
  const { texts, shift } = view;
  const { closes, coldestC } = window;
  const degrees = (c: number | null) =>
    c === null ? texts.say('why.recoat.unread') : texts.say('why.recoat.degrees', { c: tenth(c) });
  const rows = [...(shift.day.coatings[coat.coating]?.recoat ?? [])]
    .sort((x, y) => x.toC - y.toC)
    .map(({ toC, minHours, maxHours }) =>
      maxHours === undefined
        ? texts.say('why.recoat.row-open', { to: toC, min: minHours })
        : texts.say('why.recoat.row', { to: toC, min: minHours, max: maxHours }),
    );
  const about = coatName(view, coat);
  return {
    topic: 'recoat',
    about,
    result: closes
      ? texts.say('why.recoat.result', {
          coat: about,
          opens: opensWords(view, window),
          closes: closesWords(view, closes),
        })
      : texts.say('why.recoat.result-open', { coat: about, opens: opensWords(view, window) }),
    inputs: [
      [texts.say('why.recoat.inputs-from'), dated(view, coat.firstAt)],
      [texts.say('why.recoat.inputs-to'), dated(view, Math.ceil(coat.at / MINUTE) * MINUTE)],
      [texts.say('why.recoat.inputs-coldest'), degrees(coldestC)],
      ...(closes ? [[texts.say('why.recoat.inputs-held'), degrees(closes.heldC)] as const] : []),
      [texts.say('why.recoat.inputs-rows'), rows.join('; ')],
    ],
    formula: `${startFormula(view, coat.at, window)}. ${endFormula(view, coat.firstAt, closes)}.`,
    source: texts.say('why.recoat.source'),
  };
}

function startFormula(view: View, lastAt: number, window: RecoatWindow): string {
  const words = {
    last: dated(view, Math.ceil(lastAt / MINUTE) * MINUTE),
    hours: tenthUp(window.minHours),
    opens: opensWords(view, window),
  };
  const later = window.opensAt > Math.ceil(lastAt + window.minHours * HOUR);
  return view.texts.say(later ? 'why.recoat.start-later' : 'why.recoat.start', words);
}

function endFormula(view: View, firstAt: number, closes: RecoatEnd | null): string {
  const { texts } = view;
  if (!closes) return texts.say('why.recoat.end-none');
  const time = closesWords(view, closes);
  if (closes.maxHours === null)
    return texts.say('why.recoat.end-hot', { c: tenth(closes.heldC ?? 0), closes: time });
  const words = { first: dated(view, firstAt), hours: tenthDown(closes.maxHours), closes: time };
  const later = closes.at > firstAt + closes.maxHours * HOUR;
  return texts.say(later ? 'why.recoat.end-later' : 'why.recoat.end', words);
}

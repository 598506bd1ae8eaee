import { message } from '../../message/build.ts';
import type { View } from '../context.ts';
import { type Panel, panel } from '../panel.ts';
import { whyCautions } from '../why-cautions.ts';
import { whyClock } from './clock.ts';
import { whyFilm } from './film.ts';
import { whyFlush } from './flush.ts';
import { whyHeat } from './heat.ts';
import { type WhyItem, whyMessage } from './item.ts';
import { whyMargin } from './margin.ts';
import { whyMix } from './mix.ts';
import { whyPlan } from './plan.ts';
import { whyPressure } from './pressure.ts';
import { whyRecoat } from './recoat.ts';
import { whyTip } from './tip.ts';
import { whyVapour } from './vapour.ts';

/** Every number of the day that follows from arithmetic, in the order in which the day meets them. */
const sources: readonly ((view: View) => readonly WhyItem[])[] = [
  whyMargin,
  whyFilm,
  whyMix,
  whyClock,
  whyPressure,
  whyFlush,
  whyTip,
  whyPlan,
  whyVapour,
  whyHeat,
  whyRecoat,
];

export function whyItems(view: View): readonly WhyItem[] {
  return sources.flatMap((itemsOf) => itemsOf(view));
}

export function whyPanels(view: View): readonly Panel[] {
  const items = whyItems(view);
  const title = view.texts.say('because.title');
  const cautions = [panel('why-cautions', title, message(title, 'plain', ...whyCautions(view)))];
  if (items.length === 0) {
    const none = view.texts.say('why.none');
    return [panel('why-none', none, message(none, 'plain')), ...cautions];
  }
  const figures = items.map((item, index) =>
    panel(`why-${item.topic}-${index}`, item.result, whyMessage(item, view)),
  );
  return [...figures, ...cautions];
}

import { plainText } from '../../src/message/plain-text.ts';
import type { View } from '../../src/views/context.ts';
import { whyItems } from '../../src/views/why/index.ts';
import { whyMessage } from '../../src/views/why/item.ts';
import { UsageProblem } from './site.ts';

/** Where today's numbers come from, as text; only those of `topics` when some are named. */
export function whyText(view: View, topics: readonly string[]): string {
  const items = whyItems(view);
  const known = [...new Set(items.map(({ topic }) => topic))];
  const unknown = topics.find((topic) => !known.includes(topic));
  if (unknown !== undefined)
    throw new UsageProblem(
      `There is nothing about "${unknown}" on this day. What there is: ${known.join(', ')}.`,
    );
  const wanted = topics.length === 0 ? items : items.filter(({ topic }) => topics.includes(topic));
  return wanted
    .map((item) => heading(item.topic, item.about) + plainText(whyMessage(item, view)))
    .join('\n\n');
}

function heading(topic: string, about: string): string {
  return `[${topic}]${about === '' ? '' : ` ${about}`}\n`;
}

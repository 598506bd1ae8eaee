import { list } from '../../src/message/build.ts';
import type { Line, Message, Tone } from '../../src/message/message.ts';
import { clockTime } from '../../src/model/time.ts';
import type { StoredDelivery } from '../../src/ports.ts';
import type { BoardParts, View } from './parts.ts';
import type { Html } from './render-html.ts';
import { renderMessage } from './render-message.ts';

/** Deliveries read: enough for a long day of one bell rung again and again to a whole crew. */
const MOST = 2000;
const MOST_SHOWN = 60;

interface Notice {
  readonly newest: StoredDelivery;
  /** The moments it was said at: a message to several people was said once. */
  readonly times: Set<number>;
}

/** By key, in the order of the newest: a bell that rings all morning is one line and hides no other. */
function noticesOf(newestFirst: readonly StoredDelivery[]): readonly Notice[] {
  const byKey = new Map<string, Notice>();
  for (const delivery of newestFirst) {
    const known = byKey.get(delivery.key);
    if (known === undefined) {
      byKey.set(delivery.key, { newest: delivery, times: new Set([delivery.queuedAt]) });
    } else known.times.add(delivery.queuedAt);
  }
  return [...byKey.values()].sort((a, b) => b.newest.queuedAt - a.newest.queuedAt);
}

/** What has been said on this shift, newest first, one line for each thing, with how often it was said. */
export async function noticesPanel({ services }: BoardParts, view: View): Promise<Html> {
  const { shift, texts, words, zone } = view;
  const said =
    shift === null ? [] : await services.store.deliveries({ shift: shift.id, surface: 'board', limit: MOST });
  const tones: Readonly<Record<Tone, string>> = {
    plain: '',
    good: '',
    attention: `${words.toneAttention}: `,
    danger: `${words.toneDanger}: `,
  };
  const items = noticesOf(said)
    .slice(0, MOST_SHOWN)
    .map(
      ({ newest: { queuedAt, message }, times }): Line => [
        { kind: 'strong', text: clockTime(queuedAt, zone) },
        ` ${tones[message.tone]}${message.summary}${times.size > 1 ? ` (×${times.size})` : ''}`,
      ],
    );
  const message: Message = {
    summary: texts.say('notices.title'),
    tone: 'plain',
    blocks: items.length > 0 ? [list(items)] : [{ kind: 'paragraph', line: [texts.say('notices.none')] }],
  };
  return renderMessage(message, 'p-said', view.render('/notices'), { title: message.summary });
}

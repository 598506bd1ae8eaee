import type { Line, Message, Tone } from '../../src/message/message.ts';
import { clockTime } from '../../src/model/time.ts';
import type { BoardParts, View } from './parts.ts';
import type { Html } from './render-html.ts';
import { renderMessage } from './render-message.ts';

const MOST = 200;
const MOST_SHOWN = 60;

/** What has been said on this shift, newest first, one line each. A message to several people was said once. */
export async function noticesPanel({ services }: BoardParts, view: View): Promise<Html> {
  const { shift, texts, words, zone } = view;
  const said =
    shift === null ? [] : await services.store.deliveries({ shift: shift.id, surface: 'board', limit: MOST });
  const once = new Map(said.map((delivery) => [`${delivery.key} ${delivery.queuedAt}`, delivery]));
  const tones: Readonly<Record<Tone, string>> = {
    plain: '',
    good: '',
    attention: `${words.toneAttention}: `,
    danger: `${words.toneDanger}: `,
  };
  const items = [...once.values()]
    .slice(0, MOST_SHOWN)
    .map(
      ({ queuedAt, message }): Line => [
        { kind: 'strong', text: clockTime(queuedAt, zone) },
        ` ${tones[message.tone]}${message.summary}`,
      ],
    );
  const message: Message = {
    summary: texts.say('notices.title'),
    tone: 'plain',
    blocks:
      items.length > 0
        ? [{ kind: 'list', ordered: false, items }]
        : [{ kind: 'paragraph', line: [texts.say('notices.none')] }],
  };
  return renderMessage(message, 'p-said', view.render('/notices'), { title: message.summary });
}

import { chatSurface } from '../chat/deliver.ts';
import { markerOf } from '../chat/marks.ts';
import type { Meaning, Platform } from '../chat/platform.ts';
import { optionsFor } from './look.ts';
import { memberOf } from './people.ts';
import { renderMessage, type SlackPart } from './render.ts';
import type { Sender } from './sender.ts';
import { SLACK, type SlackServices } from './services.ts';

type SurfaceServices = Pick<
  SlackServices,
  'memory' | 'log' | 'clock' | 'pack' | 'texts' | 'words' | 'shift' | 'following' | 'again'
>;
type SurfaceSender = Pick<Sender, 'post' | 'update' | 'delete' | 'openDm'>;

/**
 * docs.slack.dev/reference/methods/conversations.open (tier 3) and apis/web-api/rate-limits: 50+ a minute. Some are left
 * for the answers to people who press meanwhile.
 */
const DIRECTS_A_MINUTE = 40;

const meanings: Readonly<Record<string, Meaning>> = {
  message_not_found: 'message-lost',
  cant_update_message: 'message-lost',
  edit_window_closed: 'message-lost',
  is_inactive: 'message-lost',
  thread_not_found: 'thread-lost',
  invalid_auth: 'shut-out',
  not_authed: 'shut-out',
  account_inactive: 'shut-out',
  token_expired: 'shut-out',
  token_revoked: 'shut-out',
};

export function slackSurface(services: SurfaceServices, out: SurfaceSender) {
  return chatSurface({ ...services, surface: SLACK, memberOf }, slackPlatform(services, out));
}

function slackPlatform(
  services: Pick<SlackServices, 'pack' | 'words'>,
  out: SurfaceSender,
): Platform<SlackPart> {
  return {
    title: 'Slack',
    crewChannel: ({ site }) => site.slack?.channel ?? null,
    bellsApart: false,
    directsAMinute: DIRECTS_A_MINUTE,
    openDirect: (member) => out.openDm(member),
    parts({ id, shift, message }, texts, calls) {
      const parts = renderMessage(message, optionsFor(services, texts, markerOf(shift, [id]), 'button'));
      return calls ? parts.map(callingAll) : parts;
    },
    async post({ channel, part: { text, blocks }, marker, lookFirst, under, broadcast }) {
      const sent = await out.post({
        channel,
        text,
        blocks,
        marker,
        lookFirst,
        ...(under !== undefined && { threadTs: under }),
        ...(broadcast !== undefined && { broadcast }),
      });
      return sent.kind === 'ok' ? { kind: 'ok', value: { id: sent.value.ts } } : sent;
    },
    update: ({ channel, id, part: { text, blocks } }) => out.update({ channel, ts: id, text, blocks }),
    remove: ({ channel, id }) => out.delete({ channel, ts: id }),
    meaning: (code) => (Object.hasOwn(meanings, code) ? (meanings[code] ?? null) : null),
  };
}

/** A mention sounds only in a block of text; every part begins with one, its summary. */
function callingAll(part: SlackPart, index: number): SlackPart {
  const [first, ...rest] = part.blocks;
  if (index > 0 || first?.type !== 'section' || first.text === undefined) return part;
  const text = `<!channel> ${first.text.text}`;
  return {
    ...part,
    text: `<!channel> ${part.text}`,
    blocks: [{ ...first, text: { ...first.text, text } }, ...rest],
  };
}

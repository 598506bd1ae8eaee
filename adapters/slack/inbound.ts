import { z } from 'zod';
import { type Action, decodeAction } from '../../src/message/action.ts';
import { hashed } from '../chat/marks.ts';

/** Where a button was pressed. A Home has no message that an answer could stand under. */
export type Place =
  | {
      readonly kind: 'message';
      readonly channel: string;
      readonly ts: string;
      readonly threadTs: string | null;
    }
  | { readonly kind: 'home' }
  | { readonly kind: 'modal'; readonly view: string };

/** One press, as the platform verified it. `action` is null for a button that is not one of ours (old, cut, forged). */
export interface Press {
  readonly member: string;
  readonly action: Action | null;
  readonly place: Place;
  readonly trigger: string;
  readonly responseUrl: string | null;
  /** The mark of the shift whose message was pressed in, as `shiftMark` makes it; left out where it carries none. */
  readonly of?: string;
  /** The same for a redelivery of the same press, another for every other press. */
  readonly pressId: string;
}

/** What is read of the platform's `block_actions` payload; all else in it is left alone. */
export const actionsSchema = z.object({
  user: z.object({ id: z.string() }),
  trigger_id: z.string(),
  response_url: z.string().optional(),
  channel: z.object({ id: z.string() }).optional(),
  message: z.object({ ts: z.string(), thread_ts: z.string().optional() }).optional(),
  view: z.object({ id: z.string(), type: z.string().optional() }).optional(),
});
export type ActionsPayload = z.infer<typeof actionsSchema>;
export const elementSchema = z.object({
  type: z.string(),
  value: z.string().optional(),
  action_id: z.string(),
  block_id: z.string().optional(),
  action_ts: z.string().optional(),
});
export type PressedElement = z.infer<typeof elementSchema>;

/** The press in a payload, or null when the element is no button: choosing in a form does nothing before it is sent. */
export function readPress(payload: ActionsPayload, element: PressedElement): Press | null {
  if (element.type !== 'button') return null;
  const place = placeOf(payload);
  const where = place.kind === 'message' ? `${place.channel}:${place.ts}` : (payload.view?.id ?? '');
  const of = /^[0-9a-f]+\.([0-9a-f]+):/.exec(element.block_id ?? '')?.[1];
  return {
    member: payload.user.id,
    action: decodeAction(element.value ?? ''),
    place,
    trigger: payload.trigger_id,
    responseUrl: payload.response_url ?? null,
    ...(of !== undefined && { of }),
    pressId: hashed([payload.user.id, where, element.action_id, element.action_ts ?? payload.trigger_id]),
  };
}

function placeOf({ channel, message, view }: ActionsPayload): Place {
  if (view) return view.type === 'home' ? { kind: 'home' } : { kind: 'modal', view: view.id };
  return {
    kind: 'message',
    channel: channel?.id ?? '',
    ts: message?.ts ?? '',
    threadTs: message?.thread_ts ?? null,
  };
}

/** What is read of a `message` or `app_mention` event. */
export const messageSchema = z.object({
  user: z.string().optional(),
  bot_id: z.string().optional(),
  subtype: z.string().optional(),
  text: z.string().optional(),
  channel: z.string(),
  channel_type: z.string().optional(),
  ts: z.string(),
  thread_ts: z.string().optional(),
});
export type MessageEvent = z.infer<typeof messageSchema>;

/** What the bot itself said, as it comes back. */
export const ownSchema = z.object({
  user: z.string(),
  channel: z.string(),
  ts: z.string(),
  text: z.string(),
});
export type OwnMessage = z.infer<typeof ownSchema>;

export const commandPayloadSchema = z.object({
  user_id: z.string(),
  channel_id: z.string(),
  text: z.string().default(''),
  trigger_id: z.string(),
  response_url: z.string(),
});

/**
 * The line somebody wrote to Potbell, without its mention; null for what is not for it: bots, joins, edits, deletions.
 * An edited message is not read again: it was acted on as it was written.
 */
export function readLine(
  event: MessageEvent,
  bot: string,
): { readonly member: string; readonly text: string } | null {
  if (event.bot_id !== undefined || event.user === undefined || event.user === bot) return null;
  if (event.subtype !== undefined && event.subtype !== 'file_share') return null;
  const text = unescaped((event.text ?? '').replaceAll(`<@${bot}>`, ' ')).trim();
  return { member: event.user, text };
}

/** What the platform escaped, as it was typed. */
export const unescaped = (text: string): string =>
  text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&');

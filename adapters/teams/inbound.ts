import { z } from 'zod';
import { type Action, decodeAction } from '../../src/message/action.ts';
import type { FormValues } from '../../src/message/form.ts';
import { hashed } from '../chat/marks.ts';
import { type Change, readChange } from './inbound-change.ts';
import { FILE_CONSENT, type FileAnswered, readFileAnswer } from './inbound-file.ts';
import { lineOf } from './inbound-line.ts';
import { type Activity, activitySchema, memberOf, type Place, placeOf, whoSchema } from './inbound-parts.ts';
import { type Metadata, readMetadata } from './render-metadata.ts';
import { readForm } from './render-read.ts';

/** The cards that each person sees in their own way. */
const cardNames = ['briefing', 'sign-off', 'today'] as const;
export type CardName = (typeof cardNames)[number];

/** The verb by which a card asks for what a person sees of it, by itself or from the card's menu. */
export const REFRESH = 'refresh';

interface Done {
  /**
   * The object id of the person in Microsoft Entra, which an administrator can look up and which is the same for every
   * app; it is what stands in the site pack. Where the platform leaves it out (a guest of another kind): the 29:… id.
   */
  readonly member: string;
  readonly place: Place;
  /** The same for a redelivery of the same activity, which has a new time; another for every other press. */
  readonly pressId: string;
  /** The same as well for a client that asks again under a new id; and for a second press of the same button. */
  readonly pressKey: string;
}

export interface Press extends Done {
  readonly kind: 'press';
  /** Null for a button that is not one of ours (old, cut, forged). */
  readonly action: Action | null;
  /** The mark of the shift whose message was pressed in; left out where it carries none. */
  readonly of?: string;
  /** 'refresh' is the card coming into sight: nobody pressed, and nothing may change by it. */
  readonly by: 'press' | 'refresh';
  /** Which card of ours is to be refreshed. */
  readonly card?: CardName;
  /** How it is answered: a card in place of the one pressed, a dialog, or (an old client) by a message of its own. */
  readonly answer: 'card' | 'dialog' | 'message';
}

export interface Submit extends Done {
  readonly kind: 'submit';
  readonly form: Metadata;
  readonly values: FormValues;
  readonly answer: 'card' | 'dialog' | 'message';
}

export interface Line extends Done {
  readonly kind: 'line';
  /** As it was typed, without the mention of Potbell. */
  readonly text: string;
}

/** Whether a file may go into their files. */
export interface FileAnswer extends Done, FileAnswered {
  readonly kind: 'file';
}

export type Inbound =
  | Press
  | Submit
  | Line
  | FileAnswer
  | Change
  /** `invoke`: somebody waits for an answer all the same. */
  | { readonly kind: 'ignored'; readonly what: string; readonly invoke: boolean };

const dataSchema = z.looseObject({
  action: z.unknown().optional(),
  of: z.string().optional(),
  form: z.unknown().optional(),
  card: z.enum(cardNames).optional().catch(undefined),
});
const executeSchema = z.object({
  action: z.object({ verb: z.string().optional(), data: dataSchema.optional() }),
  trigger: z.string().optional(),
});
const taskSchema = z.object({ data: dataSchema.optional() });
/** The `trigger` when nobody pressed. Same source as `readInbound`. */
const BY_ITSELF = 'automatic';

/**
 * What a verified activity is. Shapes: learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/cards/
 * universal-actions-for-adaptive-cards/work-with-universal-actions-for-adaptive-cards (adaptiveCard/action), and
 * …/task-modules/task-modules-bots (task/fetch, task/submit).
 * @throws TypeError from `readForm`, for an answer that would be lost
 */
export function readInbound(given: unknown): Inbound {
  const read = activitySchema.safeParse(given);
  if (!read.success) return ignored('an activity without its parts');
  const activity = read.data;
  switch (activity.type) {
    case 'invoke':
      return readInvoke(activity);
    case 'message':
      return readMessage(activity);
    case 'conversationUpdate':
    case 'installationUpdate':
      return readChange(activity) ?? ignored(activity.type);
  }
  return ignored(activity.type);
}

const ignored = (what: string, invoke = false): Inbound => ({ kind: 'ignored', what, invoke });

function readInvoke(activity: Activity): Inbound {
  const { name = '' } = activity;
  switch (name) {
    case 'adaptiveCard/action': {
      const value = executeSchema.safeParse(activity.value);
      if (!value.success) return ignored(name, true);
      const { action, trigger } = value.data;
      const refresh = trigger === BY_ITSELF || action.verb === REFRESH;
      return did(activity, action.data ?? {}, 'card', refresh ? 'refresh' : 'press');
    }
    case 'task/fetch':
    case 'task/submit': {
      const value = taskSchema.safeParse(activity.value);
      return value.success ? did(activity, value.data.data ?? {}, 'dialog', 'press') : ignored(name, true);
    }
    case FILE_CONSENT: {
      const who = whoSchema.safeParse(activity.from);
      const answered = readFileAnswer(activity.value);
      const place = placeOf(activity);
      // The platform knows no such thing elsewhere, and a record is not to be told of there.
      if (!who.success || answered === null || place.kind !== 'personal') return ignored(name, true);
      const member = memberOf(who.data);
      return { kind: 'file', member, place, ...answered, ...idsOf(activity, member, place, answered) };
    }
  }
  return ignored(name, true);
}

function did(
  activity: Activity,
  data: z.infer<typeof dataSchema> | Record<string, never>,
  answer: Press['answer'],
  by: Press['by'],
): Inbound {
  const who = whoSchema.safeParse(activity.from);
  if (!who.success) return ignored('a press of nobody', answer !== 'message');
  const member = memberOf(who.data);
  const place = placeOf(activity);
  const done = { member, place, ...idsOf(activity, member, place, data) };
  const form = readMetadata(data.form);
  const values = form === null ? null : readForm(data);
  if (form !== null && values !== null) return { kind: 'submit', ...done, form, values, answer };
  const { action, of, card } = data;
  return {
    kind: 'press',
    ...done,
    action: typeof action === 'string' ? decodeAction(action) : null,
    ...(of !== undefined && { of }),
    by,
    ...(card !== undefined && { card }),
    answer,
  };
}

function readMessage(activity: Activity): Inbound {
  const who = whoSchema.safeParse(activity.from);
  if (!who.success || who.data.id === activity.recipient?.id || who.data.role === 'bot')
    return ignored('a message of no person');
  // The fallback of a button, in a client that does not know the newer kind.
  const data = dataSchema.safeParse(activity.value);
  if (data.success && (data.data.action !== undefined || data.data.form !== undefined))
    return did(activity, data.data, 'message', 'press');
  const text = lineOf(activity);
  const member = memberOf(who.data);
  const place = placeOf(activity);
  return { kind: 'line', member, place, text, ...idsOf(activity, member, place, text) };
}

function idsOf(activity: Activity, member: string, place: Place, what: unknown) {
  const domain = [member, place.conversation, activity.name ?? '', place.messageId, what];
  // Every activity has an id; were it left out, two presses must not become one.
  const id = activity.id ?? activity.timestamp ?? null;
  return { pressId: hashed([id, ...domain]), pressKey: hashed(domain) };
}

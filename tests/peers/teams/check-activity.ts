/**
 * What the connector refuses in a message. Size: about 100 KB counted as UTF-16, learn.microsoft.com/
 * microsoftteams/platform/bots/how-to/format-your-bot-messages. Cards: version 1.5 at most for bots
 * (…/task-modules-and-cards/cards/cards-reference), checked by the official parser, adaptivecards 3.0.6; at most 60
 * userIds in a refresh (…/cards/universal-actions-for-adaptive-cards/user-specific-views). Teams itself is laxer
 * about some of it and shows an empty card instead: here it is refused, so that a test sees it.
 */
import { createRequire } from 'node:module';
import type * as Official from 'adaptivecards';
import { type Dict, dict, dicts, isDict, list, text } from '../slack/json.ts';
import { actionsIn, fieldsIn } from './card.ts';
import { mentionProblems, wordsIn } from './mentions.ts';
import { Refused } from './refusal.ts';
import { CARD, CONSENT, INFO } from './state.ts';

// The package's own entry does not load in Node (broken ESM paths); the bundle does.
const cards: typeof Official = createRequire(import.meta.url)('adaptivecards/dist/adaptivecards.min.js');

export const MOST_BYTES = 100 * 1024;
const MOST_REFRESHED = 60;
const MOST_BUTTONS = 6;

/** What is wrong with the card, in words; empty when it can be shown. */
export function cardProblems(card: unknown): string[] {
  if (!isDict(card)) return ['a card is an object'];
  const problems: string[] = [];
  if (card.type !== 'AdaptiveCard') problems.push('its type is not AdaptiveCard');
  const [, major = '', minor = ''] = /^(\d+)\.(\d+)$/.exec(text(card.version)) ?? [];
  if (major === '') problems.push('its version is missing');
  else if (Number(major) > 1 || Number(minor) > 5) problems.push(`version ${text(card.version)} is over 1.5`);
  if (problems.length > 0) return problems;

  const context = new cards.SerializationContext(cards.Versions.v1_5);
  const parsed = new cards.AdaptiveCard();
  // Teams shows 6 buttons and hides the rest in a menu (from memory): more are refused, so that none is hidden.
  parsed.hostConfig = new cards.HostConfig({ actions: { maxActions: MOST_BUTTONS } });
  // The parser keeps what it is given: it gets its own copy.
  parsed.parse(structuredClone(card), context);
  for (let index = 0; index < context.eventCount; index += 1) {
    problems.push(context.getEventAt(index).message);
  }
  for (const event of parsed.validateProperties().validationEvents) problems.push(event.message);

  problems.push(...mentionProblems(wordsIn(card.body), dict(card.msteams).entities));
  const ids = fieldsIn(card).map((one) => text(one.id));
  const twice = ids.find((id, index) => ids.indexOf(id) !== index);
  if (twice !== undefined) problems.push(`two fields have the id ${twice}`);
  for (const action of actionsIn(card)) {
    if (action.type === 'Action.Execute' && text(action.verb) === '')
      problems.push(`the button "${text(action.title)}" has no verb`);
  }
  if (card.refresh !== undefined) {
    const refresh = dict(card.refresh);
    if (dict(refresh.action).type !== 'Action.Execute')
      problems.push('refresh.action is not an Action.Execute');
    const users = list(refresh.userIds).length;
    if (users > MOST_REFRESHED)
      problems.push(`refresh.userIds has ${users} people, ${MOST_REFRESHED} at most`);
  }
  return problems;
}

export type Checked = { text: string; card: Dict | null };

/** Throws Refused, or says what the message holds. `size` is the length of the JSON as it came. */
export function checkActivity(activity: Dict, size: number): Checked {
  if (size * 2 > MOST_BYTES)
    throw new Refused(
      'MessageSizeTooBig',
      `Message size too large: ${size * 2} bytes, ${MOST_BYTES} at most.`,
    );
  if (activity.type === 'typing') return { text: '', card: null };
  if (activity.type !== 'message')
    throw new Refused('BadArgument', `Unknown activity type ${String(activity.type)}`);
  const attachments = dicts(activity.attachments);
  for (const one of attachments) {
    if (one.contentType === CONSENT || one.contentType === INFO) continue;
    if (one.contentType !== CARD)
      throw new Refused(
        'BadArgument',
        `This peer shows Adaptive Cards and files only, not ${String(one.contentType)}`,
      );
    const problems = cardProblems(one.content);
    if (problems.length > 0)
      throw new Refused('BadArgument', `The card cannot be shown: ${problems.join('; ')}`);
  }
  const words = text(activity.text);
  const odd = mentionProblems(words, activity.entities);
  if (odd.length > 0) throw new Refused('BadArgument', `The mentions do not fit: ${odd.join('; ')}`);
  if (words === '' && attachments.length === 0)
    throw new Refused(
      'BadSyntax',
      'Activity resulted into multiple skype activities: none (nothing to show)',
    );
  const card = attachments.find(({ contentType }) => contentType === CARD);
  return { text: words, card: card === undefined ? null : dict(card.content) };
}

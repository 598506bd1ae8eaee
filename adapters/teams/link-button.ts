import { MOST_ACTIVITY, OWN_ACTIVITY } from './limits.ts';
import type { TeamsPart } from './render.ts';
import { activitySize, type Card } from './render-card.ts';
import { plainLine } from './render-text.ts';

/** A card with a button that opens an address, which our own messages do not have. */
export type LinkCard = Omit<Card, 'body'> & {
  readonly body: readonly (Card['body'][number] | OpenSet)[];
};
interface OpenSet {
  readonly type: 'ActionSet';
  readonly actions: readonly [
    { readonly type: 'Action.OpenUrl'; readonly title: string; readonly url: string },
  ];
}

/**
 * A message with a button to a page of the board under it, such as the record of a shift. A bot can hand a file to one
 * person only, who has to consent first, and in a channel not at all without rights to the organisation's files; a link
 * works everywhere, for whoever can reach the board. Throws RangeError for an address that is not https or a card that
 * gets too long.
 */
export function withLink(
  { summary, card }: Omit<TeamsPart, 'thread'>,
  label: string,
  url: string,
): { summary: string; card: LinkCard } {
  if (!URL.canParse(url) || new URL(url).protocol !== 'https:')
    throw new RangeError(
      `"${url}" is no https address, so nobody in Teams could open it. Give the board's own one.`,
    );
  const open: OpenSet = {
    type: 'ActionSet',
    actions: [{ type: 'Action.OpenUrl', title: plainLine(label), url }],
  };
  const made = { summary, card: { ...card, body: [...card.body, open] } };
  const size = activitySize({ summary, card }) + JSON.stringify(open).length + 1;
  if (size > MOST_ACTIVITY - OWN_ACTIVITY)
    throw new RangeError(
      `With the link to ${new URL(url).origin} the message is too long. Post the link by itself.`,
    );
  return made;
}

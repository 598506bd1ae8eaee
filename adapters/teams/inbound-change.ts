import { type Activity, memberOf, type Place, placeOf, type Who, whoSchema } from './inbound-parts.ts';

interface Changed {
  readonly place: Place;
}

/** The app or people coming and going, and names. */
export type Change =
  /** The app is there now. `by` is who put it there. */
  | (Changed & { readonly kind: 'installed'; readonly by: string | null })
  /** It is gone: from the team with all its channels, from one channel, or from somebody's own chat. */
  | (Changed & {
      readonly kind: 'removed';
      readonly what: 'team' | 'channel' | 'chat';
      /** Who took it out; in their own chat the person themselves. */
      readonly by: string | null;
    })
  | (Changed & { readonly kind: 'renamed'; readonly what: 'team' | 'channel'; readonly name: string })
  | (Changed & {
      readonly kind: 'members';
      readonly joined: readonly Who[];
      readonly left: readonly Who[];
    });

/**
 * learn.microsoft.com/microsoftteams/platform/bots/how-to/conversations/subscribe-to-conversation-events. Coming and
 * going is told by two activities: each alone is enough, and a second one changes nothing. Null for all other changes.
 */
export function readChange(activity: Activity): Change | null {
  const place = placeOf(activity);
  const { action, channelData, recipient, membersAdded = [], membersRemoved = [] } = activity;
  const by = whoSchema.safeParse(activity.from);
  const removed = place.team === null ? 'chat' : 'team';
  const who = by.success ? memberOf(by.data) : null;
  const installed = { kind: 'installed', place, by: who } as const;
  const gone = { kind: 'removed', place, what: removed, by: who } as const;
  if (activity.type === 'installationUpdate') {
    // "add-upgrade" and "remove-upgrade" come with a new version of the app, which goes on being there.
    if (action === 'add' || action === 'add-upgrade') return installed;
    return action === 'remove' ? gone : null;
  }
  if (membersAdded.some(({ id }) => id === recipient?.id)) return installed;
  if (membersRemoved.some(({ id }) => id === recipient?.id)) return gone;
  if (membersAdded.length + membersRemoved.length > 0)
    return { kind: 'members', place, joined: membersAdded, left: membersRemoved };
  switch (channelData?.eventType) {
    case 'teamDeleted':
      return { ...gone, what: 'team' };
    case 'channelDeleted':
      return { ...gone, place: ofChannel(place, channelData), what: 'channel' };
    case 'teamRenamed':
      return { kind: 'renamed', place, what: 'team', name: channelData.team?.name ?? '' };
    case 'channelRenamed':
      return {
        kind: 'renamed',
        place: ofChannel(place, channelData),
        what: 'channel',
        name: channelData.channel?.name ?? '',
      };
  }
  return null;
}

/** The event can come in the team's first channel and be about another. */
const ofChannel = (place: Place, { channel }: NonNullable<Activity['channelData']>): Place => ({
  ...place,
  conversation: channel?.id ?? place.conversation,
});

/** What the platform sends to the app: events, clicks, submissions, commands. Shapes: types of @slack/bolt 5.1.0. */
import type { Dict } from './json.ts';
import { userOf, type Workspace } from './state.ts';
import type { ChannelState, MessageState, ViewState } from './types.ts';
import { channelType, messageShape, viewShape } from './wire.ts';

/** The old verification token; apps check signatures instead. */
const TOKEN = 'unused-verification-token';

export function postedEvent(channel: ChannelState, message: MessageState): Dict {
  return {
    ...messageShape(message),
    channel: channel.id,
    channel_type: channelType(channel),
    event_ts: message.ts,
  };
}

/** The outer event around one inner event. */
export function eventBody(space: Workspace, event: Dict): Dict {
  const { teamId, appId, userId } = space.bot;
  return {
    token: TOKEN,
    team_id: teamId,
    api_app_id: appId,
    type: 'event_callback',
    event_id: space.ids.id('Ev'),
    event_time: Math.floor(space.clock.now() / 1000),
    event,
    authorizations: [
      { enterprise_id: null, team_id: teamId, user_id: userId, is_bot: true, is_enterprise_install: false },
    ],
    is_ext_shared_channel: false,
  };
}

function common(space: Workspace, userId: string): Dict {
  const user = userOf(space, userId);
  return {
    user: { id: userId, username: user.name, name: user.name, team_id: space.bot.teamId },
    api_app_id: space.bot.appId,
    token: TOKEN,
    team: { id: space.bot.teamId, domain: space.bot.teamDomain },
    enterprise: null,
    is_enterprise_install: false,
  };
}

export type Acted = { action: Dict; values: unknown; triggerId: string };

export function messageActions(
  space: Workspace,
  userId: string,
  channel: ChannelState,
  message: MessageState,
  { action, values, triggerId }: Acted,
  responseUrl: string,
): Dict {
  return {
    type: 'block_actions',
    ...common(space, userId),
    container: {
      type: 'message',
      message_ts: message.ts,
      channel_id: channel.id,
      is_ephemeral: message.ephemeralTo !== null,
      ...(message.threadTs === null ? {} : { thread_ts: message.threadTs }),
    },
    trigger_id: triggerId,
    channel: { id: channel.id, name: channel.kind === 'im' ? 'directmessage' : channel.name },
    // An ephemeral message is not sent back: the app has only its channel and ts.
    ...(message.ephemeralTo === null ? { message: messageShape(message, true) } : {}),
    state: { values },
    response_url: responseUrl,
    actions: [action],
  };
}

export function viewActions(space: Workspace, view: ViewState, { action, values, triggerId }: Acted): Dict {
  return {
    type: 'block_actions',
    ...common(space, view.user),
    container: { type: 'view', view_id: view.id },
    trigger_id: triggerId,
    view: viewShape(space, view),
    state: { values },
    actions: [action],
  };
}

export function submission(space: Workspace, view: ViewState, triggerId: string): Dict {
  return {
    type: 'view_submission',
    ...common(space, view.user),
    trigger_id: triggerId,
    view: viewShape(space, view),
    response_urls: [],
  };
}

export function closing(space: Workspace, view: ViewState, cleared: boolean): Dict {
  return {
    type: 'view_closed',
    ...common(space, view.user),
    view: viewShape(space, view),
    is_cleared: cleared,
  };
}

export type Typed = { command: string; text: string; triggerId: string; responseUrl: string };

export function slashCommand(space: Workspace, userId: string, channel: ChannelState, typed: Typed): Dict {
  const user = userOf(space, userId);
  return {
    token: TOKEN,
    team_id: space.bot.teamId,
    team_domain: space.bot.teamDomain,
    channel_id: channel.id,
    channel_name: channel.kind === 'im' ? 'directmessage' : channel.name,
    user_id: userId,
    user_name: user.name,
    command: typed.command,
    text: typed.text,
    api_app_id: space.bot.appId,
    is_enterprise_install: 'false',
    response_url: typed.responseUrl,
    trigger_id: typed.triggerId,
  };
}

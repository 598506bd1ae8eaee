/** Messages, views, people and channels in the platform's own shapes. */
import type { Dict } from './json.ts';
import type { Workspace } from './state.ts';
import type { ChannelState, MessageState, UserSeed, ViewState } from './types.ts';

/** Blocks as the platform keeps them: every block has a block_id and every element an action_id. */
export function withIds(space: Workspace, blocks: readonly Dict[]): Dict[] {
  return blocks.map((block) => {
    const out: Dict = { ...block, block_id: block.block_id ?? space.ids.id('blk') };
    if (Array.isArray(block.elements) && (block.type === 'actions' || block.type === 'context_actions')) {
      out.elements = block.elements.map((one) => withAction(space, one));
    }
    if (block.accessory !== undefined) out.accessory = withAction(space, block.accessory);
    if (block.element !== undefined) out.element = withAction(space, block.element);
    return out;
  });
}

function withAction(space: Workspace, element: unknown): unknown {
  if (typeof element !== 'object' || element === null) return element;
  const type = 'type' in element ? element.type : undefined;
  if (type === 'image') return element;
  return { ...element, action_id: 'action_id' in element ? element.action_id : space.ids.id('act') };
}

export function messageShape(message: MessageState, withMetadata = false): Dict {
  return {
    type: 'message',
    ts: message.ts,
    user: message.user,
    text: message.text,
    ...(message.botId === null ? {} : { bot_id: message.botId }),
    ...(message.subtype === null ? {} : { subtype: message.subtype }),
    ...(message.threadTs === null ? {} : { thread_ts: message.threadTs }),
    ...(message.blocks.length === 0 ? {} : { blocks: message.blocks }),
    ...(message.attachments.length === 0 ? {} : { attachments: message.attachments }),
    ...(message.files.length === 0 ? {} : { files: message.files }),
    ...(message.edited ? { edited: { user: message.user, ts: message.ts } } : {}),
    ...(withMetadata && message.metadata !== null ? { metadata: message.metadata } : {}),
  };
}

export function viewShape(space: Workspace, view: ViewState): Dict {
  const { view: sent } = view;
  return {
    private_metadata: '',
    callback_id: '',
    clear_on_close: false,
    notify_on_close: false,
    close: null,
    submit: null,
    ...sent,
    id: view.id,
    team_id: space.bot.teamId,
    external_id: view.externalId,
    state: { values: view.typed },
    hash: view.hash,
    root_view_id: view.rootId,
    previous_view_id: view.previousId,
    app_id: space.bot.appId,
    app_installed_team_id: space.bot.teamId,
    bot_id: space.bot.botId,
  };
}

export function userShape(space: Workspace, user: UserSeed): Dict {
  const isBot = user.isBot === true;
  return {
    id: user.id,
    team_id: space.bot.teamId,
    name: user.name,
    deleted: user.deleted === true,
    real_name: user.realName ?? user.name,
    tz: user.tz ?? 'Etc/UTC',
    locale: user.locale ?? 'en-US',
    is_bot: isBot,
    is_app_user: false,
    is_restricted: user.guest === true,
    is_ultra_restricted: false,
    profile: { real_name: user.realName ?? user.name, display_name: user.name },
  };
}

export function channelShape(channel: ChannelState): Dict {
  if (channel.kind === 'im') {
    return {
      id: channel.id,
      is_im: true,
      is_channel: false,
      user: [...channel.members][0] ?? '',
      is_archived: false,
    };
  }
  return {
    id: channel.id,
    name: channel.name,
    is_channel: channel.kind === 'public',
    is_group: channel.kind === 'private',
    is_im: false,
    is_private: channel.kind === 'private',
    is_archived: channel.archived,
    is_member: channel.botIn,
    num_members: channel.members.size + (channel.botIn ? 1 : 0),
  };
}

export function channelType(channel: ChannelState): 'channel' | 'group' | 'im' {
  return channel.kind === 'public' ? 'channel' : channel.kind === 'private' ? 'group' : 'im';
}

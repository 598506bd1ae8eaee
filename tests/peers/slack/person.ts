/** What people do in conversations and on their Home: press, command, write, join. */
import type { Delivery } from './deliver.ts';
import { fieldsIn, startValues } from './fill.ts';
import { actionOf, findSpot, type Wanted } from './find.ts';
import type { Dict } from './json.ts';
import { Refused } from './methods/method.ts';
import { messageActions, postedEvent, slashCommand, viewActions } from './payloads.ts';
import { respond } from './response-url.ts';
import { addMessage, channelOf, dmId, findMessage, openDm, userOf, type Workspace } from './state.ts';
import { mintResponse, mintTrigger } from './triggers.ts';
import type { ChannelState, Outcome, ViewState } from './types.ts';
import { stackOf } from './views.ts';
import { channelType, messageShape, viewShape } from './wire.ts';

export type SayOptions = { threadTs?: string; edited?: string; deleted?: string; subtype?: string };
export type Said = Outcome & { ts: string };

export type Person = {
  /** Presses or chooses in the message as it stands now. Throws when it is not there, or not once. */
  press(userId: string, wanted: { channel: string; ts: string } & Wanted): Promise<Outcome>;
  pressIn(userId: string, where: 'home' | 'modal', wanted: Wanted): Promise<Outcome>;
  command(userId: string, command: string, text: string, channelId: string): Promise<Outcome>;
  /** Writes, or with `edited` / `deleted` (a ts) changes or takes away what this person wrote before. */
  say(userId: string, channelId: string, text: string, options?: SayOptions): Promise<Said>;
  openHome(userId: string): Promise<Outcome>;
  joins(userId: string, channelId: string): Promise<Outcome>;
  leaves(userId: string, channelId: string): Promise<Outcome>;
};

export function startPerson(space: Workspace, delivery: Delivery, origin: () => string): Person {
  const stamp = (): string => space.ids.ts(space.clock.now());

  function inside(userId: string, channelId: string): ChannelState {
    userOf(space, userId);
    const channel = channelId === dmId(userId) ? openDm(space, userId) : channelOf(space, channelId);
    if (!channel.members.has(userId)) throw new Error(`${userId} is not in ${channelId} and cannot see it.`);
    return channel;
  }

  function responseUrl(user: string, channel: string, messageTs: string | null): string {
    return `${origin()}/response/${mintResponse(space, { user, channel, messageTs })}`;
  }

  function viewNow(userId: string, where: 'home' | 'modal'): ViewState {
    const view = where === 'home' ? space.homes.get(userId) : stackOf(space, userId).at(-1);
    if (view === undefined) throw new Error(`${userId} has no ${where} open.`);
    return view;
  }

  async function both(events: readonly Dict[]): Promise<Outcome> {
    const outcomes: Outcome[] = [];
    for (const event of events) outcomes.push(await delivery.event(event));
    const heard = outcomes.filter((one) => one.status !== 'not_subscribed');
    return (
      heard.find((one) => !one.acked) ?? heard[0] ?? { acked: false, status: 'not_subscribed', body: {} }
    );
  }

  function written(userId: string, channel: ChannelState, words: string, options: SayOptions): string {
    const { threadTs = null, subtype = null } = options;
    return addMessage(space, channel, { user: userId, text: words, threadTs, subtype }).ts;
  }

  function saidEvents(
    userId: string,
    channel: ChannelState,
    words: string,
    options: SayOptions,
  ): [string, Dict[]] {
    const target = options.edited ?? options.deleted;
    const base = { type: 'message', channel: channel.id, channel_type: channelType(channel), hidden: true };
    if (target === undefined) {
      const ts = written(userId, channel, words, options);
      const message = findMessage(channel, ts);
      if (message === undefined) throw new Error(`The message ${ts} went missing.`);
      const event = postedEvent(channel, message);
      const named = words.includes(`<@${space.bot.userId}>`) && channel.kind !== 'im';
      return [ts, named ? [event, { ...event, type: 'app_mention' }] : [event]];
    }
    const message = findMessage(channel, target);
    if (message === undefined) throw new Error(`There is no message ${target} in ${channel.id} any more.`);
    if (message.user !== userId) throw new Error(`${userId} did not write ${target}; ${message.user} did.`);
    const previous = messageShape(message);
    if (options.deleted !== undefined) {
      message.deleted = true;
      const more = { subtype: 'message_deleted', deleted_ts: target, previous_message: previous };
      return [target, [{ ...base, ...more, event_ts: stamp(), ts: stamp() }]];
    }
    message.text = words;
    message.edited = true;
    const more = { subtype: 'message_changed', message: messageShape(message), previous_message: previous };
    return [target, [{ ...base, ...more, event_ts: stamp(), ts: stamp() }]];
  }

  return {
    async press(userId, wanted) {
      const channel = inside(userId, wanted.channel);
      const message = findMessage(channel, wanted.ts);
      if (message === undefined)
        throw new Error(`There is no message ${wanted.ts} in ${channel.id} any more.`);
      if (message.ephemeralTo !== null && message.ephemeralTo !== userId) {
        throw new Error(`Only ${message.ephemeralTo} can see message ${wanted.ts}.`);
      }
      const spot = findSpot(message.blocks, wanted, `message ${wanted.ts}`);
      const action = actionOf(spot, wanted, stamp());
      const values = startValues({ blocks: message.blocks });
      const triggerId = mintTrigger(space, userId, null);
      const url = responseUrl(userId, channel.id, message.ts);
      const acted = { action, values, triggerId };
      return delivery.interact('interactive', messageActions(space, userId, channel, message, acted, url));
    },

    async pressIn(userId, where, wanted) {
      const view = viewNow(userId, where);
      const blocks = Array.isArray(view.view.blocks) ? view.view.blocks : [];
      const spot = findSpot(blocks, wanted, `${where} of ${userId}`);
      const action = actionOf(spot, wanted, stamp());
      const field = fieldsIn(view.view).find((one) => one.element === spot.element);
      if (field !== undefined) {
        const { action_id: _1, block_id: _2, action_ts: _3, ...value } = action;
        view.typed[field.blockId] = { ...view.typed[field.blockId], [field.actionId]: value };
      }
      const triggerId = mintTrigger(space, userId, where === 'modal' ? view.id : null);
      return delivery.interact(
        'interactive',
        viewActions(space, view, { action, values: view.typed, triggerId }),
      );
    },

    async command(userId, command, words, channelId) {
      if (!command.startsWith('/')) throw new Error(`A command starts with "/": write "/${command}".`);
      const channel = inside(userId, channelId);
      const triggerId = mintTrigger(space, userId, null);
      const typed = { command, text: words, triggerId, responseUrl: responseUrl(userId, channelId, null) };
      const outcome = await delivery.interact('slash_commands', slashCommand(space, userId, channel, typed));
      const { body } = outcome;
      if (!outcome.acked || (body.text === undefined && body.blocks === undefined)) return outcome;
      try {
        respond(space, { user: userId, channel: channelId, messageTs: null }, body);
        return outcome;
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        return { ...outcome, acked: false, status: 'bad_response', problem: JSON.stringify(error.reply) };
      }
    },

    async say(userId, channelId, words, options = {}) {
      const channel = inside(userId, channelId);
      const [ts, events] = saidEvents(userId, channel, words, options);
      return { ...(await both(events)), ts };
    },

    openHome(userId) {
      const channel = openDm(space, userOf(space, userId).id);
      const home = space.homes.get(userId);
      return delivery.event({
        type: 'app_home_opened',
        user: userId,
        channel: channel.id,
        tab: 'home',
        event_ts: stamp(),
        ...(home === undefined ? {} : { view: viewShape(space, home) }),
      });
    },

    joins(userId, channelId) {
      userOf(space, userId);
      const channel = channelOf(space, channelId);
      if (channel.kind === 'im') throw new Error(`Nobody joins the direct conversation ${channelId}.`);
      channel.members.add(userId);
      return delivery.event(memberEvent('member_joined_channel', userId, channel));
    },

    leaves(userId, channelId) {
      const channel = inside(userId, channelId);
      channel.members.delete(userId);
      return delivery.event(memberEvent('member_left_channel', userId, channel));
    },
  };

  function memberEvent(type: string, user: string, channel: ChannelState): Dict {
    const letter = channel.kind === 'private' ? 'G' : 'C';
    return {
      type,
      user,
      channel: channel.id,
      channel_type: letter,
      team: space.bot.teamId,
      event_ts: stamp(),
    };
  }
}

import { App, type Receiver } from '@slack/bolt';
import { type Again, onTimer } from '../chat/again.ts';
import { guarded } from '../chat/guarded.ts';
import { hashed } from '../chat/marks.ts';
import { takePress } from '../chat/press.ts';
import { createSeen } from '../chat/seen.ts';
import type { Showing } from '../chat/showing.ts';
import { takeLine } from '../chat/typed.ts';
import type { Log } from '../host/log.ts';
import type { ReplyTo } from './answer.ts';
import { slackLogger } from './client.ts';
import { slackSurface } from './deliver.ts';
import { answerSubmit, type SubmitPayload } from './forms.ts';
import { createHomes } from './home.ts';
import {
  actionsSchema,
  commandPayloadSchema,
  elementSchema,
  messageSchema,
  type OwnMessage,
  ownSchema,
  readLine,
  readPress,
  unescaped,
} from './inbound.ts';
import type { Sender } from './sender.ts';
import type { SlackServices } from './services.ts';
import { showingTo } from './showing.ts';

export interface BotIds {
  readonly botId: string;
  readonly botUserId: string;
}

/** What somebody typed, pressed or sent, brought to Potbell; and what Potbell says, brought to Slack. */
export function createSlackApp(
  services: SlackServices,
  out: Sender,
  own: (event: OwnMessage) => void,
  again: Again = onTimer,
) {
  const { log } = services;
  const surface = slackSurface(services, out);
  const homes = createHomes(services, out, again);
  const seen = createSeen();

  /** With where its answer can be shown, and nobody left without one. */
  function answering(member: string, to: ReplyTo, work: (show: Showing) => Promise<void>): Promise<void> {
    const show = showingTo(services, out, to);
    return guarded(services, 'Slack', member, show, () => work(show));
  }

  /** Bolt with its receiver around these handlers. `ids` are the bot's own: what it says itself is not read. */
  function connect(receiver: Receiver, ids: BotIds, token: string): App {
    const app = new App({
      receiver,
      logger: slackLogger(log),
      // The store of a token is the environment; nothing is asked of Slack before it is needed.
      authorize: async () => ({ botToken: token, ...ids }),
      // Its own backstop notices come back as messages: that is how it learns that one was shown.
      ignoreSelf: false,
    });

    app.action(/.*/, async ({ ack, body, action }) => {
      const element = elementSchema.safeParse(action);
      const payload = actionsSchema.safeParse(body);
      const press = element.success && payload.success ? readPress(payload.data, element.data) : null;
      if (press === null || seen.before(press.pressId)) return ack();
      await answering(press.member, press, (show) =>
        takePress(services, surface.put, show, press, () => ack()),
      );
    });

    app.view(/.*/, async ({ ack, body, view }) => {
      const payload: SubmitPayload = { user: body.user, view };
      const pressId = hashed([view.id, view.hash, view.state.values]);
      const where = {
        place: { kind: 'modal', view: view.id },
        trigger: null,
        responseUrl: null,
        pressId,
      } as const;
      await answering(body.user.id, where, async () => ack(await answerSubmit(services, payload)));
    });

    app.command('/potbell', async ({ ack, command }) => {
      const { user_id, channel_id, text, trigger_id, response_url } = commandPayloadSchema.parse(command);
      const pressId = hashed([user_id, trigger_id]);
      if (seen.before(pressId)) return ack();
      const line = {
        member: user_id,
        text: unescaped(text),
        place: { kind: 'message', channel: channel_id, ts: '', threadTs: null },
        trigger: trigger_id,
        responseUrl: response_url,
        pressId,
      } as const;
      await answering(user_id, line, (show) => takeLine(services, surface.put, show, line, () => ack()));
    });

    app.event('message', async ({ event, body }) => {
      if (seen.before(body.event_id)) return;
      const message = ownSchema.safeParse(event);
      if (message.success && message.data.user === ids.botUserId) own(message.data);
      if (event.channel_type !== 'im') return;
      await line(event, ids);
    });
    app.event('app_mention', async ({ event, body }) => {
      if (!seen.before(body.event_id)) await line(event, ids);
    });
    app.event('app_home_opened', async ({ event, body }) => {
      if (event.tab === 'home' && !seen.before(body.event_id)) await homes.opened(event.user);
    });
    app.error(async (error) => log.error({ err: error }, 'Slack: a handler failed'));
    return app;
  }

  async function line(event: unknown, { botUserId }: BotIds): Promise<void> {
    const parsed = messageSchema.safeParse(event);
    const read = parsed.success ? readLine(parsed.data, botUserId) : null;
    if (!parsed.success || read === null) return;
    const { channel, ts, thread_ts } = parsed.data;
    const pressId = hashed([channel, ts]);
    const where = {
      ...read,
      place: { kind: 'message', channel, ts, threadTs: thread_ts ?? null },
      trigger: null,
      responseUrl: null,
      pressId,
    } as const;
    await answering(read.member, where, (show) =>
      takeLine(services, surface.put, show, where, async () => undefined),
    );
  }

  return { surface, homes, connect };
}

export type SlackApp = ReturnType<typeof createSlackApp>;
export type { Log };

import { App, HTTPReceiver } from '@slack/bolt';
import { expect, it } from 'vitest';
import { refIn } from '../../src/chat/backstop-ref.ts';
import { mixed } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';
import { CHANNEL, MINUTE, withWorld } from './backstops-world.ts';

// Bolt drops an app's own messages unless it is told not to: node_modules/@slack/bolt, `ignoreSelf`.
it('the message event of a notice that came too late to be taken back leads to its edit', () =>
  withWorld(t('08:00'), async (world) => {
    const { slack } = world;
    const receiver = new HTTPReceiver({ signingSecret: slack.signingSecret });
    const { botId, userId: botUserId } = slack.bot;
    const app = new App({
      ...{ token: slack.tokens.bot, botId, botUserId, tokenVerificationEnabled: false },
      ...{ receiver, ignoreSelf: false, clientOptions: { slackApiUrl: slack.apiUrl } },
    });
    let heard = 0;
    app.message(async ({ message }) => {
      const text = 'text' in message ? (message.text ?? '') : '';
      const ref = refIn(text);
      const plain = message.subtype === undefined || message.subtype === 'bot_message';
      if (plain && ref !== null) await world.backstops.fired(ref, message.ts);
      heard += 1;
    });
    const server = await receiver.start({ port: 0, host: '127.0.0.1' });
    const address = server.address();
    if (address === null || typeof address === 'string') throw new Error('The app is not listening.');
    slack.httpTo(`http://127.0.0.1:${address.port}/slack/events`);
    try {
      const play = mixed();
      await world.sync(play);
      const postAt = slack.scheduled()[0]?.postAt ?? 0;
      play.at(postAt - 12 * MINUTE).do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
      play.flushTo('primary-flush');
      await world.sync(play);
      slack.clock.advance(6 * MINUTE);
      await slack.until(() => heard >= 1 && slack.messages(CHANNEL)[0]?.edited === true);
      expect(slack.messages(CHANNEL)).toHaveLength(1);
      expect(slack.messages(CHANNEL)[0]?.text).toContain('the mixed paint is out');
      await slack.settled();
      expect(slack.callsOf('chat.update')).toHaveLength(1);
    } finally {
      const gone = receiver.stop();
      server.closeAllConnections();
      await gone;
    }
  }));

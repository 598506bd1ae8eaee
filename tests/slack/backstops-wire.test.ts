import { expect, it } from 'vitest';
import { backstopSender } from '../../adapters/slack/backstop-wire.ts';
import { createSlackClient } from '../../adapters/slack/client.ts';
import { createSender } from '../../adapters/slack/sender.ts';
import { createPace } from '../../src/chat/pace.ts';
import { mixed } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';
import { MINUTE, withWorld } from './backstops-world.ts';

it('through the sender of all other messages: set at the second, found again, withdrawn late, edited', () =>
  withWorld(t('08:00'), async (world) => {
    const { slack } = world;
    const log = { info: () => {}, warn: () => {}, error: () => {} };
    const client = createSlackClient({ token: slack.tokens.bot, log, apiUrl: slack.apiUrl });
    const sender = backstopSender(createSender({ client, clock: slack.clock, pace: createPace(), log }));
    world.start(() => sender);
    const play = mixed();
    await world.sync(play);
    const [wanted] = world.day(play.state).wanted;
    expect(slack.scheduled()).toMatchObject([{ postAt: wanted?.postAt, text: wanted?.text, blocks: [] }]);
    // A process that remembers nothing.
    await world.memory.remove('slack', `backstop:${wanted?.ref}`);
    world.start(() => sender);
    await world.sync(play);
    expect(slack.callsOf('chat.scheduleMessage')).toHaveLength(1);
    play.at((wanted?.postAt ?? 0) - 12 * MINUTE).do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo('primary-flush');
    await world.sync(play);
    expect(await world.stateOf(wanted?.ref ?? '')).toBe('cancel_uncertain');
    slack.clock.advance(6 * MINUTE);
    await world.hear();
    expect(world.posted()).toMatchObject([{ edited: true, blocks: [] }]);
  }));

it('a wait that the platform names is not cried out the first time', () =>
  withWorld(t('08:00'), async (world) => {
    const { slack } = world;
    const log = { info: () => {}, warn: () => {}, error: () => {} };
    const client = createSlackClient({ token: slack.tokens.bot, log, apiUrl: slack.apiUrl });
    world.start(() => backstopSender(createSender({ client, clock: slack.clock, pace: createPace(), log })));
    slack.fault('chat.scheduleMessage', { kind: '429', retryAfter: 3 });
    await world.sync(mixed());
    expect(slack.scheduled()).toEqual([]);
    expect(world.troubles).toEqual([]);
    slack.clock.advance(3000);
    await world.backstops.retry();
    expect(slack.scheduled()).toHaveLength(1);
  }));

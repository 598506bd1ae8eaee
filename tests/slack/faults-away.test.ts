import { describe, expect, it } from 'vitest';
import type { SlackPeer } from '../peers/slack/peer.ts';
import { handTimers } from './by-hand.ts';
import { type Crew, type CrewOptions, crewOnSlack } from './crew.ts';
import { dayOf, mustOnBoard, today, wrongIn } from './faults.ts';

type Timers = ReturnType<typeof handTimers>;

async function withCrew(options: CrewOptions, test: (crew: Crew, timers: Timers) => Promise<void>) {
  const timers = handTimers();
  const crew = await crewOnSlack({ again: timers.again, ...options });
  try {
    await test(crew, timers);
  } finally {
    await crew.close();
  }
}

const problems = async (crew: Crew) => (await crew.potbell.host.health()).problems;
const about = async (crew: Crew) => (await problems(crew)).filter((one) => one.includes('Slack')).join(' ');

/** The timers go off again and again until Slack is joined; each try ends in a wait or in a connection. */
async function untilJoined(slack: SlackPeer, timers: Timers): Promise<void> {
  const before = slack.socketsOpened();
  while (slack.socketsOpened() === before) {
    await slack.until(() => timers.waits().length > 0 || slack.socketsOpened() > before);
    timers.goOff();
  }
}

async function settledTo(crew: Crew, holds: () => Promise<boolean>): Promise<void> {
  for (;;) {
    if (await holds()) return;
    let turns = 0;
    await crew.slack.until(() => {
      turns += 1;
      return turns > 5;
    });
  }
}

describe('Slack is not to be had at the start', () => {
  it('down: Potbell runs, says so in words and joins when it is up', () =>
    withCrew({ joined: false, prepare: (slack) => slack.down(true) }, async (crew, timers) => {
      await crew.slack.until(() => timers.waits().length === 1);
      expect(await about(crew)).toMatch(/^Slack is not joined\. Slack cannot be reached \(ECONNREFUSED\)\.$/);
      expect(timers.waits()).toEqual([2_000]);
      for (const wait of [4_000, 8_000, 16_000, 32_000, 60_000, 60_000]) {
        timers.goOff();
        await crew.slack.until(() => timers.waits().length === 1);
        expect(timers.waits()).toEqual([wait]);
      }
      await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
      crew.pass(30 * 60_000);
      await crew.potbell.host.bells.runDue();
      await crew.potbell.host.outbox.drain();
      await crew.slack.down(false);
      await untilJoined(crew.slack, timers);
      await crew.deliver();
      await settledTo(crew, async () => (await about(crew)) === '');
      expect(await wrongIn(crew)).toEqual([]);
    }));

  it('a token that is not taken: the same, and nothing is given up meanwhile', () =>
    withCrew({ joined: false, prepare: (slack) => slack.badToken(true) }, async (crew, timers) => {
      await crew.slack.until(() => timers.waits().length === 1);
      expect(await about(crew)).toMatch(/^Slack is not joined\. .*install the app.*\(invalid_auth\)\.$/);
      expect(await about(crew)).not.toContain('xox');
      await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
      crew.pass(30 * 60_000);
      await crew.potbell.host.bells.runDue();
      for (let seconds = 0; seconds < 40; seconds += 1) {
        await crew.potbell.host.outbox.drain();
        crew.pass(1_000);
      }
      crew.slack.badToken(false);
      await untilJoined(crew.slack, timers);
      await crew.deliver();
      await settledTo(crew, async () => (await about(crew)) === '');
      expect(await wrongIn(crew)).toEqual([]);
      expect((await today(crew)).undelivered).toEqual([]);
    }));
});

describe('the connection', () => {
  it('that Slack recycles is opened anew, and presses arrive again', () =>
    withCrew({}, async (crew, timers) => {
      await settledTo(crew, async () => (await about(crew)) === '');
      crew.pass(60_000);
      crew.slack.recycleSockets();
      await crew.slack.until(() => timers.waits().length === 1);
      expect(await about(crew)).toContain('presses there do not arrive until it is back');
      // It had stood for a while: at once.
      expect(timers.waits()).toEqual([100]);
      await untilJoined(crew.slack, timers);
      await settledTo(crew, async () => (await about(crew)) === '');
      const sent = await crew.slack.openHome(crew.member('ines'));
      expect(sent).toMatchObject({ acked: true });
    }));

  it('that is lost while the token is taken away: Potbell goes on, and joins with the token', () =>
    withCrew({}, async (crew, timers) => {
      crew.slack.badToken(true);
      crew.slack.recycleSockets('link_disabled');
      await crew.slack.until(() => timers.waits().length === 1);
      timers.goOff();
      await crew.slack.until(() => timers.waits().length === 1);
      expect(await about(crew)).toContain('invalid_auth');
      crew.slack.badToken(false);
      await untilJoined(crew.slack, timers);
      await settledTo(crew, async () => (await about(crew)) === '');
    }));

  it('that closes again and again is not opened in a frenzy', () =>
    withCrew({}, async (crew, timers) => {
      const waits: number[] = [];
      await settledTo(crew, async () => (await about(crew)) === '');
      for (let times = 1; times <= 4; times += 1) {
        crew.slack.recycleSockets();
        await crew.slack.until(() => timers.waits().length === 1);
        waits.push(...timers.waits());
        await untilJoined(crew.slack, timers);
        await settledTo(crew, async () => (await about(crew)) === '');
      }
      expect(waits).toEqual([2_000, 4_000, 8_000, 16_000]);
    }));
});

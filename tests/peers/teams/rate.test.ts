import { describe, expect, it } from 'vitest';
import { startClock } from '../slack/clock.ts';
import { fetchToken } from './bot.ts';
import type { TeamsPeer } from './peer.ts';
import { startRates } from './rate.ts';
import { ANA, at, CREW, call, DOCK, posted, START, withPeer, words } from './world.ts';

// learn.microsoft.com/microsoftteams/platform/bots/how-to/rate-limit, table "per bot per thread" and the global limit.
describe('throttling, by the peer’s clock', () => {
  const sends = async (teams: TeamsPeer, conversation: string, times: number) => {
    const { token } = await fetchToken(teams);
    const answers = [];
    for (let n = 0; n < times; n += 1)
      answers.push(await call(teams, 'POST', at(conversation), words('x'), token));
    return answers.map((one) => (one.status === 429 ? `429 ${one.retryAfter}` : one.status));
  };
  const many = (times: number): number[] => Array.from({ length: times }, () => 201);

  it('takes 7 messages in 1 s, 8 in 2 s, 60 in 30 s in one conversation', () =>
    withPeer(async (teams) => {
      expect(await sends(teams, CREW, 8)).toEqual([...many(7), '429 1']);
      expect(await sends(teams, DOCK, 1)).toEqual([201]);
      teams.clock.advance(1000);
      expect(await sends(teams, CREW, 2)).toEqual([201, '429 1']);
      for (let sent = 8; sent < 60; sent += 4) {
        teams.clock.advance(2000);
        expect(await sends(teams, CREW, 4)).toEqual(many(4));
      }
      // 27 s have gone by: the first seven leave the window of 30 s in 3 s.
      expect(await sends(teams, CREW, 1)).toEqual(['429 3']);
      teams.clock.advance(3000);
      expect(await sends(teams, CREW, 1)).toEqual([201]);
    }));

  it('counts threads of a channel together, and updates as sends', () =>
    withPeer(async (teams) => {
      const root = await posted(teams, DOCK, words('root'));
      expect(await sends(teams, `${DOCK};messageid=${root}`, 5)).toEqual(many(5));
      expect((await call(teams, 'PUT', `${at(DOCK)}/${root}`, words('new'))).status).toBe(200);
      expect(await sends(teams, DOCK, 1)).toEqual(['429 1']);
      expect(teams.messages(DOCK).length).toBe(6);
    }));

  it('takes 14 questions for members, 30 calls in all, and any number with the limits off', async () => {
    const asks = async (teams: TeamsPeer, times: number): Promise<number[]> => {
      const { token } = await fetchToken(teams);
      const path = at(CREW).replace('/activities', '/members');
      const answers = [];
      for (let n = 0; n < times; n += 1)
        answers.push((await call(teams, 'GET', path, undefined, token)).status);
      return answers;
    };
    await withPeer(async (teams) => {
      expect((await asks(teams, 15)).filter((one) => one === 200).length).toBe(14);
      const others = [CREW, DOCK, teams.chat(ANA)];
      const all = [];
      for (const one of others) all.push(...(await sends(teams, one, 7)));
      expect(all.filter((one) => one === 201).length).toBe(30 - 14);
    });
    await withPeer(async (teams) => expect(await sends(teams, CREW, 9)).toEqual(many(9)), { limits: false });
  });

  it('takes 1800 messages an hour in one conversation', () => {
    const clock = startClock(START);
    const rates = startRates(clock);
    const waits = Array.from({ length: 1801 }, () => {
      clock.advance(1900);
      return rates.take('send', CREW);
    });
    // The first message leaves the hour 3600 s after it came; 1800 steps of 1.9 s have gone by since.
    expect(waits.filter((one) => one !== null)).toEqual([180]);
    expect(waits.at(-1)).toBe(180);
    expect(rates.take('send', DOCK)).toBeNull();
  });
});

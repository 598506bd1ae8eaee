import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { refreshingPart } from '../../adapters/teams/refresh-part.ts';
import { clockTime } from '../../src/model/time.ts';
import type { Dict } from '../peers/slack/json.ts';
import { actionsIn } from '../peers/teams/card.ts';
import { closeDay, postDay, signOff } from './actions.ts';
import { CHANNEL, type Crew, crewOnTeams, read } from './crew.ts';

const texts = { en: loadTexts().textsFor('en'), es: loadTexts().textsFor('es') };
const MINUTE = 60_000;

/** Everything that Potbell keeps of a day: what nobody changed is the same before and after. */
const kept = async (crew: Crew) => JSON.stringify(await crew.potbell.host.currentShift());

describe('a card that all share', () => {
  let crew: Crew;
  beforeAll(async () => {
    crew = await crewOnTeams();
    await postDay(crew, 'ines');
    await crew.passTo('07:00');
  });
  afterAll(async () => {
    await crew?.close();
  });

  const briefing = () => {
    const [first] = crew.channel();
    if (first === undefined) throw new Error('no briefing');
    return { conversation: CHANNEL, activityId: first.id };
  };
  const looks = async (person: string, where: { conversation: string; activityId: string }) => {
    const outcome = await crew.teams.looks(crew.member(person), where);
    expect(outcome).toMatchObject({ status: 200 });
    expect(outcome.problem).toBeUndefined();
    return crew.teams.cardSeen(crew.member(person), where);
  };

  it('names the crew, and asks anew for each of them', () => {
    const base = crew.channel()[0]?.card as Dict;
    expect(base.refresh).toMatchObject({ action: { type: 'Action.Execute', verb: 'refresh' } });
    const { userIds } = base.refresh as { userIds: readonly string[] };
    expect([...userIds].sort()).toEqual(crew.site.pack.people.map(({ id }) => crew.member(id)).sort());
  });

  it('shows who looks how they stand, in their language; nothing changes and the others see what they saw', async () => {
    const before = await kept(crew);
    const seen = read(await looks('tomas', briefing()));
    expect(seen).toContain(texts.es.say('sign.ask', { person: 'Tomas' }));
    expect(seen).toContain(texts.es.say('sign.title'));
    expect(read(crew.teams.cardSeen(crew.member('rui'), briefing()))).not.toContain('Tomas: ');
    expect(await kept(crew)).toBe(before);
  });

  it('says when they signed once they have, and what holds for all', async () => {
    await signOff(crew, 'tomas');
    await crew.teams.say(crew.member('rui'), crew.teams.chat(crew.member('rui')), 'STOP!! leak at the gun');
    await crew.deliver();
    crew.pass(2 * MINUTE);
    const shift = await crew.potbell.host.currentShift();
    const signed = shift?.people.tomas?.signOffs.at(-1);
    if (!shift || !signed) throw new Error('Tomas has not signed');
    const time = clockTime(signed.at, crew.site.pack.site.timeZone);
    const seen = read(await looks('tomas', briefing()));
    expect(seen).toContain(
      texts.es.say('sign.own-signed', { person: 'Tomas', revision: signed.revision, time }),
    );
    expect(seen).toContain('leak at the gun');
    expect(read(await looks('rui', briefing()))).toContain(texts.en.say('sign.ask', { person: 'Rui' }));
  });

  it('is left as it is for more people than the platform takes, and for nobody it knows', async () => {
    const part = { summary: 'Today', card: crew.channel()[0]?.card as never };
    const refreshing = (count: number) => ({
      card: 'briefing' as const,
      of: 'mark',
      people: Array.from({ length: count }, (_, at) => `person-${at}`),
    });
    const known = { userId: async (member: string) => `29:${member}` };
    const { refresh: _base, ...plain } = part.card as Dict;
    const bare = { summary: 'Today', card: plain as never };
    expect(await refreshingPart(bare, refreshing(61), known)).toBe(bare);
    expect(await refreshingPart(bare, refreshing(60), { userId: async () => null })).toBe(bare);
    const made = await refreshingPart(bare, refreshing(60), known);
    expect((made.card as Dict).refresh).toMatchObject({ userIds: expect.arrayContaining(['29:person-59']) });
  });

  it("of somebody's own today goes with the day; one of another day says that it is old", async () => {
    const chat = crew.teams.chat(crew.member('rui'));
    await crew.teams.say(crew.member('rui'), chat, 'today');
    await crew.teams.until(() => crew.dm('rui').at(-1)?.card?.refresh !== undefined);
    const today = { conversation: chat, activityId: crew.dm('rui').at(-1)?.id ?? '' };
    crew.pass(2 * MINUTE);
    expect(read(await looks('rui', today))).toContain('STOP WORK');
    expect(actionsIn(crew.teams.cardSeen(crew.member('rui'), today)).length).toBeGreaterThan(3);
    expect(crew.faults).toEqual([]);
    await closeDay(crew, 'ines', 'Rain all day.');
    await postDay(crew, 'ines', { date: '2026-06-09', title: texts.en.say('today.next-day') });
    crew.pass(2 * MINUTE);
    expect(read(await looks('rui', today))).toContain(texts.en.say('talk.old-card'));
    expect(read(await looks('tomas', briefing()))).toContain(texts.es.say('talk.old-card'));
    // And does not ask again: its day does not come back.
    expect(crew.teams.cardSeen(crew.member('rui'), today)).not.toHaveProperty('refresh');
  });
});

import { expect, it } from 'vitest';
import { actionsIn } from '../peers/teams/card.ts';
import { problems, sayTo, withCrew } from './actions.ts';
import { CHANNEL, read, STRANGER, STRANGER_ID, TEAM } from './crew.ts';

it('somebody unknown hears who they are; who puts the app in is shown today, once', () =>
  withCrew(async (crew) => {
    await crew.teams.uninstalls(crew.member('rui'));
    expect(await problems(crew)).toContain('Rui no longer has Potbell in Teams');
    await crew.teams.installs(crew.member('rui'));
    await crew.teams.until(() => crew.dm('rui').length > 0);
    expect(await problems(crew)).not.toContain('Rui');
    await crew.teams.installs(STRANGER);
    await sayTo(crew, 'rui', 'help');
    await crew.teams.until(() => crew.dm('rui').length >= 4);
    // Who is in no pack is not written to, until they write themselves.
    const toStranger = () => crew.teams.messages(crew.teams.chat(STRANGER));
    expect(toStranger()).toHaveLength(0);
    await crew.teams.say(STRANGER, CHANNEL, 'batch 10 L');
    await crew.teams.until(() => toStranger().length > 0);
    expect(read(toStranger().map(({ card }) => card))).toContain(STRANGER_ID);
    // Whoever it is can stop the work and has the numbers for an emergency.
    const presses = toStranger().flatMap(({ card }) => actionsIn(card ?? {}).map(({ title }) => title));
    expect(presses).toEqual(['Stop work', 'Emergency']);
    expect(crew.dm('rui').filter(({ card }) => card?.refresh !== undefined)).toHaveLength(2);
  }));

it('the foreman is told in words when the crew’s channel is taken away, until it is back', () =>
  withCrew(async (crew) => {
    expect(await problems(crew)).toBe('');
    await crew.teams.uninstalls(crew.member('ines'), TEAM);
    expect(await problems(crew)).toContain("no longer in the crew's channel in Teams");
    await crew.teams.installs(crew.member('ines'), TEAM);
    expect(await problems(crew)).toBe('');
  }));

it('Potbell runs without having heard from Teams, and says what is missing', () =>
  withCrew(
    async (crew) => {
      expect(await problems(crew)).toContain('Nothing has come from Teams yet');
      await sayTo(crew, 'ines', 'help');
      expect(await problems(crew)).not.toContain('Nothing has come');
    },
    { installed: false },
  ));

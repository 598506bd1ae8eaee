import { describe, expect, test } from 'vitest';
import { readTeamsConfig, teamsVariables } from '../../adapters/teams/config.ts';

const APP = '00000000-0000-4000-8000-0000000000b0';
const TENANT = '00000000-0000-4000-8000-0000000000FF';
const SECRET = 'aVery~Secret.Value-1';
const whole = {
  POTBELL_TEAMS_APP_ID: APP,
  POTBELL_TEAMS_APP_SECRET: SECRET,
  POTBELL_TEAMS_TENANT_ID: TENANT,
  POTBELL_TEAMS_PORT: '8733',
};

type Env = Readonly<Record<string, string | undefined>>;

function problemsOf(env: Env): readonly string[] {
  const read = readTeamsConfig(env);
  if (read.kind !== 'bad') throw new Error(`It was taken as ${read.kind}.`);
  return read.problems;
}

describe('no configuration', () => {
  test.each<[string, Env]>([
    ['nothing is set', {}],
    ['others are set', { POTBELL_SITE: 'x', POTBELL_SLACK_PORT: '1' }],
    ['all are set to nothing', Object.fromEntries(teamsVariables.map((name) => [name, ' ']))],
  ])('%s', (_what, env) => {
    expect(readTeamsConfig(env)).toEqual({ kind: 'none' });
  });
});

describe('a whole configuration', () => {
  const config = {
    appId: APP,
    appSecret: SECRET,
    tenantId: TENANT.toLowerCase(),
    port: 8733,
    apiUrl: null,
  };

  test('is taken; what stands around a value is no part of it', () => {
    expect(readTeamsConfig({ ...whole, POTBELL_TEAMS_APP_SECRET: ` ${SECRET}\n` })).toEqual({
      kind: 'ok',
      config,
    });
  });

  test.each([
    ['http://127.0.0.1:4000/', 'http://127.0.0.1:4000/'],
    ['http://localhost:4000/teams', 'http://localhost:4000/teams/'],
    ['https://[::1]:4000', 'https://[::1]:4000/'],
  ])('the address %s', (given, taken) => {
    expect(readTeamsConfig({ ...whole, POTBELL_TEAMS_API_URL: given })).toEqual({
      kind: 'ok',
      config: { ...config, apiUrl: taken },
    });
  });
});

describe('a configuration that is not whole', () => {
  test('names each variable once, in their order', () => {
    const problems = problemsOf({ POTBELL_TEAMS_API_URL: 'http://127.0.0.1/' });
    const variables = ['APP_ID', 'APP_SECRET', 'TENANT_ID', 'PORT'];
    expect(problems).toEqual(
      variables.map((name) => expect.stringMatching(`^POTBELL_TEAMS_${name} is missing\\. `)),
    );
  });

  test.each([
    ['a name for an id', { POTBELL_TEAMS_APP_ID: 'potbell' }, /APP_ID is no id.*Overview/],
    ['the secret for the tenant', { POTBELL_TEAMS_TENANT_ID: SECRET }, /TENANT_ID is no id/],
    ['the id of the secret', { POTBELL_TEAMS_APP_SECRET: APP }, /SECRET holds an id.*the Value/],
    ['a secret cut short', { POTBELL_TEAMS_APP_SECRET: 'aVery~S' }, /shorter than 8/],
    ['a secret with a line break', { POTBELL_TEAMS_APP_SECRET: 'aVery\nSecret' }, /has a space/],
    ['a port that is a word', { POTBELL_TEAMS_PORT: 'https' }, /no port. Found "https"/],
    ['a port that is too large', { POTBELL_TEAMS_PORT: '70000' }, /no port/],
    ['no address', { POTBELL_TEAMS_API_URL: '4000' }, /no address such as/],
    ['a password in the address', { POTBELL_TEAMS_API_URL: 'http://a:b@127.0.0.1/' }, /no address such as/],
    [
      'an address elsewhere',
      { POTBELL_TEAMS_API_URL: 'https://teams.test/' },
      /not on this machine.*anybody's name/,
    ],
    [
      'an address that only begins so',
      { POTBELL_TEAMS_API_URL: 'http://127.0.0.1.teams.test/' },
      /not on this machine/,
    ],
  ])('%s', (_what, change, words) => {
    const problems = problemsOf({ ...whole, ...change });
    expect(problems).toEqual([expect.stringMatching(words)]);
    expect(problems.join()).not.toMatch(/aVery/);
  });
});

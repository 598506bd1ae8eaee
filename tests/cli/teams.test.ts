import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { copyDemoSite } from '../../adapters/files/demo-site.ts';
import { appPackage } from '../../adapters/teams/manifest.ts';
import { tempDir } from '../files/temp-dir.ts';
import { startTeamsPeer, type TeamsPeer } from '../peers/teams/peer.ts';
import { YARD } from '../peers/teams/world.ts';
import { root } from '../rules/files.ts';
import { type Env, expectRefusal, expectResult, run, site } from './potbell.ts';

/** The commands about Teams in a process of their own, against a Teams on the loopback. */
let teams: TeamsPeer;

beforeAll(async () => {
  teams = await startTeamsPeer(YARD);
});
afterAll(() => teams.close());

const env = (): Env => ({
  POTBELL_TEAMS_APP_ID: teams.bot.appId,
  POTBELL_TEAMS_APP_SECRET: teams.bot.password,
  POTBELL_TEAMS_TENANT_ID: teams.bot.tenantId,
  POTBELL_TEAMS_PORT: '8733',
  POTBELL_TEAMS_API_URL: `${new URL(teams.serviceUrl()).origin}/`,
});

function linkedSite(): string {
  const folder = join(tempDir(), 'site');
  expect(copyDemoSite(folder).ok).toBe(true);
  const file = join(folder, 'site.yaml');
  writeFileSync(file, `${readFileSync(file, 'utf8')}\nteams: { channel: "19:crew@thread.tacv2" }\n`);
  const people = join(folder, 'people.yaml');
  const linked = '  name: Ines\n  teams: 00000000-0000-4000-8000-0000000000a1';
  writeFileSync(people, readFileSync(people, 'utf8').replace(/^ {2}name: Ines$/m, linked));
  return folder;
}

test('teams check of a site in order says what it cannot see as well', async () => {
  const end = await run(['teams', 'check', '--site', linkedSite()], env());
  expectResult(end);
  const lines = end.out.trim().split('\n');
  expect(lines[0]).toMatch(/^In order: the configuration is complete \(port 8733\)\. Site pack: /);
  expect(lines).toContain('In order: App id, tenant and secret: Microsoft gives Potbell a token for them.');
  expect(lines).toContainEqual(
    expect.stringMatching(/^Note: Crew channel 19:crew@thread\.tacv2: .*cannot be seen/),
  );
  expect(lines).toContainEqual(expect.stringMatching(/^Note: Not in Teams: .*Nuno/));
  expect(lines.at(-1)).toBe('Nothing to mend. Nothing was posted.');
  expect(end.out).not.toContain(teams.bot.password);
  expect(teams.calls.filter(({ operation }) => operation !== 'token')).toEqual([]);
});

test('teams check with a wrong secret, of a site that is not linked', async () => {
  const end = await run(['teams', 'check'], { ...env(), POTBELL_TEAMS_APP_SECRET: 'another~Secret.1' });
  expectRefusal(
    end,
    /^To mend: App id, tenant and secret: .*secret has run out \(invalid_client\)\.$/m,
    /^To mend: Crew channel: none is given/m,
    /^To mend: Nobody in people\.yaml has a Teams member id/m,
    /^To mend: 3\. Nothing was posted\.$/m,
  );
  expect(end.err).not.toContain('another~Secret.1');
});

test('teams check without any configuration, and with half of one', async () => {
  expectRefusal(await run(['teams', 'check']), /^Teams is not set up: /);
  expectRefusal(
    await run(['teams', 'check'], { POTBELL_TEAMS_PORT: '8733' }),
    'Teams is not set up rightly:',
    /^POTBELL_TEAMS_APP_ID is missing\./m,
  );
});

test('teams manifest writes the app of this site', async () => {
  const out = join(tempDir(), 'app.zip');
  const url = 'https://board.yard.test/';
  const end = await run(['teams', 'manifest', '--url', url, '--out', out], env());
  expectResult(end);
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  const made = appPackage({ siteName: site.pack.site.name, appId: teams.bot.appId, url, version });
  expect(Buffer.compare(readFileSync(out), made)).toBe(0);
});

test('teams manifest without an id, an https address or a place to write is refused', async () => {
  const url = 'https://board.yard.test/';
  expectRefusal(await run(['teams', 'manifest', '--url', url]), 'POTBELL_TEAMS_APP_ID is missing or no id');
  expectRefusal(
    await run(['teams', 'manifest', '--url', 'http://x/'], env()),
    '"http://x/" is no https address',
  );
  const out = join(tempDir(), 'no', 'such', 'folder.zip');
  expectRefusal(
    await run(['teams', 'manifest', '--url', url, '--out', out], env()),
    /could not be written to .*--out/,
  );
});

import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { teamsCheck } from '../../adapters/cli/teams-check.ts';
import { demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { checkTeams } from '../../adapters/teams/check.ts';
import { readTeamsConfig, teamsVariables } from '../../adapters/teams/config.ts';
import { type Env, type Running, run, site, startPotbell } from '../cli/potbell.ts';
import { runningDay, shiftOf } from '../cli/running-day.ts';
import { tempDir } from '../files/temp-dir.ts';
import type { TeamsPeer } from '../peers/teams/peer.ts';
import { root } from '../rules/files.ts';
import { read } from '../teams/crew.ts';
import { guide, shown } from './teams-guide-words.ts';
import {
  connect,
  dm,
  member,
  press,
  says,
  sendSheets,
  signOff,
  standing,
  textsFor,
  words,
} from './teams-hands.ts';
import {
  entraFor,
  environmentFor,
  madeUpIds,
  SAM,
  startOrganisation,
  TEAM,
  writeDown,
} from './teams-place.ts';

/** docs/guides/teams.md, step by step and in its order, with the real command and Teams' place taken by a peer on this machine. */
const { people } = site.pack;
const channel = guide.channel.id;
const secret = 'loopback-secret~1';
const objectIds = new Map([...madeUpIds, [guide.person.id, guide.person.objectId]]);

describe('the guide to Teams holds', () => {
  const pack = join(tempDir(), 'my-site');
  let teams: TeamsPeer;
  let potbell: Running | null = null;
  let shift = '';

  // Two that it cannot show: the port may be taken on this machine, the secret is one's own. And the one for tests.
  const notShown = /_(APP_SECRET|PORT|API_URL)$/;
  const env = (more: Env = {}): Env => {
    const ours = Object.entries(environmentFor(teams)).filter(([name]) => notShown.test(name));
    return { ...guide.environment, ...Object.fromEntries(ours), POTBELL_SITE: pack, ...more };
  };
  const check = async (more: Env = {}) => {
    const end = await run(guide.check, env(more));
    expect(end.err + end.out).not.toContain(secret);
    return end;
  };
  const running = (): Running => {
    if (potbell === null) throw new Error('Potbell is not started');
    return potbell;
  };
  const problems = async () => JSON.parse((await running().get('/healthz')).body).problems.join(' ');

  beforeAll(async () => {
    cpSync(demoSiteFolder(), pack, { recursive: true });
    teams = await startOrganisation(
      {
        appId: guide.environment.POTBELL_TEAMS_APP_ID ?? '',
        tenantId: guide.environment.POTBELL_TEAMS_TENANT_ID ?? '',
        secret,
      },
      channel,
      objectIds,
    );
  });
  afterAll(async () => {
    teams?.httpTo(null);
    await potbell?.stop('SIGTERM');
    await teams?.close();
  });

  it('5: every variable there is stands in it', () => {
    for (const name of teamsVariables) expect(guide.text).toContain(name);
    expect(Object.keys(guide.environment)).toEqual(expect.arrayContaining(teamsVariables.slice(0, 4)));
  });

  it('4 and 5: before the channel and the people are written down, each row of the table is what the check says', async () => {
    const elsewhere = objectIds.get('ines') ?? '';
    const entra = await entraFor(elsewhere);
    // A process takes seconds: what the command says, it has from these two.
    const found = async (more: Env) => {
      const given = readTeamsConfig(env(more));
      if (given.kind !== 'ok') return given.kind === 'bad' ? given.problems.join('\n') : '';
      const findings = await checkTeams({ config: given.config, site: {}, people });
      return findings.map(({ text }) => text).join('\n');
    };
    const refused = async (more: Env) => {
      const { code, err } = await check(more);
      expect(code).toBe(2);
      return err;
    };
    const wrongSecret = await refused({ POTBELL_TEAMS_APP_SECRET: secret.slice(0, -1) });
    const wrongTenant = await refused({
      POTBELL_TEAMS_TENANT_ID: elsewhere,
      POTBELL_TEAMS_API_URL: entra.url,
    });
    const unset = await teamsCheck({ site: pack }).catch((error: unknown) => String(error));
    const half = await found({ POTBELL_TEAMS_APP_ID: '', POTBELL_TEAMS_APP_SECRET: elsewhere });
    const rows: Readonly<Record<string, string>> = {
      'Teams is not set up:': String(unset),
      'POTBELL_TEAMS_… is missing': half,
      '… holds an id, perhaps the Secret ID': half,
      invalid_client: wrongSecret,
      unauthorized_client: wrongTenant,
      invalid_request: await found({ POTBELL_TEAMS_API_URL: entra.url }),
      'Microsoft gives Potbell no token at the moment': await found({
        POTBELL_TEAMS_API_URL: 'http://127.0.0.1:9/',
      }),
      'Nobody in people.yaml has a Teams member id': wrongSecret,
    };
    await entra.close();
    expect(guide.checkRows).toEqual(Object.keys(rows));
    for (const [row, said] of Object.entries(rows))
      expect(said).toMatch(new RegExp(row.replaceAll('…', '\\S+')));
    expect(wrongSecret).toMatch(/^To mend: Crew channel: none is given/m);
    expect(teams.calls.filter(({ operation }) => operation !== 'token')).toEqual([]);
  });

  it('4: a link out of Teams becomes the id of the channel as it says', () => {
    const link = `https://teams.microsoft.com/l/channel/${encodeURIComponent(channel)}/crew?groupId=x&tenantId=y`;
    const [part = ''] = new RegExp(`${shown(4, '`19`')}.*${shown(4, '`thread.tacv2`')}`).exec(link) ?? [];
    const id = part.replaceAll(shown(4, '`%3A`'), ':').replaceAll(shown(4, '`%40`'), '@');
    expect(id).toBe(channel);
  });

  it('4 and 5: with both written down as it shows, nothing is left to mend, and nothing was posted', async () => {
    writeDown(pack, guide.channel.line, guide.person.line, objectIds);
    const checked = await check();
    expect(checked).toMatchObject({ code: 0, err: '' });
    for (const label of ['In order', 'Note']) expect(checked.out).toContain(`${shown(5, `*${label}*`)}: `);
    expect(checked.out).toContain(`${people.length} of ${people.length} people have a Teams member id.`);
    expect(checked.out.trim().split('\n').at(-1)).toContain(
      `${shown(5, '*Nothing to mend*')}. Nothing was posted.`,
    );
    for (const { id } of people) expect(dm(teams, id)).toEqual([]);
    expect(standing(teams, channel)).toEqual([]);
  });

  it('6: the zip is the app, with nothing secret in it; it is added to the team before Potbell runs', async () => {
    const [zip = ''] = guide.manifest.slice(-1);
    const out = join(tempDir(), zip);
    const made = await run([...guide.manifest.slice(0, -1), out], env());
    expect(made).toMatchObject({ code: 0, err: '' });
    expect(made.out).toContain(`${shown(6, '*Written*')}: ${out}.`);
    for (const press of ['Apps', 'Manage your apps', 'Upload an app'])
      expect(made.out).toContain(shown(6, `*${press}*`));
    const files = unzipSync(readFileSync(out));
    expect(Object.keys(files).sort()).toEqual(['color.png', 'manifest.json', 'outline.png']);
    const written = strFromU8(files['manifest.json'] ?? new Uint8Array());
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    const appId = guide.environment.POTBELL_TEAMS_APP_ID;
    expect(JSON.parse(written)).toMatchObject({
      id: appId,
      version,
      name: { short: expect.stringMatching(/^Potbell Gannet/) },
      developer: { websiteUrl: guide.manifest[guide.manifest.indexOf('--url') + 1] },
      bots: [{ botId: appId, supportsFiles: true, scopes: expect.arrayContaining(['personal', 'team']) }],
    });
    for (const file of Object.values(files)) expect(strFromU8(file, true)).not.toContain(secret);
    expect(await teams.installs(member('ines'), TEAM)).toMatchObject({ status: 'no_bot' });
  });

  it('7.1: nothing can go out until the foreman has written to it; what is not from our Teams is turned away', async () => {
    expect(guide.start).toEqual(['start']);
    potbell = await startPotbell(join(tempDir(), 'potbell.db'), [], env());
    await connect(teams, potbell, guide.endpoint.pathname);
    expect(await problems()).toContain(shown(7, '*Nothing has come from Teams yet*'));
    await teams.installs(member('ines'));
    await teams.until(() => dm(teams, 'ines').length === 1);
    teams.forgeNext('wrong-audience');
    const today = shown(7, '`today`');
    expect(await teams.say(member('ines'), teams.chat(member('ines')), today)).toMatchObject({ status: 401 });
    await potbell.says('err', /turned away/);
    expect(await teams.say(member('ines'), teams.chat(member('ines')), today)).toMatchObject({ status: 200 });
    await teams.until(() => dm(teams, 'ines').length === 2);
    expect(words(dm(teams, 'ines').slice(1))).toContain(shown(7, '*Post the day*'));
    expect(await problems()).toBe('');
  });

  it('7.2: who asks for help in the channel has it in their own chat', async () => {
    shown(7, '`@Potbell`');
    shown(7, '**their own chat**');
    expect(await teams.say(member('rui'), channel, shown(7, '`help`'))).toMatchObject({ status: 200 });
    await teams.until(() => words(dm(teams, 'rui')).includes('What you can type'));
    expect(standing(teams, channel)).toEqual([]);
  });

  it('7.3 and 7.4: the day is posted on the card; the briefing stands in the channel, and everybody has theirs', async () => {
    const day = runningDay(await running().clock());
    shift = shiftOf(day);
    const button = shown(7, '*Post the day*');
    expect(await press(teams, 'ines', button)).toMatchObject({ status: 200 });
    const hours = {
      'field:date': day.date,
      'field:start': day.start,
      'field:end': day.end,
      'field:breaks': '',
    };
    expect(await sendSheets(teams, 'ines', hours)).toEqual([button]);
    expect(read(teams.dialog(member('ines'))?.card)).toContain(shown(7, '*Day posted*'));
    teams.closeDialog(member('ines'));
    const briefing = () =>
      standing(teams, channel).filter(({ activity }) => /^Prestart briefing/.test(String(activity.summary)));
    await teams.until(() => briefing().length === 2);
    const [first, second] = briefing();
    expect(second?.thread).toBe(first?.id);
    // Only two of them have ever put the app in, or written to it.
    for (const { id, name, language } of people)
      await teams.until(() => says(dm(teams, id), textsFor(language).say('sign.ask', { person: name })));
  });

  it('7.4: a sign-off in one’s own chat is in the record, as pressed in Teams by this person', async () => {
    await signOff(teams, 'marta');
    const { status, body } = await running().get(`/file/${encodeURIComponent(shift)}/json`);
    expect(status).toBe(200);
    const signed = JSON.parse(body).journal.filter(
      (line: { event: { body: { type: string } } }) => line.event.body.type === 'signed',
    );
    expect(signed).toMatchObject([
      { event: { by: { kind: 'person', person: 'marta', surface: 'teams' }, body: { type: 'signed' } } },
    ]);
  });

  it('the record comes as a file once that is agreed to', async () => {
    const chat = teams.chat(member('ines'));
    await teams.say(member('ines'), channel, shown(7, '`record`'));
    const question = () =>
      dm(teams, 'ines').find(({ activity }) => JSON.stringify(activity).includes('file.consent'));
    await teams.until(() => question() !== undefined);
    const where = { conversation: chat, activityId: question()?.id ?? '' };
    expect(await teams.answersFile(member('ines'), where, 'accept')).toMatchObject({ status: 200 });
    await teams.until(() => teams.files(member('ines')).some(({ bytes }) => bytes !== null));
    expect(teams.files(member('ines'))[0]?.name).toMatch(/^potbell-.*\.html$/);
  });

  it('somebody who is not in the pack is told their own id, and can stop the work', async () => {
    await teams.installs(SAM.id);
    await teams.say(SAM.id, teams.chat(SAM.id), shown(7, '`today`'));
    await teams.until(() => words(standing(teams, teams.chat(SAM.id))).includes(SAM.aadId));
    await teams.say(SAM.id, teams.chat(SAM.id), `${shown(7, '`stop`')} trying it out`);
    await teams.until(() => words(standing(teams, channel)).includes('STOP WORK'));
  });
});

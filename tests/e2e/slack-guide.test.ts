import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { type Running, run, startPotbell } from '../cli/potbell.ts';
import { runningDay } from '../cli/running-day.ts';
import { tempDir } from '../files/temp-dir.ts';
import { type SlackPeer, startSlackPeer } from '../peers/slack/peer.ts';
import { CHANNEL, read, slackSite } from '../slack/crew.ts';

/** docs/guides/slack.md, step by step, with the real command and Slack's place taken by a peer on this machine. */
describe('the guide to Slack holds', () => {
  const { people } = slackSite().pack;
  const site = join(tempDir(), 'my-site');
  let slack: SlackPeer;
  let potbell: Running | null = null;

  const edit = (file: string, change: (text: string) => string) =>
    writeFileSync(join(site, file), change(readFileSync(join(site, file), 'utf8')));
  const env = (more: Record<string, string> = {}) => ({
    POTBELL_SITE: site,
    POTBELL_SLACK_BOT_TOKEN: slack.tokens.bot,
    POTBELL_SLACK_APP_TOKEN: slack.tokens.app,
    POTBELL_SLACK_API_URL: slack.apiUrl,
    ...more,
  });

  beforeAll(async () => {
    cpSync(demoSiteFolder(), site, { recursive: true });
    slack = await startSlackPeer({
      startAt: Date.now(),
      live: true,
      users: people.map(({ slack: id = '', name }) => ({ id, name })),
      channels: [{ id: CHANNEL, name: 'span-2', members: people.map(({ slack: id = '' }) => id) }],
    });
  });
  afterAll(async () => {
    await potbell?.stop('SIGTERM');
    await slack?.close();
  });

  it('1: the manifest comes as a file for either way, with no secret in it', async () => {
    const socket = await run(['slack', 'manifest', '--site', site]);
    expect(socket).toMatchObject({ code: 0, err: '' });
    expect(socket.out).toContain('socket_mode_enabled: true');
    expect(socket.out).not.toMatch(/xox[bp]-\w|xapp-\w/);
    const url = 'https://potbell.example/slack/events';
    const http = await run(['slack', 'manifest', '--site', site, '--url', url]);
    expect(http.out).toContain(`request_url: ${url}`);
  });

  it('3: before the channel and the people are written down, the check says what to write where', async () => {
    const early = await run(['slack', 'check'], env());
    expect(early.code).not.toBe(0);
    expect(early.err).toMatch(/To mend: .*slack: \{ channel: C/);
    expect(early.err).toMatch(/To mend: Nobody in people\.yaml has a Slack member id/);
  });

  it('2 and 3: with both written down as the guide shows, nothing is left to mend, and nothing was posted', async () => {
    edit('site.yaml', (text) => `${text}\nslack: { channel: ${CHANNEL} }\n`);
    edit('people.yaml', (text) =>
      people.reduce(
        (all, { id, slack: member }) => all.replace(`- id: ${id}\n`, `- id: ${id}\n  slack: ${member}\n`),
        text,
      ),
    );
    const checked = await run(['slack', 'check'], env());
    expect(checked).toMatchObject({ code: 0, err: '' });
    expect(checked.out).toContain('Nothing to mend. Nothing was posted.');
    for (const { name } of people)
      expect(checked.out).toMatch(new RegExp(`In order: ${name}: U0\\w+ is "${name}"`));
    expect(slack.messages(CHANNEL)).toEqual([]);
  });

  it.each<readonly [string, Record<string, string>, string]>([
    ['POTBELL_SLACK_… is missing', { POTBELL_SLACK_APP_TOKEN: '' }, 'POTBELL_SLACK_APP_TOKEN is missing'],
    ['Slack does not accept it', { POTBELL_SLACK_BOT_TOKEN: 'xoxb-0-cut' }, 'Slack does not accept it'],
    [
      'Slack cannot be reached',
      { POTBELL_SLACK_API_URL: 'http://127.0.0.1:9/api/' },
      'Slack cannot be reached',
    ],
  ])('3: the table has what the check says: %s', async (row, wrong, says) => {
    const checked = await run(['slack', 'check'], env(wrong));
    expect(checked.code).not.toBe(0);
    expect(checked.err).toContain(says);
    expect(checked.err).not.toContain(slack.tokens.bot);
    expect(readFileSync('docs/guides/slack.md', 'utf8')).toContain(`| ${row} |`);
  });

  it('4: started, the first briefing goes to the channel and to each person, and help answers', async () => {
    potbell = await startPotbell(join(tempDir(), 'potbell.db'), ['--site', site], env());
    await slack.connected();
    const entry = runningDay(await potbell.clock());
    expect(await potbell.send('ines', { type: 'post-day', entry }, 'first-day')).toMatchObject({ ok: true });
    await slack.until(() => slack.messages(CHANNEL).some(({ text }) => text.startsWith('Prestart briefing')));
    await slack.until(() => people.every(({ slack: id = '' }) => slack.messages(slack.dm(id)).length > 0));
    const ines = people.find(({ id }) => id === 'ines')?.slack ?? '';
    expect(await slack.command(ines, '/potbell', 'help', CHANNEL)).toMatchObject({ acked: true });
    await slack.until(() =>
      read(slack.seenBy(ines, CHANNEL).map(({ blocks }) => blocks)).includes('What you can type'),
    );
  });
});

import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { type Running, startPotbell } from '../cli/potbell.ts';
import { runningDay } from '../cli/running-day.ts';
import { tempDir } from '../files/temp-dir.ts';
import { type SlackPeer, startSlackPeer } from '../peers/slack/peer.ts';
import { CHANNEL, read, slackSite } from '../slack/crew.ts';

/** The real process with the real Bolt, killed while it is telling nine people to sign. */
describe('kill -9 with Slack', () => {
  const { people } = slackSite().pack;
  const site = join(tempDir(), 'site');
  const data = join(tempDir(), 'potbell.db');
  let slack: SlackPeer;
  let potbell: Running;
  const env = () => ({
    POTBELL_SLACK_BOT_TOKEN: slack.tokens.bot,
    POTBELL_SLACK_APP_TOKEN: slack.tokens.app,
    POTBELL_SLACK_API_URL: slack.apiUrl,
  });

  beforeAll(async () => {
    cpSync(demoSiteFolder(), site, { recursive: true });
    const edit = (file: string, change: (text: string) => string) =>
      writeFileSync(join(site, file), change(readFileSync(join(site, file), 'utf8')));
    edit('site.yaml', (text) => `${text}\nslack: { channel: ${CHANNEL} }\n`);
    edit('people.yaml', (text) =>
      people.reduce(
        (all, { id, slack: member }) => all.replace(`- id: ${id}\n`, `- id: ${id}\n  slack: ${member}\n`),
        text,
      ),
    );
    slack = await startSlackPeer({
      startAt: Date.now(),
      live: true,
      users: people.map(({ slack: member = '', name }) => ({ id: member, name })),
      channels: [{ id: CHANNEL, name: 'span-2', members: people.map(({ slack: member = '' }) => member) }],
    });
    potbell = await startPotbell(data, ['--site', site], env());
    await slack.connected();
  });
  afterAll(async () => {
    await potbell?.stop('SIGTERM');
    await slack?.close();
  });

  const said = (channel: string) =>
    slack.messages(channel).filter(({ deleted, threadTs }) => !deleted && threadTs === null);

  it('nobody is left out and nobody is told twice', async () => {
    const entry = runningDay(await potbell.clock());
    expect(await potbell.send('ines', { type: 'post-day', entry }, 'the-day-itself')).toMatchObject({
      ok: true,
    });
    // Some have been told, others not.
    await slack.until(
      () => people.filter(({ slack: member = '' }) => said(slack.dm(member)).length > 0).length >= 3,
    );
    await potbell.stop('SIGKILL');
    potbell = await startPotbell(data, ['--site', site], env());
    await slack.connected(2);
    await slack.until(() => people.every(({ slack: member = '' }) => said(slack.dm(member)).length > 0));
    await potbell.says('err', /"audience"|said in Slack/);
    for (const { slack: member = '' } of people) expect(said(slack.dm(member))).toHaveLength(1);
    const briefings = slack
      .messages(CHANNEL)
      .filter(({ text }) => text.startsWith('Prestart briefing') && !text.includes('2 of'));
    expect(briefings.filter(({ threadTs }) => threadTs === null)).toHaveLength(1);
  });

  it('the Home shows the day after the restart, and a press is taken', async () => {
    const ines = people.find(({ id }) => id === 'ines')?.slack ?? '';
    await slack.openHome(ines);
    await slack.until(() => slack.home(ines) !== null);
    expect(read(slack.home(ines)?.view)).toContain('Gannet Footbridge');
    const stopped = await slack.command(ines, '/potbell', 'stop trying it out', CHANNEL);
    expect(stopped).toMatchObject({ acked: true });
    await slack.until(() => slack.messages(CHANNEL).some(({ text }) => text.includes('STOP WORK')));
  });
});

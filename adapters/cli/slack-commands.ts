import type { Command, Option } from 'commander';

/** What there is under `potbell slack`. The rest is loaded when one of them runs: a site without Slack never loads it. */
export function slackCommands(slack: Command, site: () => Option): void {
  slack
    .command('check')
    .description('look whether Slack is set up for this site; only asks, posts nothing')
    .addOption(site())
    .action(async (options) => (await import('./slack-check.ts')).slackCheck(options));
  slack
    .command('manifest')
    .description('the app to paste into Slack, "From a manifest"')
    .addOption(site())
    .option('--url <https>', 'HTTP in place of Socket Mode: where Slack reaches the site')
    .action(async (options) => (await import('./slack-check.ts')).slackManifest(options));
}

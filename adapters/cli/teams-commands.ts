import type { Command, Option } from 'commander';

/** What there is under `potbell teams`. The rest is loaded when one of them runs: a site without Teams never loads it. */
export function teamsCommands(teams: Command, site: () => Option, version: string): void {
  teams
    .command('check')
    .description('look whether Teams is set up for this site; only asks, posts nothing')
    .addOption(site())
    .action(async (options) => (await import('./teams-check.ts')).teamsCheck(options));
  teams
    .command('manifest')
    .description('write the app to upload to Teams, a zip; needs POTBELL_TEAMS_APP_ID')
    .addOption(site())
    .requiredOption('--url <https>', 'where people reach the board; Teams shows it with the app')
    .option('--out <file>', 'the zip to write', 'potbell-teams.zip')
    .action(async (options) => (await import('./teams-check.ts')).teamsManifest({ ...options, version }));
}

#!/usr/bin/env node
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { packageRoot } from '../files/package-root.ts';
import { slackCommands } from './slack-commands.ts';
import { teamsCommands } from './teams-commands.ts';

const { version } = JSON.parse(readFileSync(join(packageRoot(), 'package.json'), 'utf8')) as {
  version: string;
};

type Commands = typeof import('./commands.ts');

/** The rest is loaded when a command runs, so that help and a mistyped option are answered at once. */
function run<Name extends keyof Commands>(name: Name) {
  return async (...given: Parameters<Commands[Name]>): Promise<void> => {
    const commands = await import('./commands.ts');
    await (commands[name] as (...args: typeof given) => unknown)(...given);
  };
}

const site = () =>
  new Option('-s, --site <folder>', 'site pack (without it: the invented demo site)').env('POTBELL_SITE');
const data = () =>
  new Option('-d, --data <file>', 'database file').env('POTBELL_DATA').default('.potbell/potbell.db');
const board = () =>
  new Option('-b, --board <url>', 'a Potbell that is running')
    .env('POTBELL_BOARD')
    .default('http://127.0.0.1:8731');

const program = new Command('potbell')
  .description(
    'Prestart briefings, pot-life clocks and flush confirmations for protective-coatings spray crews.\nIt reminds and records. The foreman, the permit, the data sheets, local law and licensed people decide.',
  )
  .version(version)
  .showHelpAfterError('(potbell --help shows what there is)')
  .addHelpText(
    'after',
    '\nExit codes: 0 done; 2 something for you to mend, said on standard error; 1 a fault in Potbell, please report it.',
  )
  .exitOverride();

program
  .command('start')
  .description('run the board, the bells and the journal until Ctrl-C')
  .addOption(site())
  .addOption(data())
  .addOption(
    new Option('--host <address>', 'address to listen on; anything but loopback is seen by others')
      .default('127.0.0.1')
      .env('POTBELL_HOST'),
  )
  .addOption(
    new Option('--name <name...>', 'names phones open the board by, for example shed-pc; others are refused')
      .default([])
      .env('POTBELL_NAMES'),
  )
  .addOption(
    new Option('-p, --port <number>', 'port; 0 takes any free one')
      .default(8731)
      .argParser(port)
      .env('POTBELL_PORT'),
  )
  .addOption(
    new Option('--log <level>', 'log level on standard error')
      .choices(['debug', 'info', 'warn', 'error'])
      .default('warn')
      .env('POTBELL_LOG'),
  )
  .action(run('start'));

program
  .command('tour')
  .description('play an invented day from prestart to record in seconds and print every message')
  .addOption(new Option('-o, --out <folder>', 'where the record files go').default('build/tour'))
  .action(run('tour'));

program
  .command('brief')
  .description('print the briefing of a day file; needs no running Potbell')
  .argument('<day>', 'day entry, YAML or JSON')
  .addOption(site())
  .option('--for <person>', 'as this person reads it: their language, their own tasks first')
  .option('--why', 'and which facts put each caution into it')
  .option('--json', 'as JSON')
  .action(run('brief'));

program
  .command('why')
  .description('where the numbers come from: inputs, formula, source; of a day file, or of a stored shift')
  .argument('[topics...]', 'such as margin or flush; without one, all')
  .option('--day <file>', 'day entry, YAML or JSON; without it the stored shift')
  .option('--date <date>', 'year-month-day of a stored shift; without it the newest')
  .addOption(site())
  .addOption(data())
  .action(run('why'));

program
  .command('plan')
  .description('print the plan of a day file: what to mix when, flushes, what limits the day')
  .argument('<day>', 'day entry, YAML or JSON')
  .addOption(site())
  .option('--json', 'as JSON, described in docs/plan.md')
  .action(run('plan'));

program
  .command('post')
  .description('post a day file to a running Potbell (PIN from POTBELL_PIN, or asked for)')
  .argument('<day>', 'day entry, YAML or JSON')
  .requiredOption('--as <person>', 'id of the foreman who posts it')
  .addOption(site())
  .addOption(board())
  .action(run('post'));

program
  .command('record')
  .description('write the record of a shift as JSON, CSV and a page to print')
  .argument('[date]', 'year-month-day; without it the newest shift')
  .addOption(new Option('-o, --out <folder>', 'where the files go').default('.'))
  .addOption(site())
  .addOption(data())
  .action(run('record'));

program
  .command('verify')
  .description('walk the journal: of a record file, or of every shift in a database')
  .argument('[file]', 'record file (JSON); without it the database')
  .addOption(data())
  .action(run('verify'));

program
  .command('backup')
  .description('copy the database to a new file and check the copy; of a running Potbell with --as')
  .argument('<file>', 'where the copy goes; never over a file that is there')
  .option('--as <person>', 'id of a foreman, when Potbell runs (PIN from POTBELL_PIN, or asked for)')
  .addOption(board())
  .addOption(data())
  .action(run('backup'));

program
  .command('init')
  .description('copy the demo site as a start for your own')
  .argument('<folder>')
  .action(run('init'));

program
  .command('check')
  .description('check a site pack, and day files with it')
  .argument('[days...]', 'day entries, YAML or JSON')
  .addOption(site())
  .action(run('check'));

program
  .command('whoami')
  .description('who is in the site pack, with ids and roles, and what to do when somebody is not')
  .argument('[person]', 'id or name')
  .addOption(site())
  .action(run('whoami'));

program
  .command('pin')
  .description('make the line for pins.yaml from a PIN (POTBELL_PIN, or asked for)')
  .argument('<person>', 'id of the person')
  .action(run('pin'));

program
  .command('languages')
  .description('what there is of each language, who has checked it, and what has changed since')
  .option('--sha <file>', 'the entry for checked.yaml of one file, such as es/cautions/injection.md')
  .option('--json', 'as JSON')
  .action(async (options) => (await import('./languages.ts')).languages(options));

slackCommands(
  program.command('slack').description('set Slack up: its manifest, and a check of it all'),
  site,
);

teamsCommands(
  program.command('teams').description('set Teams up: its app, and a check of what can be seen from here'),
  site,
  version,
);

program
  .command('schema')
  .description('write JSON Schemas of the site pack files, for editors')
  .argument('<folder>')
  .action(run('schema'));

function port(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 0 || value > 65_535)
    throw new InvalidArgumentError('Write a number from 0 to 65535.');
  return value;
}

// Whoever read the output has gone (`potbell tour | head`). The work goes on; for `start` that is the bells.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

try {
  await program.parseAsync();
} catch (error) {
  // Commander has already said what was wrong; for --help and --version nothing was.
  if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? 0 : 2;
  else process.exitCode = (await import('./failed.ts')).reportFailure(error);
}

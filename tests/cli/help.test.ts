import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../rules/files.ts';
import { expectRefusal, expectResult, run } from './potbell.ts';

const commands = [
  'start',
  'tour',
  'brief',
  'why',
  'plan',
  'post',
  'record',
  'verify',
  'backup',
  'init',
  'check',
  'whoami',
  'pin',
  'languages',
  'slack',
  'teams',
  'schema',
] as const;

test.concurrent('--help lists every command there is, each with a line about it, and what the exit codes mean', async () => {
  const end = await run(['--help']);
  expectResult(end);
  const listed = [...end.out.matchAll(/^ {2}([a-z]+) (?:\[|<)?.* {2,}\S/gm)].map(([, name]) => name);
  expect(listed.filter((name) => name !== 'help')).toEqual(commands);
  const source = readFileSync(join(root, 'adapters/cli/main.ts'), 'utf8');
  expect([...source.matchAll(/\.command\('(\w+)'\)/g)].map(([, name]) => name)).toEqual(commands);
  expect(end.out.replaceAll(/\s+/g, ' ')).toContain('Exit codes: 0 done; 2 something for you to mend');
  // It reminds and records: that stands where everybody begins.
  expect(end.out.replaceAll(/\s+/g, ' ')).toContain('The foreman, the permit, the data sheets, local law');
});

test.concurrent('--version is the one of the package', async () => {
  const end = await run(['--version']);
  expectResult(end);
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  expect(end.out.trim()).toBe(version);
});

test.concurrent('the help of a command names its options and the variables that stand for them', async () => {
  const end = await run(['start', '--help']);
  expectResult(end);
  const words = end.out.replaceAll(/\s+/g, ' ');
  for (const option of ['--site', '--data', '--host', '--port', '--log']) expect(words).toContain(option);
  for (const name of ['SITE', 'DATA', 'HOST', 'PORT', 'LOG']) expect(words).toContain(`env: POTBELL_${name}`);
  expect(words).toContain('anything but loopback is seen by others');
});

const hint = '(potbell --help shows what there is)';

test.concurrent.each([
  [['nope'], "unknown command 'nope'"],
  [['strat'], 'Did you mean start?'],
  [['start', '--prot', '1'], 'Did you mean --port?'],
  [['start', '--port', '99999'], 'Write a number from 0 to 65535.'],
  [['start', '--log', 'loud'], 'Allowed choices are debug, info, warn, error.'],
  [['brief'], "missing required argument 'day'"],
  [['post', 'day.yaml'], "required option '--as <person>' not specified"],
] as const)('potbell %j is refused with a hint', async (args, words) => {
  const end = await run(args);
  expectRefusal(end, hint, words);
});

test.concurrent('a bad value in the environment is refused by the name of its variable', async () => {
  expectRefusal(
    await run(['start'], { POTBELL_PORT: 'eighty' }),
    /'eighty' from env 'POTBELL_PORT' is invalid/,
  );
});

test.concurrent('potbell alone shows the help, as an error', async () => {
  expectRefusal(await run([]), 'Usage: potbell');
});

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../rules/files.ts';

/** What docs/guides/teams.md has people type and look for, taken out of it: it cannot say one thing and the program do another. */
const text = readFileSync(join(root, 'docs/guides/teams.md'), 'utf8');

/** One step of it, by the number in its heading. */
function step(number: number): string {
  const found = text.split(/^## /m).find((part) => part.startsWith(`${number}. `));
  if (found === undefined) throw new Error(`the guide has no step ${number}`);
  return found;
}

function blocks(number: number, language: 'sh' | 'yaml'): readonly string[] {
  return [...step(number).matchAll(/^```(\w+)\n(.*?)^```$/gms)].flatMap(([, kind, inside = '']) =>
    kind === language ? [inside] : [],
  );
}

export function only<T>(all: readonly T[], what: string): T {
  const [first] = all;
  if (first === undefined || all.length > 1)
    throw new Error(`the guide has ${all.length} of ${what}, not one`);
  return first;
}

/** The arguments of a `potbell` command that it shows. */
function command(number: number, begins: string): readonly string[] {
  const lines = blocks(number, 'sh').flatMap((block) => block.trim().split('\n'));
  const line = only(
    lines.filter((one) => `${one} `.startsWith(`potbell ${begins} `)),
    `"potbell ${begins}" in step ${number}`,
  );
  return line.split(/\s+/).slice(1);
}

/** A word or title it shows in a step, checked to stand there as `shown`, with its marks. */
export function shown(number: number, marked: string): string {
  if (!step(number).replace(/\s+/g, ' ').includes(marked)) throw new Error(`step ${number} has no ${marked}`);
  return marked.replace(/^[`*]+|[`*]+$/g, '');
}

const exported = only(
  blocks(5, 'sh').filter((block) => block.startsWith('export ')),
  'the environment',
);

const channelLine = only(
  blocks(4, 'yaml').filter((block) => block.startsWith('teams:')),
  'the channel',
);
const personEntry = only(
  blocks(4, 'yaml').filter((block) => block.startsWith('- id:')),
  'the person',
);
const addedLine = only([...personEntry.matchAll(/^ {2}teams: (\S+)$/gm)], 'the id of the person');

export const guide = {
  text,
  /** The variables as it sets them. */
  environment: Object.fromEntries(
    [...exported.matchAll(/^export (\w+)=(\S+)/gm)].map(([, name = '', value = '']) => [name, value]),
  ),
  check: command(5, 'teams check'),
  manifest: command(6, 'teams manifest'),
  start: command(7, 'start'),
  /** For site.yaml: the line as it stands, and the id in it. */
  channel: { line: channelLine.trim(), id: only([...channelLine.matchAll(/"(\S+)"/g)], 'its id')[1] ?? '' },
  /** For people.yaml: of whom it has an example, the line that is added, and the id in that. */
  person: {
    id: only([...personEntry.matchAll(/^- id: (\S+)$/gm)], 'its person')[1] ?? '',
    line: addedLine[0],
    objectId: addedLine[1] ?? '',
  },
  /** The bot's address. */
  endpoint: new URL(/https:\/\/[\w.]+\/api\/\w+/.exec(step(3))?.[0] ?? ''),
  /** What `check` says, by the table of step 5. */
  checkRows: [...step(5).matchAll(/^\| (.+?) \|/gm)]
    .map(([, says = '']) => says)
    .filter((says) => says !== 'it says' && !says.startsWith('---')),
};

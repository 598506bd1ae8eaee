import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { afterAll, expect } from 'vitest';
import { loadSite } from '../../adapters/cli/site.ts';
import type { CommandInput } from '../../src/model/command.ts';
import { root } from '../rules/files.ts';

/** The real command in a process of its own, as `npm run build` made it. */
const main = join(root, 'dist/adapters/cli/main.js');
const children = new Set<ChildProcess>();

/** The invented demo site, whose PINs are public. */
export const site = loadSite();
export const demoPins: Readonly<Record<string, string>> = site.demoPins;

export type Env = Readonly<Record<string, string>>;

/** How a process ended, and all it said. */
export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}

export interface Spawned {
  readonly child: ChildProcess;
  readonly ended: Promise<Ended>;
  /** What it has said so far. */
  out(): string;
  err(): string;
  /** The first match in what it says on that stream, already there or still to come; rejects when it ends without. */
  says(stream: 'out' | 'err', pattern: RegExp): Promise<RegExpExecArray>;
}

afterAll(async () => {
  const gone = [...children].map((child) => new Promise((resolve) => child.once('exit', resolve)));
  for (const child of children) child.kill('SIGKILL');
  await Promise.all(gone);
});

export function spawnPotbell(args: readonly string[], env: Env = {}): Spawned {
  if (!existsSync(main)) throw new Error(`There is no ${main}. Run "npm run build" first.`);
  const own = Object.entries(process.env).filter(([name]) => !/^(POTBELL_|NODE_OPTIONS$)/.test(name));
  const child = spawn(process.execPath, [main, ...args], {
    cwd: root,
    env: { ...Object.fromEntries(own), ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  children.add(child);
  child.once('exit', () => children.delete(child));
  const out = gathered(child.stdout);
  const err = gathered(child.stderr);
  const ended = new Promise<Ended>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code, signal) => resolve({ code, signal, out: out.text(), err: err.text() }));
  });
  return {
    child,
    ended,
    out: out.text,
    err: err.text,
    says: (stream, pattern) => (stream === 'out' ? out : err).match(pattern, ended),
  };
}

/** Run one command to its end. */
export const run = (args: readonly string[], env?: Env): Promise<Ended> => spawnPotbell(args, env).ended;

function gathered(stream: Readable) {
  let text = '';
  stream.setEncoding('utf8').on('data', (more: string) => {
    text += more;
  });
  return {
    text: () => text,
    match: (pattern: RegExp, ended: Promise<Ended>): Promise<RegExpExecArray> =>
      new Promise((resolve, reject) => {
        const look = () => {
          const found = pattern.exec(text);
          if (!found) return;
          stream.off('data', look);
          resolve(found);
        };
        stream.on('data', look);
        look();
        ended.then((end) => reject(new Error(`It never said ${pattern}: ${JSON.stringify(end)}`)), reject);
      }),
  };
}

export interface Answer {
  readonly status: number;
  readonly ok: boolean;
  readonly text: string;
}

export interface Running extends Spawned {
  readonly url: string;
  /** One command by one person through the JSON way in. Rejects when no whole answer comes. */
  send(person: string, command: CommandInput, commandId: string, pin?: string): Promise<Answer>;
  get(path: string): Promise<{ readonly status: number; readonly body: string }>;
  /** What the process's own clock shows, in epoch ms, rounded down to a second. */
  clock(): Promise<number>;
  stop(signal: NodeJS.Signals): Promise<Ended>;
}

/** `potbell start` on any free port; resolves when it has said its address. */
export async function startPotbell(
  data: string,
  more: readonly string[] = [],
  env: Env = {},
): Promise<Running> {
  const spawned = spawnPotbell(['start', '--port', '0', '--data', data, '--log', 'info', ...more], env);
  const [, url = ''] = await spawned.says('out', /^Board: (http:\S+)$/m);
  return {
    ...spawned,
    url,
    async send(person, command, commandId, pin = demoPins[person] ?? '') {
      const response = await fetch(`${url}/api/command`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ person, pin, commandId, command }),
      });
      const { ok, text } = (await response.json()) as Omit<Answer, 'status'>;
      return { status: response.status, ok, text };
    },
    async get(path) {
      const response = await fetch(`${url}${path}`);
      return { status: response.status, body: await response.text() };
    },
    async clock() {
      const { headers } = await fetch(`${url}/healthz`);
      return Date.parse(headers.get('date') ?? '');
    },
    stop(signal) {
      spawned.child.kill(signal);
      return spawned.ended;
    },
  };
}

/** A refusal as people should meet it: words on standard error, nothing on standard output, no stack, exit code 2. */
export function expectRefusal(end: Ended, ...says: readonly (string | RegExp)[]): void {
  expect(end.err).not.toMatch(/^\s+at .+:\d+:\d+/m);
  for (const words of says) expect(end.err).toMatch(words);
  expect(end.out).toBe('');
  expect(end.code).toBe(2);
}

/** A result: on standard output, with nothing beside it. */
export function expectResult(end: Ended): void {
  expect(end.err).toBe('');
  expect(end.code).toBe(0);
}

/** None of the demo's PINs stands in a text as a number of its own. */
export function expectNoPin(text: string): void {
  const found = Object.values(demoPins).filter((pin) =>
    new RegExp(`(?<![\\w.-])${pin}(?![\\w-])`).test(text),
  );
  expect(found).toEqual([]);
}

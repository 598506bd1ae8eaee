import { randomUUID } from 'node:crypto';
import { stderr, stdin } from 'node:process';
import { createInterface } from 'node:readline/promises';
import { Writable } from 'node:stream';
import type { DayEntry } from '../../src/model/day-entry.ts';
import { UsageProblem } from './site.ts';

interface PostOptions {
  readonly board: string;
  readonly person: string;
  readonly pin: string;
  readonly entry: DayEntry;
}

interface Answer {
  readonly ok: boolean;
  readonly text: string;
}

/** Hand a day to the running Potbell, as the person whose PIN it is. */
export async function postDay({ board, person, pin, entry }: PostOptions): Promise<Answer> {
  if (!URL.canParse(board))
    throw new UsageProblem(`"${board}" is no address. Write --board as one such as http://127.0.0.1:8731.`);
  const url = new URL('/api/command', board);
  const body = JSON.stringify({
    person,
    pin,
    commandId: `post-${randomUUID()}`,
    command: { type: 'post-day', entry },
  });
  const response = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body,
    signal: AbortSignal.timeout(15_000),
  }).catch((error: unknown) => {
    throw new UsageProblem(
      `No Potbell answers at ${board} (${reason(error)}). Start it with "potbell start", or say --board URL.`,
    );
  });
  const answer: unknown = await response.json().catch(() => null);
  if (isAnswer(answer)) return answer;
  throw new UsageProblem(`Something answers at ${board}, but not a Potbell (status ${response.status}).`);
}

/** The PIN from the environment, or asked for. Never from an argument: arguments are seen by everybody on a machine. */
export async function askPin(person: string): Promise<string> {
  const fromEnvironment = process.env.POTBELL_PIN;
  if (fromEnvironment) return fromEnvironment;
  if (!stdin.isTTY)
    throw new UsageProblem('Set POTBELL_PIN, or run this at a terminal to be asked for the PIN.');
  stderr.write(`PIN of ${person} (not shown): `);
  // What is typed is echoed to the output, so the output swallows it.
  const nowhere = new Writable({ write: (_chunk, _encoding, next) => next() });
  const lines = createInterface({ input: stdin, output: nowhere, terminal: true });
  const end = new AbortController();
  // Ctrl-C and Ctrl-D: without this the question would stay open for ever.
  lines.once('SIGINT', () => end.abort()).once('close', () => end.abort());
  try {
    return (await lines.question('', { signal: end.signal })).trim();
  } catch {
    throw new UsageProblem('No PIN was typed. Nothing was done.');
  } finally {
    lines.close();
    stderr.write('\n');
  }
}

function isAnswer(value: unknown): value is Answer {
  return (
    typeof value === 'object' &&
    value !== null &&
    'ok' in value &&
    'text' in value &&
    typeof value.text === 'string'
  );
}

function reason(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.cause instanceof Error ? error.cause.message : error.message;
}

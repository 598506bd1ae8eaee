import { createHash } from 'node:crypto';
import { type Context, Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { z } from 'zod';
import { plainText } from '../../src/message/plain-text.ts';
import type { Actor } from '../../src/model/actor.ts';
import { type Command, commandSchema, hostCommands } from '../../src/model/command.ts';
import { idSchema } from '../../src/model/id.ts';
import type { Shift } from '../../src/model/shift.ts';
import { type HandleCommand, StoreDamaged } from '../../src/ports.ts';
import type { Log } from '../host/log.ts';
import type { PinAttempts } from '../host/pin-attempts.ts';
import { addBackup, type BackupServices, type CheckPin } from './backup.ts';

export interface ApiServices {
  readonly handle: HandleCommand;
  readonly attempts: PinAttempts;
  readonly log: Log;
  checkPin(person: string, pin: string): Promise<boolean>;
  shiftIdFor(date: string): string;
  currentShift(): Promise<Shift | null>;
  /** Null on a store that cannot be copied. */
  readonly backup?: BackupServices | null;
}

const requestSchema = z.strictObject({
  person: idSchema,
  pin: z.string().regex(/^\d{1,12}$/, 'digits only'),
  commandId: z.string().min(8).max(100),
  command: commandSchema,
});

/**
 * The way in for `potbell post` and other programs on this machine: one JSON request is one command by one person, who
 * is known by the PIN in the request. JSON only, so that a page from elsewhere cannot send it by a form.
 */
export function createApi(services: ApiServices): Hono {
  const app = new Hono();
  app.use(
    bodyLimit({ maxSize: 64 * 1024, onError: (c) => c.json({ ok: false, text: 'At most 64 KB.' }, 413) }),
  );
  const wrongPin: CheckPin = async (c, person, pin) => {
    const attempt = services.attempts.begin(person);
    if (attempt.kind === 'wait')
      return c.json({ ok: false, text: 'Too many wrong PINs. Wait five minutes.' }, 429);
    if (attempt.kind === 'unknown' || !(await services.checkPin(person, pin))) {
      services.log.warn({ person, triesLeft: attempt.left }, 'wrong PIN from the command line');
      return c.json(
        { ok: false, text: `This PIN is not right. Nothing was done. Tries left: ${attempt.left}.` },
        401,
      );
    }
    attempt.right();
    return null;
  };
  app.post('/command', async (c) => {
    const body = await readJson(c);
    if (body instanceof Response) return body;
    const parsed = requestSchema.safeParse(body);
    if (!parsed.success) return c.json({ ok: false, text: z.prettifyError(parsed.error) }, 422);
    const { person, pin, command, commandId } = parsed.data;
    if (hostCommands.includes(command.type))
      return c.json({ ok: false, text: `"${command.type}" is not for people.` }, 422);
    const wrong = await wrongPin(c, person, pin);
    if (wrong) return wrong;
    const current = await services.currentShift();
    const shift = command.type === 'post-day' ? services.shiftIdFor(command.entry.date) : current?.id;
    if (shift === undefined) return c.json({ ok: false, text: 'No day has been posted.' }, 409);
    const actor: Actor = { kind: 'person', person, surface: 'command line' };
    const outcome = await services.handle({
      shift,
      command,
      actor,
      commandId: commandIdFor(commandId, actor, command),
    });
    return c.json({ ok: outcome.ok, text: plainText(outcome.shown) }, outcome.ok ? 200 : 409);
  });
  if (services.backup) addBackup(app, services.backup, readJson, wrongPin);
  // Programs read JSON; the board's page of words would tell them that this is no Potbell.
  app.onError((error, c) => {
    services.log.error({ err: error, path: c.req.path }, 'a request from the command line failed');
    const text =
      error instanceof StoreDamaged
        ? error.message
        : 'Potbell could not answer; its log says why. Look on the board whether it was done before you send it again.';
    return c.json({ ok: false, text }, 500);
  });
  return app;
}

/** What was sent, or the answer to somebody who sent something else. */
async function readJson(c: Context): Promise<unknown> {
  if (!c.req.header('content-type')?.startsWith('application/json'))
    return c.json({ ok: false, text: 'Send JSON.' }, 415);
  const body = asJson(await c.req.text());
  return body === undefined ? c.json({ ok: false, text: 'The body is not JSON.' }, 400) : body;
}

/** Undefined when it is not JSON, which `null` is. */
function asJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/**
 * The id under which a request reaches the one door. It covers who and what, so that an id used again by somebody else or
 * for something else never passes for a repeat; the prefix keeps it from ever meeting the id of a bell.
 */
function commandIdFor(requestId: string, actor: Actor, command: Command): string {
  const what = createHash('sha256')
    .update(JSON.stringify([actor, command]))
    .digest('hex')
    .slice(0, 16);
  return `api:${requestId}:${what}`;
}

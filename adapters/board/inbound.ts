import { createHash } from 'node:crypto';
import type { Context } from 'hono';
import { type Action, decodeAction, type FormRef } from '../../src/message/action.ts';
import type { Field, FormValues } from '../../src/message/form.ts';
import { formIds } from '../../src/message/form-ids.ts';
import type { Actor } from '../../src/model/actor.ts';
import type { Command } from '../../src/model/command.ts';
import type { ShiftId } from '../../src/model/id.ts';
import { localPath } from './local-path.ts';

/** What the board adds to every form of its own. Names with `_` in front are the board's, all others the form's. */
export interface BoardFields {
  /** Unique per rendered button: a double submit carries the same one. */
  readonly commandId: string;
  readonly shift: ShiftId | null;
  readonly back: string;
}

export interface Posted {
  readonly board: BoardFields;
  readonly action: Action | null;
  readonly values: FormValues;
}

const MOST_FIELDS = 600;
const idPattern = /^[A-Za-z0-9_-]{8,80}$/;
const shiftPattern = /^[\w:.-]{1,120}$/;

/** A posted form, or null when it is not one of ours (old, cut or forged). */
export async function readPosted(c: Context): Promise<Posted | null> {
  const body = await c.req.parseBody({ all: true });
  const values = new Map<string, string | string[]>();
  if (Object.keys(body).length > MOST_FIELDS) return null;
  for (const [name, value] of Object.entries(body)) {
    const all = Array.isArray(value) ? value : [value];
    const texts = all.filter((one) => typeof one === 'string');
    if (texts.length !== all.length) return null;
    values.set(name, Array.isArray(value) ? texts : (texts[0] ?? ''));
  }
  const one = (name: string) => {
    const value = values.get(name);
    return typeof value === 'string' ? value : undefined;
  };
  const commandId = one('_command');
  const shift = one('_shift') ?? '';
  if (commandId === undefined || !idPattern.test(commandId)) return null;
  if (shift !== '' && !shiftPattern.test(shift)) return null;
  return {
    board: { commandId, shift: shift === '' ? null : shift, back: localPath(one('_back')) ?? '/' },
    action: decodeAction(one('_action') ?? ''),
    values: Object.fromEntries([...values].filter(([name]) => !name.startsWith('_'))),
  };
}

/** Which form an address asks for, or null. What it is about stands in the query. */
export function readFormRef(c: Context): FormRef | null {
  const id = formIds.find((known) => known === c.req.param('id'));
  const about = Object.entries(c.req.query()).filter(([name]) => !name.startsWith('_'));
  const fits = about.every(([name, value]) => /^[a-z][\w-]{0,39}$/i.test(name) && value.length <= 200);
  return id === undefined || !fits || about.length > 12 ? null : { id, about: Object.fromEntries(about) };
}

/** Each value in the shape its field has: a list for `choices` (none ticked = empty list), one string for the rest. */
export function shapeValues(fields: readonly Field[], values: FormValues): FormValues {
  const shaped: Record<string, string | readonly string[]> = { ...values };
  for (const field of fields) {
    if (field.kind === 'group') continue;
    const value = values[field.name];
    const list = typeof value === 'string' ? [value] : (value ?? []);
    shaped[field.name] = field.kind === 'choices' ? list : (list.at(-1) ?? '');
  }
  return shaped;
}

/**
 * The id under which a press reaches the one door. It covers who and what: a page brought back by the browser and
 * pressed with other values, or by somebody else, is a press of its own and must not pass for a repeat. The prefix
 * keeps a made-up id from ever meeting the id of a bell.
 */
export function commandIdFor(pressId: string, actor: Actor, command: Command): string {
  const what = createHash('sha256')
    .update(JSON.stringify([actor, command]))
    .digest('hex')
    .slice(0, 16);
  return `board:${pressId}:${what}`;
}

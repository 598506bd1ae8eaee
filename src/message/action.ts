import { z } from 'zod';
import { type Command, commandSchema } from '../model/command.ts';
import { formIds } from './form-ids.ts';

/** What a press does: ask the one door for something, open a form, or show a page. */
export type Action =
  | { readonly kind: 'do'; readonly command: Command }
  | { readonly kind: 'open'; readonly form: FormRef }
  | { readonly kind: 'show'; readonly page: Page };

export interface FormRef {
  readonly id: (typeof formIds)[number];
  /** What the form is about, for example { rig: "rig-1" }. */
  readonly about: Readonly<Record<string, string>>;
}

const pages = ['today', 'briefing', 'emergency', 'record', 'sign-off', 'notices', 'why', 'more'] as const;
export type Page = (typeof pages)[number];

const actionSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('do'), command: commandSchema }),
  z.strictObject({
    kind: z.literal('open'),
    form: z.strictObject({ id: z.enum(formIds), about: z.record(z.string(), z.string()) }),
  }),
  z.strictObject({ kind: z.literal('show'), page: z.enum(pages) }),
]);

/** One string for a button's value on any surface (Slack allows 2000 characters). */
export function encodeAction(action: Action): string {
  return JSON.stringify(action);
}

/** The action in a pressed button, or null when the value is not one of ours (old, cut or forged). */
export function decodeAction(value: string): Action | null {
  let data: unknown;
  try {
    data = JSON.parse(value);
  } catch {
    return null;
  }
  const read = actionSchema.safeParse(data);
  return read.success ? read.data : null;
}

import type { Context, Hono } from 'hono';
import { z } from 'zod';
import { idSchema } from '../../src/model/id.ts';

export interface BackupServices {
  isForeman(person: string): boolean;
  /** A copy of the running database, read back and found whole. */
  copy(): Promise<Uint8Array>;
}

/** The PIN check of the JSON way in: null when it was right, else the answer to give. */
export type CheckPin = (c: Context, person: string, pin: string) => Promise<Response | null>;

const requestSchema = z.strictObject({
  person: idSchema,
  pin: z.string().regex(/^\d{1,12}$/, 'digits only'),
});

/** A copy of everything, names and signatures included, goes to a foreman only. Nothing is written by it. */
export function addBackup(
  app: Hono,
  { isForeman, copy }: BackupServices,
  readJson: (c: Context) => Promise<unknown>,
  checkPin: CheckPin,
): void {
  app.post('/backup', async (c) => {
    const body = await readJson(c);
    if (body instanceof Response) return body;
    const parsed = requestSchema.safeParse(body);
    if (!parsed.success) return c.json({ ok: false, text: z.prettifyError(parsed.error) }, 422);
    const { person, pin } = parsed.data;
    const wrong = await checkPin(c, person, pin);
    if (wrong) return wrong;
    if (!isForeman(person))
      return c.json({ ok: false, text: 'Only a foreman takes a copy of the database.' }, 403);
    const bytes = await copy();
    return c.body(new Uint8Array(bytes), 200, {
      'content-type': 'application/vnd.sqlite3',
      'cache-control': 'no-store',
    });
  });
}

import type { Hono } from 'hono';
import { answerWords } from './answer.ts';
import { type BoardParts, look } from './parts.ts';
import { recordFormats } from './record-files-panel.ts';
import type { BoardEnv } from './services.ts';

/** The record page carries its style inside the file, so this one answer may use it; it can run no script at all. */
const recordPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

export function fileRoutes(app: Hono<BoardEnv>, parts: BoardParts): void {
  app.get('/file/:shift/:format', async (c) => {
    const format = recordFormats.find((known) => known === c.req.param('format'));
    const shift = c.req.param('shift');
    const fits = format !== undefined && shift.length <= 120;
    const file = fits ? await parts.services.recordFile(shift, format) : null;
    if (file === null) {
      const view = await look(parts, c);
      return answerWords(parts, c, view, 404, view.words.notFoundTitle, view.words.fileMissing);
    }
    const name = file.fileName.replace(/[^\w.-]/g, '-');
    return c.body(file.body, 200, {
      'Content-Type': file.contentType,
      'Content-Disposition': `${format === 'html' ? 'inline' : 'attachment'}; filename="${name}"`,
      'Content-Security-Policy': recordPolicy,
    });
  });
}

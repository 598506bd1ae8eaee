import { html } from 'hono/html';
import type { BoardParts, View } from './parts.ts';
import type { Html } from './render-html.ts';
import type { RecordFormat } from './services.ts';

export const recordFormats = ['html', 'csv', 'json'] as const satisfies readonly RecordFormat[];
const MOST_SHIFTS = 62;

/** Links to the kept records, newest first. */
export async function recordFilesPanel({ services }: BoardParts, { words }: View): Promise<Html> {
  const shifts = (await services.store.shifts()).slice(0, MOST_SHIFTS);
  const labels = { html: words.fileHtml, csv: words.fileCsv, json: words.fileJson };
  const links = (shift: string) =>
    recordFormats.map(
      (format) =>
        html`<a class="button" href="/file/${encodeURIComponent(shift)}/${format}">${labels[format]}</a>`,
    );
  const rows = shifts.map(
    (shift) => html`<li><strong>${shift.date}</strong><span class="buttons">${links(shift.id)}</span></li>`,
  );
  const empty = html`<li>${words.fileMissing}</li>`;
  return html`<section class="panel" id="p-files" data-tone="plain" data-v="${shifts.map((shift) => shift.id).join(' ')}" aria-labelledby="files-title"><h2 id="files-title">${words.filesTitle}</h2><ul class="files">${rows.length > 0 ? rows : empty}</ul></section>`;
}

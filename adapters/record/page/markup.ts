import { html } from 'hono/html';

/** Already escaped. Everything else put into a template is escaped there, once. */
export type Html = ReturnType<typeof html>;
export type Cell = string | number | Html | readonly (string | Html)[];

export interface Row {
  readonly cells: readonly Cell[];
  /** `alarm`: something that nobody may overlook on paper either. */
  readonly tone?: 'plain' | 'alarm';
}

/**
 * A column by its head. `tight`: times, figures and marks, never broken. `name`: a name or a short word, broken only
 * when it is long; `wide` has room for a few words. Plain: people's own words, which may be one word without end and must not widen the page.
 */
export type Column = string | { readonly head: string; readonly fit: 'tight' | 'name' | 'wide' };

export const tight = (head: string): Column => ({ head, fit: 'tight' });
export const named = (head: string): Column => ({ head, fit: 'name' });
export const wide = (head: string): Column => ({ head, fit: 'wide' });

/** A table whose head is printed again on each page and whose rows are never split. `empty` stands where it has none. */
export function table(columns: readonly Column[], rows: readonly Row[], empty: string, kind = 'plain'): Html {
  if (rows.length === 0) return html`<p class="empty">${empty}</p>`;
  const heads = columns.map((column) =>
    typeof column === 'string' ? { head: column, fit: 'text' } : column,
  );
  const head = heads.map(({ head, fit }) => html`<th scope="col" class="${fit}">${head}</th>`);
  const body = rows.map(({ cells, tone = 'plain' }) => {
    const inside = cells.map((cell, place) => html`<td class="${heads[place]?.fit ?? 'text'}">${cell}</td>`);
    return html`<tr class="${tone}">${inside}</tr>
`;
  });
  return html`<table class="${kind}"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`;
}

/** A section scrolls sideways when its table is wider than the screen; with a place in the tab order the keyboard can too. */
export function section(id: string, title: string, ...parts: readonly (Html | '')[]): Html {
  return html`<section id="${id}" tabindex="0" aria-labelledby="${id}-title"><h2 id="${id}-title">${title}</h2>
${parts}</section>
`;
}

export function facts(pairs: readonly (readonly [string, Cell])[]): Html {
  const items = pairs.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`);
  return html`<dl>${items}</dl>`;
}

export function list(items: readonly (string | Html)[]): Html | '' {
  return items.length === 0 ? '' : html`<ul>${items.map((item) => html`<li>${item}</li>`)}</ul>`;
}

/** Items of a cell below each other, without marks. */
export function lines(items: readonly (string | Html)[]): readonly Html[] {
  return items.map((item) => html`<div>${item}</div>`);
}

/** In words as well as in looks: print is often grey. */
export function alarm(text: string): Html {
  return html`<strong class="alarm">${text}</strong>`;
}

/** A name in any script, kept from turning the line around it. */
export function name(text: string): Html {
  return html`<bdi>${text}</bdi>`;
}

/** Small print below the main word of a cell. */
export function under(text: string | Html): Html {
  return html`<span class="under">${text}</span>`;
}

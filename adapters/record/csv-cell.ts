/** What a spreadsheet may take for a formula, also in the wide characters of East Asian keyboards. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;
/** Where a spreadsheet set to another separator would begin a new cell inside our text. */
const INNER_FORMULA = /([;\t\r\n]\s*)(?=[=+\-@＝＋－＠])/g;

/**
 * A value as one cell of a CSV file (RFC 4180: quotes doubled, quoted where it holds a comma, a quote or a line end).
 *
 * A cell that begins with = + - @, a tab or a line end gets an apostrophe in front, and so does such a character after
 * a semicolon, tab or line end inside a cell: people's own words must not run as formulas in somebody's spreadsheet.
 * The JSON file has the words without it.
 */
export function csvCell(value: string | number | null): string {
  const guarded = guard(value === null ? '' : String(value));
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

function guard(text: string): string {
  const inner = text.replace(INNER_FORMULA, "$1'");
  return FORMULA.test(text) ? `'${inner}` : inner;
}

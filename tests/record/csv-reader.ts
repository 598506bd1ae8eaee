/** A CSV text by RFC 4180, section 2, to the letter: rows of cells. Throws on what the RFC does not allow. */
export function readCsv(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  while (at < text.length) {
    let cell = '';
    if (text[at] === '"') {
      at += 1;
      for (;;) {
        const quote = text.indexOf('"', at);
        if (quote === -1) throw new Error('a quoted cell has no end');
        cell += text.slice(at, quote);
        at = quote + 1;
        if (text[at] !== '"') break;
        cell += '"';
        at += 1;
      }
    } else {
      const [plain = ''] = /^[^",\r\n]*/.exec(text.slice(at)) ?? [];
      cell = plain;
      at += plain.length;
    }
    row.push(cell);
    if (text[at] === ',') {
      at += 1;
      continue;
    }
    if (text.slice(at, at + 2) !== '\r\n') throw new Error(`at ${at}: a cell ends with a comma or CRLF`);
    at += 2;
    rows.push(row);
    row = [];
  }
  return rows;
}

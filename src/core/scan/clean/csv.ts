/** Beginnings that table programs take for a formula, behind any number of our own guards. */
const formula = /^'*[=+\-@\t\r]/;
const number = /^[-+]?\d+(\.\d+)?(e[-+]?\d+)?$/i;

/** One field of RFC 4180: quoted where it must be, empty where there is nothing. Text that would be run is guarded by an apostrophe. */
export function csvField(value: unknown): string {
  if (value === null || value === undefined) return '';
  const text = String(value);
  const guarded = typeof value === 'string' && formula.test(text) && !number.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

/** Rows as CSV (RFC 4180), lines ending in CR LF; `readCsv` gives the same texts back. */
export const writeCsv = (rows: ReadonlyArray<readonly unknown[]>): string =>
  rows.map((row) => `${row.map(csvField).join(',')}\r\n`).join('');

/** The fields of a CSV as they were before they were written: quotes undone and guards taken off. A last line end is optional. */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = text.startsWith('\ufeff') ? 1 : 0;
  const field = /"((?:[^"]+|"")*)"?|([^,\r\n]*)/y;
  while (at < text.length) {
    field.lastIndex = at;
    const found = field.exec(text);
    row.push(unguarded(found?.[1]?.replaceAll('""', '"') ?? found?.[2] ?? ''));
    at = field.lastIndex;
    if (text[at] === ',') {
      at++;
      if (at === text.length) row.push('');
      else continue;
    } else if (text[at] === '\r' || text[at] === '\n') at += text.startsWith('\r\n', at) ? 2 : 1;
    // Letters behind a closing quote belong nowhere: the rest of the line is passed over.
    else if (at < text.length) at = lineEnd(text, at);
    rows.push(row);
    row = [];
  }
  return rows;
}

const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
};

/** A guard goes only from what is a guarded text: an apostrophe before anything else is the text's own. */
const unguarded = (text: string): string => (text.startsWith("'") && formula.test(text) ? text.slice(1) : text);

import { escapeXml } from '../../scan/index.ts';

/** Text made safe for a page; every word from outside goes through it. */
export const safe = escapeXml;

/** A number with a true minus, or a dash where it was not measured. */
export const number = (value: unknown, places: number): string =>
  typeof value === 'number'
    ? value
        .toFixed(places)
        .replace(/^-(?=0\.?0*$)/, '')
        .replace('-', '−')
    : '–';

export const signedNumber = (value: unknown, places: number): string =>
  typeof value === 'number' && value > 0 && Number(value.toFixed(places)) > 0
    ? `+${number(value, places)}`
    : number(value, places);

export const withSd = (value: unknown, sd: unknown, places: number): string =>
  typeof value === 'number' && typeof sd === 'number'
    ? `${number(value, places)} ± ${number(sd, places)}`
    : number(value, places);

export const percent = (share: unknown, places = 0): string =>
  typeof share === 'number' ? `${number(100 * share, places)} %` : '–';

/** Whole numbers with a narrow space between thousands. */
export const count = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, '\u202f');

export interface Column {
  readonly head: string;
  /** Numbers stand to the right, words to the left. */
  readonly words?: boolean;
}

/** A table; cells are finished HTML. The first cell of a row heads it. */
export function table(caption: string, columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const kind = (i: number): string => (columns[i].words ? ' class="words"' : '');
  const head = columns.map(({ head }, i) => `<th scope="col"${kind(i)}>${head}</th>`).join('');
  const body = rows.map((row) => {
    const [first, ...rest] = row;
    const cells = rest.map((cell, i) => `<td${kind(i + 1)}>${cell}</td>`).join('');
    return `<tr><th scope="row">${first}</th>${cells}</tr>`;
  });
  return `<table><caption>${caption}</caption><thead><tr>${head}</tr></thead><tbody>${body.join('\n')}</tbody></table>`;
}

export const list = (items: readonly string[]): string =>
  `<ul>${items.map((item) => `<li>${safe(item)}</li>`).join('')}</ul>`;

/** Names and what they stand for; values are finished HTML. */
export const terms = (pairs: ReadonlyArray<readonly [string, string]>): string =>
  `<dl>${pairs.map(([name, value]) => `<dt>${name}</dt><dd>${value}</dd>`).join('\n')}</dl>`;

export const section = (id: string, heading: string, body: string): string =>
  `<section id="${id}"><h2>${heading}</h2>\n${body}\n</section>`;

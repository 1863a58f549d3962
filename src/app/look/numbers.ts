/** What stands for a number that is not known; a file keeps such a number as null. */
const unknown = '–';

/** Numbers as the captions print them: a true minus, a narrow space before the unit. */
function digits(value: number, places: number): string {
  if (!Number.isFinite(value)) return unknown;
  const words = value.toFixed(places);
  // A nought has no sign.
  return Number(words) === 0 ? words.replace('-', '') : words.replace('-', '−');
}

export const mm = (value: number, places = 2): string => `${digits(value, places)}\u00a0mm`;
export const signedMm = (value: number, places = 2): string => `${value > 0 ? '+' : ''}${digits(value, places)}`;
export const percent = (share: number): string =>
  Number.isFinite(share) ? `${Math.round(share * 100)}\u202f%` : unknown;
export const count = (value: number): string => value.toLocaleString('en-GB').replaceAll(',', '\u202f');
export const number = digits;
export const sizeMm = (width: number, height: number): string =>
  `${digits(height, 1)}\u00a0×\u00a0${digits(width, 1)}\u00a0mm`;

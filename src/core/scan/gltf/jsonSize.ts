import { ScanError } from '../error.ts';

/**
 * Beside its bytes a JSON stands in memory as a text, and what it holds of buffers as a second one: half a gigabyte together for the
 * longest that is read. V8, the engine of Node and of the common browsers, makes no text longer than 2²⁹ − 24 characters.
 */
const longestText = 250_000_000;
/** Values and brackets outside texts: a document that describes a scan has some hundreds. */
const mostValues = 2_000_000;

const quote = 0x22;
const backslash = 0x5c;

/** Throws `tooLarge` for JSON that cannot become a text, or whose objects would take many times the memory of the file. */
export function checkJsonSize(json: Uint8Array): void {
  if (json.length > longestText) throw tooLong();
  if (hasMoreValues(json, mostValues))
    throw new ScanError('tooLarge', 'the JSON of the glTF lists millions of values; export the scan again as GLB.');
}

/** Whether a JSON has more commas and opening brackets outside its texts than this: told before anything is made of it. */
export function hasMoreValues(json: Uint8Array, most: number): boolean {
  let values = 0;
  for (let at = 0; at < json.length && values <= most; at++) {
    const byte = json[at];
    if (byte === quote) at = endOfText(json, at);
    else if (byte === 0x2c || byte === 0x5b || byte === 0x7b) values++;
  }
  return values > most;
}

/** The refusal of a file of this name and length that can be told before its bytes are read, if there is one. */
export const refusedByLength = (name: string, bytes: number): ScanError | undefined =>
  /\.gltf$/i.test(name) && bytes > longestText ? tooLong() : undefined;

const tooLong = (): ScanError =>
  new ScanError('tooLarge', 'the glTF is a text of more than 250 MB, too long to be read; export it as GLB.');

/** Where the text that begins here ends: at its closing quote, or behind the file. */
function endOfText(json: Uint8Array, start: number): number {
  let at = start;
  for (;;) {
    at = json.indexOf(quote, at + 1);
    if (at < 0) return json.length;
    let escapes = 0;
    while (json[at - 1 - escapes] === backslash) escapes++;
    if (escapes % 2 === 0) return at;
  }
}

import { ScanError } from '../error.ts';

const powersOfTen = Float64Array.from({ length: 309 }, (_, exponent) => Number(`1e${exponent}`));

/** value · 10^exponent; one rounding while |exponent| ≤ 22 and the value is below 2⁵³, so that the result is exact. */
function scaled(value: number, exponent: number): number {
  if (exponent === 0 || value === 0) return value;
  if (exponent > 0) return exponent > 308 ? Number.POSITIVE_INFINITY : value * powersOfTen[exponent];
  if (exponent >= -308) return value / powersOfTen[-exponent];
  return exponent < -640 ? 0 : value / powersOfTen[308] / powersOfTen[-exponent - 308];
}

/**
 * Reads numbers and words straight from bytes, so that no string of the file is ever made.
 *
 * A number is read as digits gathered in a double and one power of ten: exact up to 15 digits, and within two units
 * in the last place of a double for longer ones, which is far below the float32 that is kept in the end.
 */
export class Cursor {
  readonly bytes: Uint8Array;
  readonly end: number;
  at: number;

  constructor(bytes: Uint8Array, at = 0) {
    this.bytes = bytes;
    this.end = bytes.length;
    this.at = at;
  }

  /** Moves to the next byte that is not white space, line ends included. False at the end of the file. */
  skipBlanks(): boolean {
    const { bytes, end } = this;
    let at = this.at;
    while (at < end && bytes[at] <= 32) at++;
    this.at = at;
    return at < end;
  }

  /** Moves to the next byte of this line that is not white space. False at the end of the line. */
  skipBlanksInLine(): boolean {
    const { bytes, end } = this;
    let at = this.at;
    while (at < end && bytes[at] <= 32 && bytes[at] !== 10 && bytes[at] !== 13) at++;
    this.at = at;
    return at < end && bytes[at] !== 10 && bytes[at] !== 13;
  }

  /** Moves behind the end of this line. */
  skipLine(): void {
    const { bytes, end } = this;
    let at = this.at;
    while (at < end && bytes[at] !== 10 && bytes[at] !== 13) at++;
    this.at = at + 1;
  }

  /** Moves behind the word that starts here. */
  skipWord(): void {
    const { bytes, end } = this;
    let at = this.at;
    while (at < end && bytes[at] > 32) at++;
    this.at = at;
  }

  /** The word here as text, at most 40 characters, for messages and rare cases. */
  word(): string {
    let text = '';
    for (let at = this.at; at < this.end && this.bytes[at] > 32 && text.length < 40; at++)
      text += String.fromCharCode(this.bytes[at]);
    return text;
  }

  /** True where the lower-case word `word` stands here in any mixture of cases; moves behind it. */
  takeWord(word: string): boolean {
    const { bytes, at } = this;
    const stop = at + word.length;
    if (stop > this.end || (stop < this.end && bytes[stop] > 32)) return false;
    for (let i = 0; i < word.length; i++) if ((bytes[at + i] | 32) !== word.charCodeAt(i)) return false;
    this.at = stop;
    return true;
  }

  /**
   * The number that follows, after any white space. NaN and infinity are read as such.
   * Throws `truncated` at the end of the file and `malformed` for a word that is no number.
   */
  number(): number {
    if (!this.skipBlanks())
      throw new ScanError('truncated', 'the file ends in the middle of its numbers; copy or export it again.');
    const { bytes } = this;
    let at = this.at;
    let byte = bytes[at];
    const negative = byte === 45;
    if (negative || byte === 43) byte = bytes[++at];
    const firstDigit = at;
    let value = 0;
    while (byte >= 48 && byte <= 57) {
      value = value * 10 + (byte - 48);
      byte = bytes[++at];
    }
    let digits = at - firstDigit;
    let exponent = 0;
    if (byte === 46) {
      const firstDecimal = ++at;
      byte = bytes[at];
      while (byte >= 48 && byte <= 57) {
        value = value * 10 + (byte - 48);
        byte = bytes[++at];
      }
      exponent = firstDecimal - at;
      digits += at - firstDecimal;
    }
    if (digits === 0) return this.unusualNumber();
    if ((byte | 32) === 101) {
      let sign = 1;
      byte = bytes[++at];
      if (byte === 45 || byte === 43) {
        if (byte === 45) sign = -1;
        byte = bytes[++at];
      }
      let power = 0;
      const firstPower = at;
      while (byte >= 48 && byte <= 57) {
        if (power < 10_000) power = power * 10 + (byte - 48);
        byte = bytes[++at];
      }
      if (at === firstPower) return this.unusualNumber();
      exponent += sign * power;
    }
    // A number ends at white space, at the end of the file or, in OBJ, at a stroke.
    if (byte > 32 && byte !== 47) return this.unusualNumber();
    this.at = at;
    value = scaled(value, exponent);
    return negative ? -value : value;
  }

  /** nan, inf and what some writers print for them; anything else is no number. */
  private unusualNumber(): number {
    const word = this.word();
    if (!/^[-+]?(nan|inf|\d*\.?#|\d+\.#)/i.test(word))
      throw new ScanError('malformed', `there is "${word}" where a number should stand; export the file again.`);
    this.skipWord();
    return Number.NaN;
  }
}

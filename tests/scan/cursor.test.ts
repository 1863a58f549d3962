import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ScanError } from '../../src/core/scan/index.ts';
import { Cursor } from '../../src/core/scan/text/cursor.ts';
import { bytesOf } from './shapes.ts';

const numberIn = (text: string): number => new Cursor(bytesOf(text)).number();

describe('numbers from bytes', () => {
  it('are exact up to 15 digits and a power of ten within 22', () => {
    const decimal = fc.tuple(
      fc.integer({ min: -999_999_999_999_999, max: 999_999_999_999_999 }),
      fc.integer({ min: -22, max: 22 }),
    );
    fc.assert(
      fc.property(decimal, ([digits, exponent]) => {
        const text = `${digits}e${exponent}`;
        return Object.is(numberIn(text), Number(text)) || (digits === 0 && numberIn(text) === 0);
      }),
    );
  });

  it('lie within four parts in 10¹⁶ however they are written', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e200, max: 1e200 }), (value) => {
        const texts = [String(value), value.toExponential(16), value.toPrecision(17)];
        return texts.every((text) => Math.abs(numberIn(text) - Number(text)) <= 4e-16 * Math.abs(value));
      }),
    );
  });

  it.each([
    ['+1.5', 1.5],
    ['.5', 0.5],
    ['5.', 5],
    ['-0', 0],
    ['1E+2', 100],
    ['1e400', Number.POSITIVE_INFINITY],
    ['1e-400', 0],
    ['00012', 12],
  ])('%s is %d', (text, value) => expect(numberIn(text)).toBeCloseTo(value, 12));

  it.each(['nan', '-nan', 'NaN', 'inf', '-Infinity', '1.#QNAN', '-1.#IND', '1.#INF'])(
    '%s is no finite number',
    (text) => expect(numberIn(text)).toBeNaN(),
  );

  it.each(['abc', '1,5', '1.2.3', '--1', '1e', 'e5', '.', '-', '0x10'])('%s is refused', (text) =>
    expect(() => numberIn(text)).toThrow(ScanError),
  );

  it('says that the file is cut short where nothing is left', () =>
    expect(() => numberIn('  \n ')).toThrow(expect.objectContaining({ code: 'truncated' })));
});

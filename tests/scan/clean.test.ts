import fc from 'fast-check';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { escapeXml, printable, printableLines, readCsv, ScanError, writeCsv } from '../../src/core/scan/index.ts';

/** Any text, with what does harm in it more often than chance would put it there. */
const anyText = fc
  .array(
    fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.constantFrom(
        '\u001b]0;x\u0007',
        '\u001b[2J',
        '\u009b31m',
        '\u202e',
        '\r',
        '\n',
        '\t',
        '\0',
        '\ud800',
        '"',
        ',',
      ),
      fc.constantFrom(
        "'",
        '=',
        '+',
        '-',
        '@',
        "'=",
        "''",
        '&',
        '<',
        ']]>',
        '\ufeff',
        '\ufffe',
        '✠',
        'Ƿ',
        '𐌰',
        '-1.5',
        '+2',
      ),
    ),
    { maxLength: 6 },
  )
  .map((parts) => parts.join(''));

describe('text from outside', () => {
  it('on a terminal: one line, no control character, no turn of direction, letters untouched', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        expect(printable(text)).not.toMatch(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]|\p{Cs}/u);
        expect(printable(printable(text))).toBe(printable(text));
      }),
    );
    expect(printable('Sigillum Ælfrici ✠ 𐌰.ply')).toBe('Sigillum Ælfrici ✠ 𐌰.ply');
    expect(printableLines('a\u001b[2J\nb\r')).toBe('a�[2J\nb ');
  });

  it('in a refusal too, whoever quotes it', () =>
    expect(new ScanError('malformed', 'a\u001b]0;OWNED\u0007\nb.').message).toBe('a�]0;OWNED� b.'));

  it('in XML and HTML: well formed, and the same text where XML can hold it', () => {
    const parser = new XMLParser({ ignoreAttributes: false, trimValues: false, parseTagValue: false });
    fc.assert(
      fc.property(anyText, (text) => {
        const xml = `<a b="${escapeXml(text)}">x${escapeXml(text)}</a>`;
        expect(XMLValidator.validate(xml)).toBe(true);
        // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
        expect(xml).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/);
      }),
    );
    for (const text of ['a < b & "c" > d', "S'(igillum) ✠ 𐌰", '&amp;lt;'])
      expect(parser.parse(`<a>x${escapeXml(text)}</a>`).a).toBe(`x${text}`);
  });
});

describe('CSV', () => {
  it('comes back from our own reader exactly as it was', () =>
    fc.assert(
      fc.property(fc.array(fc.array(anyText, { minLength: 1, maxLength: 4 }), { maxLength: 5 }), (rows) => {
        // A leading mark of the byte order is the file's own.
        const plain = rows.filter((row) => !row[0].startsWith('\ufeff'));
        expect(readCsv(writeCsv(plain))).toEqual(plain);
      }),
      { numRuns: 500 },
    ));

  it('has no cell that a table program would run, and leaves numbers as they are', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const cell = writeCsv([[text]])
          .replace(/\r\n$/, '')
          .replace(/^"/, '');
        expect(/^[=@\t\r]|^[-+](?!\d+(\.\d+)?(e[-+]?\d+)?$)/i.test(cell)).toBe(false);
      }),
    );
    expect(writeCsv([['=1+1', '@x', '-1.5', -1.5, '+2', '-a', null, undefined, 'a"b']])).toBe(
      '\'=1+1,\'@x,-1.5,-1.5,+2,\'-a,,,"a""b"\r\n',
    );
  });

  it('reads what others write: line ends of any kind, empty lines and cells, no last line end, a mark in front', () => {
    expect(readCsv('\ufeffa,b\n"c,\nd",\r\n,""\re')).toEqual([['a', 'b'], ['c,\nd', ''], ['', ''], ['e']]);
    expect(readCsv('')).toEqual([]);
    expect(readCsv('a,')).toEqual([['a', '']]);
    expect(readCsv('"open')).toEqual([['open']]);
  });
});

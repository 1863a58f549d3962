import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync } from '@swc/core';
import { describe, expect, it } from 'vitest';

/**
 * Sentences stand in report/ alone. Exempt are errors, which carry their remedy (what is thrown, and what makes up its
 * message), names of a step of the work while it is being done (`report(watch, …)`), and `exempt` below.
 */
const exempt: ReadonlyArray<readonly [path: string, why: string]> = [
  ['report/', 'the words themselves, and the page and figures round them'],
  ['read/card/words/', 'the words of a card in four languages, which go out with it as a file'],
  ['read/card/cardTei.ts', 'the text of a TEI file'],
  ['read/card/cardLinked.ts', 'the text of a JSON-LD file'],
  ['read/card/cardFields.ts', 'what stands in a card before anybody writes: its chain, and that a scan is simulated'],
  ['read/filters/standardLooks.ts', 'the names of looks, which a command line and a saved file know them by'],
  ['read/text/teiWrite.ts', 'the text of a TEI file'],
  ['read/text/teiWords.ts', 'its words in four languages'],
  ['read/text/signs.ts', 'the names that a TEI file gives to its glyphs'],
  ['read/text/leidenPrint.ts', 'the line of places in a text file'],
  ['read/text/leidenRead.ts', 'the same line, read back'],
  ['prepare.ts', 'parts of the error of a unit that is to be stated'],
  ['scan/recognise.ts', 'parts of the error of an unknown format'],
  ['scan/writePly.ts', 'the header of the file'],
  ['judge/judge.ts', 'the name of the calibration, which a record is known by'],
];

/** Prose: four words or more of two letters or more, two of them side by side. */
const isProse = (text: string): boolean =>
  (text.match(/[A-Za-z’']{2,}/g) ?? []).length >= 4 && /[A-Za-z,] [a-z]/.test(text);

interface Node {
  readonly [key: string]: unknown;
}

/** The sentences of a source, without those of errors and of progress. */
function proseIn(source: string): string[] {
  const found: string[] = [];
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) for (const each of node) visit(each);
    if (typeof node !== 'object' || node === null || Array.isArray(node)) return;
    const { type, callee, value, quasis } = node as Node;
    if (type === 'ImportDeclaration' || type === 'ThrowStatement' || type === 'NewExpression') return;
    if (type === 'CallExpression' && (callee as Node).value === 'report') return;
    const text =
      type === 'StringLiteral'
        ? String(value)
        : type === 'TemplateLiteral' && Array.isArray(quasis)
          ? (quasis as Node[]).map(({ cooked }) => cooked).join('…')
          : '';
    if (isProse(text)) found.push(text);
    for (const child of Object.values(node)) visit(child);
  };
  visit(parseSync(source, { syntax: 'typescript' }).body);
  return found;
}

const core = readdirSync('src/core', { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
  .map((entry) => join(entry.parentPath, entry.name).replace('src/core/', ''));

describe('sentences', () => {
  it('are made in report/ alone', () => {
    const looked = core.filter((path) => !exempt.some(([from]) => path.startsWith(from)));
    expect(looked.length).toBeGreaterThan(150);
    const found = looked.flatMap((path) =>
      proseIn(readFileSync(join('src/core', path), 'utf8')).map((text) => `${path}: ${text}`),
    );
    expect(found).toEqual([]);
  });

  it('would be seen, in quotes and in templates, and are not mistaken for what errors and progress say', () => {
    const seen = [
      "export const limit = { code: 'noFit', words: 'No fit was found here.' };",
      // biome-ignore lint/suspicious/noTemplateCurlyInString: the source of a program, as it would stand in a file
      'export const words = (mm: number): string => `They lie ${mm} mm apart in it.`;',
      "const reasons = ok ? [] : ['Too little of the face is there.'];",
    ];
    for (const source of seen) expect(proseIn(source)).toHaveLength(1);
    const passed = [
      "throw new ScanError('empty', 'The file holds no surface at all.');",
      "report(watch, 0.1, 'Looking for marks and wear');",
      "import { one } from './a long name of a file.ts';",
      "export type Code = 'noBetterThanUnrelated' | 'searchPrefersAnother';",
    ];
    for (const source of passed) expect(proseIn(source)).toEqual([]);
  });

  it.each(exempt)('need the exemption of %s: %s', (path) => {
    const exempted = core.filter((each) => each.startsWith(path));
    const found = exempted.flatMap((each) => proseIn(readFileSync(join('src/core', each), 'utf8')));
    expect(found.length).toBeGreaterThan(0);
  });
});

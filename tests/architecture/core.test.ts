import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const below = (folder: string, ending: RegExp): { path: string; text: string }[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => ({ path, text: readFileSync(path, 'utf8') }));

const core = below('src/core', /\.ts$/);
const source = below('src', /\.tsx?$/);

/** The program text without comments and without what stands in quotes. */
const codeOf = (text: string): string =>
  text
    .replaceAll(/\/\*[\s\S]*?\*\//g, ' ')
    .replaceAll(/\/\/.*$/gm, ' ')
    .replaceAll(/'(?:[^'\\\n]|\\.)*'/g, "''");

describe('the core', () => {
  it('is there to be looked at', () => {
    expect(core.length).toBeGreaterThan(100);
  });

  it('knows no chance but the seeded one, no clock, no console and no process', () => {
    // The type check of the core, which has no DOM, sees to the page.
    const forbidden =
      /\bMath\.random\b|\bDate\b|\bperformance\b|\bconsole\b|\bprocess\b|\brequire\(|\bsetTimeout\b|\bfetch\(/;
    const found = core
      .map(({ path, text }) => [path, codeOf(text).match(forbidden)?.[0]])
      .filter(([, word]) => word !== undefined);
    expect(found).toEqual([]);
  });

  it('imports no Node module and no screen library', () => {
    const found = core
      .filter(({ text }) => /from '(node:|three|react|@react-three)/.test(text))
      .map(({ path }) => path);
    expect(found).toEqual([]);
  });

  it('keeps its files within three hundred lines', () => {
    const long = core.filter(({ text }) => text.split('\n').length > 301).map(({ path }) => path);
    expect(long).toEqual([]);
  });
});

describe('the faces of the program', () => {
  it('are entered by short files', () => {
    for (const path of ['src/cli/main.ts', 'src/app/App.tsx', 'src/core/pipeline.ts', 'src/app/state/store.ts']) {
      const file = source.find((each) => each.path === path);
      expect(file?.text.split('\n').length).toBeLessThan(160);
    }
  });

  it('import three only in the scene, and start browser workers in one file only', () => {
    const three = source.filter(({ text }) => /from 'three|from '@react-three/.test(text)).map(({ path }) => path);
    expect(three.filter((path) => !path.startsWith('src/app/scene/'))).toEqual([]);
    const workers = source.filter(({ text }) => /new Worker\(/.test(text)).map(({ path }) => path);
    expect(workers.filter((path) => path.startsWith('src/app/'))).toEqual([]);
  });

  it('say nothing of how the project was made', () => {
    const words = /DESIGN\.md|TRADE\.md|STYLE\.md|STACK\.md|\/work\/|\/tmp\/|\bhelper agent\b|\bTODO\b|\bFIXME\b/;
    const found = [...source, ...below('docs', /\.md$/), ...below('sample-scans/generator', /\.ts$/)]
      .filter(({ text }) => words.test(text))
      .map(({ path }) => path);
    expect(found).toEqual([]);
  });
});

describe('the libraries that do real work here', () => {
  const tests = below('tests', /\.tsx?$/);
  /** Calls or constructs, outside comments and quotes, something that it imports from the package; types do not count. */
  const uses = ({ text }: { text: string }, packageName: string): boolean => {
    const imports = [...text.matchAll(/^import (?!type )([^;]*?) from '([^']+)';/gm)].filter(
      ([, , from]) => from === packageName || from.startsWith(`${packageName}/`),
    );
    const names = imports.flatMap(([, what]) =>
      [...what.matchAll(/(type )?(\w+)(?: as (\w+))?(?=[\s,}]|$)/g)]
        .filter(([, type]) => !type)
        .map(([, , name, as]) => as ?? name),
    );
    const body = codeOf(text).replaceAll(/^import [^;]*;/gm, ' ');
    return names.some((name) => new RegExp(`\\b${name}\\s*[.(]|<${name}\\b|new ${name}\\b`).test(body));
  };

  it.each([
    ['three', 'src/app/scene/', source],
    ['@react-three/fiber', 'src/app/scene/', source],
    ['meshoptimizer', 'src/workers/', source],
    ['ml-matrix', 'src/core/', source],
    ['vitest', 'tests/', tests],
  ] as const)('%s is used in %s', (name, folder, files) => {
    expect(files.filter((file) => file.path.startsWith(folder) && uses(file, name)).length).toBeGreaterThan(0);
  });
});

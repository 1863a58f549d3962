import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runIn } from '../cli/runFolder.ts';
import { smallPair } from '../cli/smallPair.ts';

const root = resolve(import.meta.dirname, '../..');
const npm = (cwd: string, ...args: string[]): string =>
  execFileSync('npm', args, {
    cwd,
    encoding: 'utf8',
    shell: process.platform === 'win32',
    stdio: ['ignore', 'pipe', 'pipe'],
  });

let folder = '';
const at = (...names: string[]): string => join(folder, ...names);
const node = (...args: string[]): string => execFileSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
const installed = (): string[] =>
  readdirSync(at('node_modules'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-package-'));
  const [{ filename }] = JSON.parse(npm(root, 'pack', '--json', '--ignore-scripts', '--pack-destination', folder));
  writeFileSync(at('package.json'), '{ "private": true, "type": "module" }\n');
  npm(folder, 'install', '--offline', '--no-audit', '--no-fund', at(filename));
}, 240_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the package, installed into an empty folder', () => {
  it('is small, brings nothing else, and carries neither tests nor maps', () => {
    const files = installed();
    const bytes = files.reduce((sum, file) => sum + statSync(file).size, 0);
    expect(bytes / 2 ** 20).toBeLessThan(40);
    expect(readdirSync(at('node_modules')).filter((name) => !name.startsWith('.'))).toEqual(['ectype']);
    expect(files.filter((file) => !file.includes('/zod/') && /\.map$|\.test\.|\/tests\/|\/src\//.test(file))).toEqual(
      [],
    );
  });

  it('carries the licences of what is bundled beside it', () => {
    const texts = ['app', 'cli', 'core'].map((part) =>
      readFileSync(at('node_modules/ectype/dist', part, 'THIRD-PARTY.txt'), 'utf8'),
    );
    for (const text of texts) expect(text).toContain('Permission is hereby granted');
    expect(texts[1]).toContain('\n@libsql/');
    for (const name of ['three', 'react-dom', 'comlink', '@fontsource-variable/alegreya'])
      expect(texts[0]).toContain(`\n${name} `);
    for (const text of texts.slice(0, 2)) expect(text).toContain('SIL OPEN FONT LICENSE');
  });

  it('runs ectype compare', () => {
    const args = ['compare', ...smallPair(folder), '--out', 'out'];
    const said = execFileSync(at('node_modules/.bin/ectype'), args, { cwd: folder, encoding: 'utf8' });
    expect(said).toContain('reference.ply');
    expect(runIn(at('out'))).toMatch(/^[0-9a-f]{64}$/);
    expect(readFileSync(at('out/report.html'), 'utf8')).toContain("font-family:'Alegreya'");
  }, 120_000);

  it('runs ectype add on its own SQLite, and worker and group after it', () => {
    writeFileSync(at('manifest.csv'), 'file,shelfmark,kind,unit\nnowhere.ply,A 1,cast,mm\n');
    const ectype = (...args: string[]): string =>
      execFileSync(at('node_modules/.bin/ectype'), args, { cwd: folder, encoding: 'utf8' });
    expect(ectype('add', 'manifest.csv', '--to', 'seals')).toContain('1 scan added');
    expect(ectype('worker', '--in', 'seals')).toContain('no job is left');
    expect(ectype('group', '--in', 'seals')).toContain('0 groups');
  });

  it('runs ectype serve', async () => {
    const server = spawn(at('node_modules/.bin/ectype'), ['serve', '--port', '0'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    try {
      const [line] = (await once(server.stdout, 'data')) as [Buffer];
      const url = /http:\S+/.exec(line.toString())?.[0] ?? '';
      const page = await (await fetch(url)).text();
      expect(page).toContain('Content-Security-Policy');
      const script = /src="\.\/(assets\/[^"]+\.js)"/.exec(page)?.[1];
      expect((await fetch(url + script)).headers.get('content-type')).toContain('javascript');
      expect((await fetch(`${url}samples/samples.json`)).status).toBe(200);
    } finally {
      server.kill();
    }
  });

  it('is a library with types: the example of docs/library.md compiles and runs', () => {
    const example = /```ts\n([\s\S]*?)```/.exec(readFileSync(join(root, 'docs/library.md'), 'utf8'))?.[1] ?? '';
    expect(example.trim().split('\n').length).toBeLessThanOrEqual(10);
    const [reference, subject] = smallPair(folder);
    renameSync(reference, at('matrix.ply'));
    renameSync(subject, at('impression.ply'));
    writeFileSync(at('example.mts'), example);
    writeFileSync(at('example.mjs'), example);
    const flags = ['--noEmit', '--strict', '--target', 'es2023', '--module', 'nodenext', '--skipLibCheck', 'false'];
    const types = ['--types', 'node', '--typeRoots', join(root, 'node_modules/@types')];
    node(join(root, 'node_modules/typescript/bin/tsc'), ...flags, ...types, 'example.mts');
    expect(node('example.mjs')).toMatch(/^(supported|against|otherDesign|undecided) (This matrix|Another|Not decided)/);
    expect(existsSync(at('report.html'))).toBe(true);
  }, 120_000);
});

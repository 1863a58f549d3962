import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exitCodeOf, lineOf, UsageError } from '../../src/cli/errors.ts';
import { scanInput } from '../../src/cli/files.ts';
import { prepareScan } from '../../src/core/pipeline.ts';
import { ScanError } from '../../src/core/scan/index.ts';
import { meshBuffer, meshDocument } from '../scan/makers.ts';
import { bumpySheet } from '../scan/shapes.ts';

const sheet = bumpySheet(4, 4);
const buffer = meshBuffer(sheet.positions, sheet.triangles);

let root = '';
const at = (name: string): string => join(root, 'scans', name);

/** A .gltf in the folder of scans that names its buffer so. */
function gltf(uri: string): string {
  writeFileSync(at('scan.gltf'), JSON.stringify(meshDocument(16, sheet.triangles.length, uri)));
  return at('scan.gltf');
}

function refusal(run: () => unknown): unknown {
  try {
    run();
  } catch (error) {
    return error;
  }
  return undefined;
}

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'ectype-admission-'));
  mkdirSync(at('buffers'), { recursive: true });
  mkdirSync(join(root, 'scans-of-others'));
  for (const place of ['outside.bin', 'scans-of-others/near.bin', 'scans/a b.bin', 'scans/buffers/below.bin'])
    writeFileSync(join(root, place), buffer);
  symlinkSync(join(root, 'outside.bin'), at('link.bin'));
  symlinkSync(join(root, 'scans-of-others'), at('elsewhere'));
  symlinkSync(at('a b.bin'), at('inside.bin'));
});

afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('files beside a glTF', () => {
  it.each([
    ['a%20b.bin', 'a b.bin'],
    ['a b.bin', 'a b.bin'],
    ['buffers/below.bin', 'buffers/below.bin'],
    ['inside.bin', 'inside.bin'],
  ])('%j is read', (uri, name) => {
    const { files = {} } = scanInput(gltf(uri), {});
    expect(Object.keys(files)).toEqual([name]);
    expect(Uint8Array.from(files[name])).toEqual(buffer);
  });

  it.each(['../outside.bin', '..%2foutside.bin', '%2e%2e/outside.bin', 'buffers/../../outside.bin', 'a%00.bin', '%zz'])(
    '%j is refused before anything is read',
    (uri) => {
      const error = refusal(() => scanInput(gltf(uri), {}));
      expect(error).toBeInstanceOf(ScanError);
      expect(exitCodeOf(error)).toBe(3);
      expect(lineOf(error)).toMatch(/^ectype: scan\.gltf: the glTF names its buffer/);
    },
  );

  it.each(['link.bin', 'elsewhere/near.bin', 'not-there.bin', 'buffers'])(
    '%j, a link out of the folder or no file, is missing: exit 2, naming it',
    async (uri) => {
      const input = scanInput(gltf(uri), {});
      expect(input.files).toEqual({});
      const error = await prepareScan(input).catch((thrown: unknown) => thrown);
      expect(exitCodeOf(error)).toBe(2);
      expect(lineOf(error)).toContain(`needs the file "${uri}"`);
    },
  );
});

describe('what the command line says of a file', () => {
  it('is one line without control characters, whatever the file is called', () => {
    const error = refusal(() => scanInput(at('no\u001b[2J\nsuch\u009b31m.ply'), {}));
    expect(lineOf(error)).toMatch(/^ectype: [^\p{Cc}]+$/u);
    expect(lineOf(new Error('two\nlines \u001b]0;x\u0007'))).toBe('ectype: two lines �]0;x�');
  });

  it('a length with its unit is answered with the unit that is meant', () => {
    const wrong = (values: Record<string, string>) => refusal(() => scanInput(gltf('a%20b.bin'), values));
    expect(wrong({ 'pixel-size': '0.06mm' })).toBeInstanceOf(UsageError);
    expect(lineOf(wrong({ 'pixel-size': '0.06mm' }))).toBe(
      'ectype: --pixel-size 0.06mm: give a number of mm without the unit, such as 0.06.',
    );
    expect(lineOf(wrong({ 'height-step': '1um', unit: 'um' }))).toContain('give a number of um');
    expect(lineOf(wrong({ unit: 'km' }))).toBe('ectype: --unit km: choose one of um, mm, cm, m, inch.');
  });
});

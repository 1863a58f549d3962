import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';

const assets = resolve('dist/app/assets');

it('the app’s script takes at most 900 kB on its way', () => {
  // The page of a served collection is one of its own.
  const scripts = readdirSync(assets).filter((name) => name.endsWith('.js') && !name.startsWith('collection'));
  const bytes = scripts.map((name) => gzipSync(readFileSync(join(assets, name)), { level: 9 }).length);
  expect(scripts.length).toBeGreaterThan(10);
  expect(bytes.reduce((sum, each) => sum + each, 0)).toBeLessThanOrEqual(900_000);
});

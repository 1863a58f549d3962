import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, it } from 'vitest';

const folders = ['docs', 'src', 'tests', 'sample-scans'];
/** What is made, or stands in a package, or only shows a form. */
const elsewhere = /^(test|config|d|file|NAME|example|writer|index\.d|vitest|dev|opentype|docPictures)\.(ts|mjs)$/;

const all = folders.flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((path) => join(folder, path)),
);
const there = new Set([...readdirSync('.'), ...all].map((path) => basename(path)));

it('every source file that a page or a comment names is there', () => {
  const pages = ['README.md', 'DEVELOPERS.md', ...all.filter((path) => /\.(md|tsx?|mjs)$/.test(path))];
  const missing = pages.flatMap((page) =>
    [...readFileSync(page, 'utf8').matchAll(/[\w-]+(?:\.[\w-]+)*\.(?:tsx?|mjs|cjs)\b/g)]
      .map(([name]) => name)
      .filter((name) => !there.has(name) && !elsewhere.test(name))
      .map((name) => `${page}: ${name}`),
  );
  expect(missing).toEqual([]);
});

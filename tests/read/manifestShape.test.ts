import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Manifest } from '@iiif/presentation-3';
import { afterAll, expect, it } from 'vitest';
import { cardManifest, inEveryLanguage, legendOf, type ManifestPlate, parseCard } from '../../src/core/read/index.ts';

mkdirSync(resolve('dist'), { recursive: true });
const folder = mkdtempSync(resolve('dist/manifest-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** An invented guild's seal, both sides. */
const card = parseCard({
  schema: 'ectype/card/2',
  repository: 'Town archive of Ostrey (invented)',
  shelfmark: 'U 13',
  ...{ objectType: 'waxSeal', attachment: 'cords', status: 'attached', covering: 'none', protection: 'unknown' },
  object: { class: 'impression', generation: 1, chain: [] },
  links: [],
  sides: [
    { side: 'obverse', shape: 'round', legend: legendOf('+S`GILDE·DE·OSTREY') },
    { side: 'reverse', shape: 'round' },
  ],
  fingerMarks: 'notJudged',
  rights: 'https://creativecommons.org/licenses/by/4.0/',
});
const plates: ManifestPlate[] = [0, 1].map((side) => ({
  ...{ file: `face${side}.png`, format: 'image/png', shows: 'face', side, width: 700, height: 690, mmPerDot: 0.05 },
  captions: inEveryLanguage(() => 'Simulated.'),
}));

/**
 * Without what the standard has and its published types leave out: the service for physical dimensions (an annex of the standard), and
 * the label of what is to be seen also (Presentation API 3, 3.3).
 */
function asTyped(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(asTyped);
  if (typeof value !== 'object' || value === null) return value;
  const { service: _, ...part } = value as Record<string, unknown>;
  if (Array.isArray(part.seeAlso)) part.seeAlso = part.seeAlso.map(({ label: __, ...each }) => each);
  return Object.fromEntries(Object.entries(part).map(([key, each]) => [key, asTyped(each)]));
}

/** Whether the published types of the IIIF Presentation API 3 (@iiif/presentation-3) take this for a manifest; else what the compiler says. */
function refused(manifest: unknown): string {
  const file = join(folder, 'made.mts');
  writeFileSync(
    file,
    `import type { Manifest } from '@iiif/presentation-3';\nexport const made: Manifest = ${JSON.stringify(asTyped(manifest))};\n`,
  );
  const flags = [
    '--ignoreConfig',
    '--noEmit',
    '--strict',
    '--target',
    'es2023',
    '--module',
    'nodenext',
    '--skipLibCheck',
    '--types',
    '',
  ];
  const { status, stdout } = spawnSync(process.execPath, [resolve('node_modules/typescript/bin/tsc'), ...flags, file], {
    cwd: folder,
    encoding: 'utf8',
  });
  return status === 0 ? '' : stdout;
}

it('a manifest has the shape that the published types of its standard ask for, and one of another shape has not', () => {
  const base = 'https://example.org/seals/13/';
  const made = cardManifest(card, plates, { base, tei: 'card.xml', jsonLd: 'card.jsonld' }) as Partial<Manifest>;
  expect(refused(made)).toBe('');
  expect(refused({ ...made, type: 'Canvas' })).toMatch(/error/);
  expect(refused({ ...made, items: [{}] })).toMatch(/error/);
});

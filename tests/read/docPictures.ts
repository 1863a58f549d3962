/**
 * Draws the pictures of docs/read.md, from engraved dies of the sample generator (invented legends):
 *
 *   npx esbuild tests/read/docPictures.ts --bundle --platform=node --format=esm --packages=external \
 *     --outfile=node_modules/.docPictures.mjs && node node_modules/.docPictures.mjs docs/pictures
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encode } from 'fast-png';
import { type Band, findLegendBand } from '../../src/core/design/index.ts';
import { gaussianFilter, type HeightGrid, seededRandom, withHeights } from '../../src/core/geometry/index.ts';
import {
  applyLook,
  compositeStrips,
  faintLegendLook,
  type LitPicture,
  type LookInput,
  light,
  lightAcross,
  readableStrip,
  type StackedStrip,
  type Strip,
} from '../../src/core/read/index.ts';
import { engravedFace } from './engravedFace.ts';

const out = process.argv[2];
const upperLeft = { azimuthDeg: 315, heightDeg: 25 };

/** A picture brought to a width, by means over areas. */
function fitted(picture: LitPicture, width: number): LitPicture {
  const scale = picture.width / width;
  const height = Math.round(picture.height / scale);
  const grey = new Uint8ClampedArray(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let sum = 0;
      let count = 0;
      for (let r = Math.floor(y * scale); r < Math.max(Math.floor(y * scale) + 1, Math.floor((y + 1) * scale)); r++)
        for (let c = Math.floor(x * scale); c < Math.max(Math.floor(x * scale) + 1, Math.floor((x + 1) * scale)); c++) {
          if (r >= picture.height || c >= picture.width) continue;
          sum += picture.grey[r * picture.width + c];
          count++;
        }
      grey[y * width + x] = count > 0 ? sum / count : 0;
    }
  return { ...picture, width, height, grey };
}

/** Pictures side by side or one under another, white between them; 64 greys keep the files small. */
function save(name: string, pictures: readonly LitPicture[], across: boolean): void {
  const gap = 6;
  const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0) + gap * (values.length - 1);
  const most = (values: number[]): number => Math.max(...values);
  const width = (across ? sum : most)(pictures.map((p) => p.width));
  const height = (across ? most : sum)(pictures.map((p) => p.height));
  const data = new Uint8Array(width * height).fill(255);
  let at = 0;
  for (const p of pictures) {
    for (let y = 0; y < p.height; y++)
      for (let x = 0; x < p.width; x++)
        data[(across ? y : at + y) * width + (across ? at + x : x)] = Math.min(
          255,
          Math.round(p.grey[y * p.width + x] / 4) * 4,
        );
    at += (across ? p.width : p.height) + gap;
  }
  writeFileSync(join(out, name), encode({ width, height, data, channels: 1 }, { zlib: { level: 9 } }));
}

const letterMm = (band: Band): number => band.lettersInnerMm - band.lettersOuterMm;
const plain = (grid: HeightGrid): LitPicture => light(grid, [upperLeft], { emptyGrey: 255 });
const faint = (grid: HeightGrid, band: Band): LitPicture =>
  applyLook(grid, faintLegendLook(letterMm(band)), { emptyGrey: 255 });

function faceAndStrip(): void {
  const { face } = engravedFace(29, { shape: 'round', sizeMm: 40, wear: 0.8, noiseMm: 0.012, pitchMm: 0.07 });
  const band = findLegendBand(face);
  if (!band) throw new Error('no band');
  save(
    'read-face.png',
    [plain(face.detail), faint(face.detail, band)].map((p) => fitted(p, 330)),
    true,
  );
  const { strip } = readableStrip(face.relief, band);
  save(
    'read-strip.png',
    [plain(strip.grid), faint(strip.grid, band)].map((p) => fitted(p, 1000)),
    false,
  );
}

function lights(): void {
  const { face } = engravedFace(27, { shape: 'pointedOval', sizeMm: 45, noiseMm: 0.004, pitchMm: 0.08 });
  const looks: LookInput[] = [
    { name: 'a', steps: [{ do: 'light', lamps: [{ azimuthDeg: 315, heightDeg: 15 }], castShadows: true }] },
    {
      name: 'b',
      steps: [
        { do: 'exaggerate', factor: 2 },
        { do: 'skyView', radiusMm: 2 },
      ],
    },
    { name: 'c', steps: [{ do: 'principalShading' }] },
    { name: 'd', steps: [{ do: 'exaggeratedShading' }] },
    { name: 'e', steps: [{ do: 'curvature', scaleMm: 0.15 }] },
  ];
  const pictures = looks.map((look) => applyLook(face.detail, look, { emptyGrey: 255 }));
  save(
    'read-lights.png',
    [pictures[0], lightAcross(face.detail, { emptyGrey: 255 }), ...pictures.slice(1)].map((p) => fitted(p, 150)),
    true,
  );
}

/** One legend on three witnesses, each rubbed to a tenth over other parts. */
function stack(): void {
  const { face } = engravedFace(37, { shape: 'round', sizeMm: 40, noiseMm: 0, pitchMm: 0.07 });
  const band = findLegendBand(face);
  if (!band) throw new Error('no band');
  const { strip } = readableStrip(face.relief, band);
  const witnesses: StackedStrip[] = [
    rubbed(strip, 'first', [0.05, 0.45], 1),
    rubbed(strip, 'second', [0.35, 0.75], 2),
    rubbed(strip, 'third', [0.65, 1], 3),
  ];
  const standings = witnesses.map(({ name }) => ({ name, finding: 'supported' as const, state: 'sameState' as const }));
  const composite = compositeStrips(witnesses, standings, { sizeMm: letterMm(band), noiseMm: [0.01, 0.01, 0.01] });
  if (composite.refused) throw new Error('no composite');
  const map: LitPicture = {
    ...composite.strip.grid,
    grey: new Uint8ClampedArray(composite.contributor.map((k) => (k === 255 ? 255 : 60 + 80 * k))),
    shown: { code: 'look', name: 'map', steps: [], view: 'asItIs' },
  };
  save(
    'read-stack.png',
    [...witnesses.map((w) => plain(w.strip.grid)), plain(composite.strip.grid), map].map((p) => fitted(p, 900)),
    false,
  );
}

function rubbed(strip: Strip, name: string, [from, to]: readonly [number, number], seed: number): StackedStrip {
  const random = seededRandom(seed);
  const { grid } = strip;
  const level = gaussianFilter(grid, 12).z;
  const z = grid.z.map((value, i) => {
    const share = (i % grid.width) / grid.width;
    const edge = Math.min(1, Math.max(0, Math.min(share - from, to - share) / 0.04));
    return level[i] + (value - level[i]) * (1 - 0.92 * edge) + 0.01 * random.normal();
  });
  return { name, strip: { ...strip, grid: withHeights(grid, z) }, filled: 1 };
}

faceAndStrip();
lights();
stack();

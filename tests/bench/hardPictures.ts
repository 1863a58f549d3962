/**
 * Draws docs/pictures/judge-hardest.png: the pairs that the bench's findings name as the hardest, reference over subject.
 *
 *   npx esbuild tests/bench/hardPictures.ts --bundle --platform=node --format=esm --packages=external \
 *     --outfile=node_modules/.hardPictures.mjs && node node_modules/.hardPictures.mjs docs/pictures/judge-hardest.png
 */
import { writeFileSync } from 'node:fs';
import { encode } from 'fast-png';
import type { Relation } from '../../sample-scans/generator/index.ts';
import { makePair } from '../../sample-scans/generator/node.ts';
import { type HeightGrid, sampleGrid, xOf, yOf } from '../../src/core/geometry/index.ts';
import { type LitPicture, light } from '../../src/core/read/index.ts';
import { gradedRecipe, type SetName } from './evidence.ts';
import { prepared } from './pairs.ts';

const hardest: ReadonlyArray<readonly [SetName, number, Relation]> = [
  ['reference', 100_453, 'same'],
  ['heldOut', 200_133, 'sisterImpressions'],
  ['heldOut', 250_147, 'handCopy'],
  ['reference', 100_111, 'sisterImpressions'],
  ['reference', 100_240, 'earlierState'],
  ['heldOut', 200_181, 'recastMatrix'],
  ['reference', 100_440, 'same'],
  ['reference', 100_123, 'same'],
  ['reference', 100_062, 'laterState'],
  ['reference', 100_252, 'same'],
];
const side = 140;
const gap = 6;

/** The relief on `side` × `side` cells about its middle, lit from the upper left. */
function pictureOf(grid: HeightGrid): LitPicture {
  const pitch = (Math.max(grid.width, grid.height) * grid.pitch) / side;
  const [x, y] = [xOf(grid, (grid.width - 1) / 2), yOf(grid, (grid.height - 1) / 2)];
  const half = ((side - 1) / 2) * pitch;
  const square = { width: side, height: side, pitch, left: x - half, top: y + half };
  const z = new Float32Array(side * side);
  const mask = new Uint8Array(side * side);
  for (let i = 0; i < z.length; i++) {
    const height = sampleGrid(grid, square.left + (i % side) * pitch, square.top - Math.floor(i / side) * pitch);
    if (Number.isNaN(height)) continue;
    z[i] = height;
    mask[i] = 1;
  }
  return light({ ...square, z, mask }, [{ azimuthDeg: 315, heightDeg: 30 }], { emptyGrey: 255 });
}

const columns: LitPicture[][] = [];
for (const [set, seed, relation] of hardest) {
  const pair = makePair(gradedRecipe(set, seed, relation));
  const scans = [await prepared(pair.reference, 'reference'), await prepared(pair.subject, 'subject')];
  columns.push(scans.map(({ face }) => pictureOf(face.relief)));
}
const width = columns.length * (side + gap) - gap;
const height = 2 * side + gap;
const data = new Uint8Array(width * height).fill(255);
columns.forEach((pictures, column) => {
  pictures.forEach(({ grey }, row) => {
    for (let i = 0; i < grey.length; i++) {
      const at = (row * (side + gap) + Math.floor(i / side)) * width + column * (side + gap) + (i % side);
      data[at] = Math.min(255, Math.round(grey[i] / 4) * 4);
    }
  });
});
writeFileSync(process.argv[2], encode({ width, height, data, channels: 1 }, { zlib: { level: 9 } }));

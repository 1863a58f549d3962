import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encode } from 'fast-png';
import { type Band, findLegendBand, parallelAt, readingGrid } from '../../../src/core/design/index.ts';
import { ringsOffered } from '../../../src/core/design/legend/findBands.ts';
import { light } from '../../../src/core/read/index.ts';
import { letteredFaces } from '../bands.ts';

/** Recipes and which of their faces. */
const shown = [
  [30_026, 0],
  [30_018, 0],
  [30_029, 0],
] as const;
/** Dots of a face's longer side. */
const dots = 250;

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** The face in light from the upper left, both edges of a band in red. */
function withBand(face: Parameters<typeof ringsOffered>[0], band: Band): Picture {
  const grid = readingGrid(face.sense, face.image ?? face.detail);
  const lit = light(grid, [{ azimuthDeg: 315, heightDeg: 30 }], { emptyGrey: 255 });
  const step = Math.max(grid.width, grid.height) / dots;
  const [width, height] = [Math.floor(grid.width / step), Math.floor(grid.height / step)];
  const data = new Uint8Array(3 * width * height);
  for (let i = 0; i < width * height; i++) {
    const [c, r] = [i % width, Math.floor(i / width)].map((k) => Math.floor((k + 0.5) * step));
    data.fill(Math.min(255, 4 * Math.round(lit.grey[r * grid.width + c] / 4)), 3 * i, 3 * i + 3);
  }
  for (const depth of [band.outerMm, band.innerMm]) {
    const edge = parallelAt(band, depth);
    for (let k = 0; k < edge.length; k += 2) {
      const c = Math.floor((edge[k] - grid.left) / grid.pitch / step);
      const r = Math.floor((grid.top - edge[k + 1]) / grid.pitch / step);
      if (c >= 0 && r >= 0 && c < width && r < height) data.set([200, 30, 30], 3 * (r * width + c));
    }
  }
  return { width, height, data };
}

/** Side by side on white. */
function beside(pictures: readonly Picture[]): Picture {
  const height = Math.max(...pictures.map((p) => p.height));
  const width = pictures.length * (dots + 6);
  const data = new Uint8Array(3 * width * height).fill(255);
  pictures.forEach((p, k) => {
    for (let r = 0; r < p.height; r++)
      data.set(p.data.subarray(3 * r * p.width, 3 * (r + 1) * p.width), 3 * (r * width + k * (dots + 6)));
  });
  return { width, height, data };
}

/**
 * `npm run bench -- band-pictures FOLDER`: the pictures of docs/read.md, the ring that lines and gaps alone would take and the one
 * that is chosen by its signs.
 */
export async function bandPictures(folder: string): Promise<void> {
  const [before, after]: [Picture[], Picture[]] = [[], []];
  for (const [recipe, which] of shown) {
    const { face } = (await letteredFaces(recipe))[which];
    const byLines = ringsOffered(face).reduce((p, q) => (q.score > p.score ? q : p)).band;
    before.push(withBand(face, byLines));
    after.push(withBand(face, findLegendBand(face) ?? byLines));
  }
  const save = (name: string, list: readonly Picture[]): void =>
    writeFileSync(join(folder, name), encode({ ...beside(list), channels: 3 }, { zlib: { level: 9 } }));
  save('read-band-before.png', before);
  save('read-band-after.png', after);
}

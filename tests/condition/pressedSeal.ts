import { pairOfReliefs, type WearRelief } from '../../src/core/condition/relief/relief.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';

/** A made-up round seal: a ring of letter-like strokes, a broad boss in the middle and a small star field. mm. */
export const sizeMm = 36;
export const pitch = 0.2;
const cells = Math.round(sizeMm / pitch) + 20;

/** Height of the die's positive at (x, y), mm. */
export function designHeight(x: number, y: number): number {
  const r = Math.hypot(x, y);
  const phi = Math.atan2(y, x);
  // Twenty-four strokes across the band, each leaning its own way and of its own height.
  const turns = ((phi / (2 * Math.PI)) * 24 + 24) % 24;
  const which = Math.floor(turns);
  const aside = (turns - which - 0.5 + 0.25 * Math.sin(which * 7) * ((r - 14) / 3)) * ((2 * Math.PI * 14) / 24);
  const tall = 0.3 + 0.04 * Math.sin(which * 5);
  const stroke = r > 12.2 && r < 15.8 ? tall * bump(aside / 0.45) * edge((r - 12.2) / 0.4) * edge((15.8 - r) / 0.4) : 0;
  const boss = 1.1 * bump(Math.hypot(x - 1, y + 0.5) / 5);
  const line = 0.15 * bump((r - 11) / 0.35) + 0.15 * bump((r - 17) / 0.35);
  return Math.max(stroke, boss, line);
}

const bump = (t: number): number => (Math.abs(t) < 1 ? (1 - t * t) ** 1.5 : 0);
const edge = (t: number): number => Math.max(0, Math.min(1, t));

export type Surface = (x: number, y: number) => number;

/** A grid over the seal; NaN heights are missing data. `noiseMm` white, seeded. */
export function gridOf(surface: Surface, noiseMm = 0, seed = 1): HeightGrid {
  const random = seededRandom(seed);
  const left = (-(cells - 1) / 2) * pitch;
  const z = new Float32Array(cells * cells);
  const mask = new Uint8Array(cells * cells);
  for (let row = 0, i = 0; row < cells; row++)
    for (let col = 0; col < cells; col++, i++) {
      const height = surface(left + col * pitch, -left - row * pitch);
      const noise = noiseMm * random.normal();
      if (Number.isNaN(height)) continue;
      z[i] = height + noise;
      mask[i] = 1;
    }
  return { width: cells, height: cells, pitch, left, top: -left, z, mask };
}

/** Cells of a grid for which `test` holds. */
export function cellsWhere(grid: HeightGrid, test: (x: number, y: number) => boolean): Uint8Array {
  return grid.mask.map((_, i) =>
    test(grid.left + (i % grid.width) * grid.pitch, grid.top - Math.floor(i / grid.width) * grid.pitch) ? 1 : 0,
  );
}

export const inBand = (x: number, y: number): boolean => Math.abs(Math.hypot(x, y) - 14) < 2.4;

/** The pair as the judging sees it, with 8 µm of noise on both. */
export function pair(subject: Surface, reference: Surface = designHeight, noiseMm = 0.008): WearRelief {
  const a = gridOf(reference, noiseMm, 3);
  const b = gridOf(subject, noiseMm, 4);
  const inside = cellsWhere(a, (x, y) => Math.hypot(x, y) < 0.49 * sizeMm);
  return pairOfReliefs(a, b, { inside, noiseMm: noiseMm * Math.SQRT2, sizeMm, turned: false });
}

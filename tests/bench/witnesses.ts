import { chanceFor } from '../../sample-scans/generator/chance.ts';
import { findLegendBand } from '../../src/core/design/index.ts';
import { fitFaces } from '../../src/core/fit/index.ts';
import { formRemoved, type HeightGrid, identity, rowOf, type Similarity, yOf } from '../../src/core/geometry/index.ts';
import {
  compositeStrips,
  type StackedStrip,
  type Strip,
  senseOfLetters,
  stackStrips,
} from '../../src/core/read/index.ts';
import type { LetterRows } from './referee.ts';
import { type WornSeal, wornSeal } from './wornSeals.ts';
import { letterRows, readingOrder } from './wornStrip.ts';

/** What became of one legend of which three impressions each keep a part. */
export interface FusedLegend {
  readonly label: string;
  readonly truth: string;
  readonly composite: Strip;
  readonly rows: LetterRows;
  /** For each letter: how many witnesses keep it, and whether the composite does. */
  readonly keptBy: readonly number[];
  readonly fused: readonly boolean[];
}

/** A letter is kept where its relief is like the new die's: correlation over a square of the letter's height. */
const keptFrom = 0.8;

/**
 * Three impressions of one die, each rubbed to a twentieth outside its own sector of 140° to 170° (the three stand
 * 120° apart, give or take 12°, so that some letters are kept by two and a few by none), each scanned, found, fitted to the first,
 * laid in register and put together. Where a fit fails, its witness is left out. The reason in words where nothing can be put together.
 */
export async function fusedLegend(seed: number): Promise<FusedLegend | string> {
  const seals = await Promise.all(
    [0, 1, 2].map((k) => wornSeal(seed, { witness: k, lostAt: keptSector(seed, k), vertices: 60_000 })),
  );
  const bands = seals.map((seal) => findLegendBand(seal.prepared.face));
  const first = bands.reduce(
    (best, band, k) => ((band?.confidence ?? 0) > (bands[best]?.confidence ?? 0) ? k : best),
    0,
  );
  const band = bands[first];
  if (!band) return 'no band on any witness';
  const reference = seals[first];
  const laid = seals.flatMap((seal) => {
    const referenceFromSubject = seal === reference ? identity : fitted(reference, seal);
    return referenceFromSubject
      ? [{ name: `${seal.seed}-${seals.indexOf(seal)}`, face: seal.prepared.face, referenceFromSubject }]
      : [];
  });
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const options = { pitchMm: Math.max(letterMm / 48, 0.04) };
  const inward = stackStrips(reference.prepared.face, band, laid, options);
  const outward = senseOfLetters(inward[0].strip).sense === 'upsideDown';
  const strips = outward ? stackStrips(reference.prepared.face, band, laid, { ...options, facing: 'outward' }) : inward;
  const noiseMm = laid.map(({ face }) => (face as WornSeal['prepared']['face']).noiseMm);
  const composite = compositeStrips(
    strips,
    laid.map(({ name }) => ({ name, finding: 'supported' as const, state: 'sameState' as const })),
    { sizeMm: letterMm, noiseMm },
  );
  if (composite.refused) return laid.length < 2 ? 'no witness could be laid on another' : 'fewer than two of one state';
  return {
    label: `seed ${seed}, ${reference.shape}`,
    rows: letterRows(composite.strip),
    composite: composite.strip,
    ...keptLetters(reference, strips, composite.strip),
  };
}

function keptSector(seed: number, k: number): (x: number, y: number) => number {
  const random = chanceFor(seed, `sector ${k}`);
  const middle = (2 * Math.PI * (k + random.between(-0.1, 0.1))) / 3;
  const half = (random.between(70, 85) * Math.PI) / 180;
  return (x, y) => {
    const off = Math.abs(Math.atan2(Math.sin(Math.atan2(x, y) - middle), Math.cos(Math.atan2(x, y) - middle)));
    return 0.3 + 0.65 * Math.max(0, Math.min(1, (off - half) / 0.15));
  };
}

/** The one-scale similarity, as the stacked strips of the program take it. */
function fitted(reference: WornSeal, seal: WornSeal): Similarity | null {
  const side = ({ prepared: { scan, face } }: WornSeal) => ({ mesh: scan.mesh, face });
  const fit = fitFaces(side(reference), side(seal));
  return fit.found ? fit.models[1].referenceFromSubject : null;
}

function keptLetters(seal: WornSeal, strips: readonly StackedStrip[], composite: Strip) {
  const { truth, columns } = readingOrder(seal, composite);
  const letterMm = 2 * 1.2 * seal.letterMm;
  const cut = formRemoved(cutGrid(seal, composite), letterMm);
  const details = strips.map(({ strip }) => formRemoved(strip.grid, letterMm));
  const likeAt = (grid: HeightGrid, column: number): boolean => likeness(grid, cut, column, seal.letterMm) >= keptFrom;
  return {
    truth,
    keptBy: columns.map((column) => details.filter((grid) => likeAt(grid, column)).length),
    fused: columns.map((column) => likeAt(composite.grid, column)),
  };
}

/** The new die's own relief on the strip. */
function cutGrid({ cutAt }: WornSeal, { grid, x, y, upX, upY }: Strip): HeightGrid {
  const z = grid.z.map((_, i) => {
    const c = i % grid.width;
    const up = yOf(grid, Math.floor(i / grid.width));
    return cutAt(x[c] + up * upX[c], y[c] + up * upY[c]);
  });
  return { ...grid, z, mask: new Uint8Array(z.length).fill(1) };
}

/** Correlation of two strips over a square one letter high about a column of the middle line. */
function likeness(grid: HeightGrid, cut: HeightGrid, column: number, letterMm: number): number {
  const half = Math.round(letterMm / 2 / grid.pitch);
  const middle = Math.round(rowOf(grid, 0));
  let [n, a, b, aa, bb, ab] = [0, 0, 0, 0, 0, 0];
  for (let r = middle - half; r <= middle + half; r++)
    for (let c = column - half; c <= column + half; c++) {
      const i = r * grid.width + ((c + grid.width) % grid.width);
      if (r < 0 || r >= grid.height || !grid.mask[i]) continue;
      n++;
      a += grid.z[i];
      b += cut.z[i];
      aa += grid.z[i] ** 2;
      bb += cut.z[i] ** 2;
      ab += grid.z[i] * cut.z[i];
    }
  return (ab - (a * b) / n) / Math.sqrt(Math.max(1e-18, (aa - (a * a) / n) * (bb - (b * b) / n)));
}

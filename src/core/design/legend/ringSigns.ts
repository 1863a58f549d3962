import type { HeightGrid } from '../../geometry/index.ts';
import type { PickedBand } from './pickBand.ts';
import { ringMargin, ringRows } from './ringPicture.ts';
import { ringWaves } from './ringWaves.ts';

/** By what a ring of letters is told from one of petals, of border lines or of a lip: none depends on size, height or light. */
export interface RingSigns {
  /** How far the spread among the letters stands above that of the gaps, both sides together. */
  readonly edges: number;
  /** The border line inside, in local standard deviations, 1 at most. */
  readonly innerLine: number;
  /** Share of the face's energy that runs parallel to the ring's curve. */
  readonly explained: number;
  /** Of all waves along the ring from a quarter to five letters' heights, the share of those longer than two, and of one to two. */
  readonly longWaves: number;
  readonly broadWaves: number;
  /** Correlation of rows half a letter apart: upright strokes run through both. */
  readonly upright: number;
  /** Share of the slopes that lie along the ring, not across it. */
  readonly along: number;
  /** Correlation across the outer and the inner edge: what runs on beyond it is not bounded by a gap. */
  readonly overOuterEdge: number;
  readonly overInnerEdge: number;
  /** Energy of the poorest fifth of the ring, by stretches one letter high in length, over the mean: letters are everywhere. */
  readonly even: number;
}

export const ringSignNames = [
  'edges',
  'innerLine',
  'explained',
  'longWaves',
  'broadWaves',
  'upright',
  'along',
  'overOuterEdge',
  'overInnerEdge',
  'even',
] as const satisfies readonly (keyof RingSigns)[];

/** `picture`: the ring laid out straight (`ringPicture`). */
export function ringSigns(picture: HeightGrid, band: PickedBand, explained: number): RingSigns {
  const ring = letterRows(picture);
  const [longWaves, broadWaves] = wavesOf(ring);
  return {
    edges: band.edges,
    innerLine: Math.min(1, band.innerLine),
    explained,
    longWaves,
    broadWaves,
    upright: uprightOf(ring),
    along: alongOf(ring),
    overOuterEdge: likeness(ring, 0, -ringMargin, 1),
    overInnerEdge: likeness(ring, ringRows - 1, ringRows + ringMargin - 1, 1),
    even: evenOf(ring),
  };
}

/** The picture by rows of the letters, 0 the outermost; columns go round. */
interface Ring {
  readonly width: number;
  readonly at: (row: number, column: number) => number;
  readonly has: (row: number, column: number) => boolean;
  /** Mean of each row of the letters. */
  readonly means: Float64Array;
}

function letterRows({ width, z, mask }: HeightGrid): Ring {
  const index = (row: number, column: number): number => (row + ringMargin) * width + ((column + width) % width);
  const at = (row: number, column: number): number => z[index(row, column)];
  const has = (row: number, column: number): boolean => mask[index(row, column)] === 1;
  const means = Float64Array.from({ length: ringRows }, (_, row) => {
    let [sum, count] = [0, 0];
    for (let c = 0; c < width; c++)
      if (has(row, c)) {
        sum += at(row, c);
        count++;
      }
    return count > 0 ? sum / count : 0;
  });
  return { width, at, has, means };
}

/** Σ ab / √(Σ a² Σ b²) over the columns of two rows, `rows` pairs of them one below another; means of the letters' rows taken off where `off`. */
function likeness({ width, at, has, means }: Ring, one: number, two: number, rows: number, off = false): number {
  let [ab, aa, bb] = [0, 0, 0];
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < width; c++) {
      if (!has(one + r, c) || !has(two + r, c)) continue;
      const a = at(one + r, c) - (off ? means[one + r] : 0);
      const b = at(two + r, c) - (off ? means[two + r] : 0);
      ab += a * b;
      aa += a * a;
      bb += b * b;
    }
  return ab / Math.sqrt(aa * bb || 1);
}

const halfLetter = Math.ceil(ringRows / 2);

const uprightOf = (ring: Ring): number => likeness(ring, 0, halfLetter, ringRows - halfLetter, true);

/** Σ (∂z/∂along)² ÷ Σ |∇z|², central differences. */
function alongOf({ width, at, has }: Ring): number {
  let [along, across] = [0, 0];
  for (let r = 0; r < ringRows; r++)
    for (let c = 0; c < width; c++) {
      if (!has(r, c)) continue;
      if (has(r, c - 1) && has(r, c + 1)) along += (at(r, c + 1) - at(r, c - 1)) ** 2;
      if (r > 0 && r < ringRows - 1 && has(r - 1, c) && has(r + 1, c)) across += (at(r + 1, c) - at(r - 1, c)) ** 2;
    }
  // Two rows have no neighbour on one side.
  const all = along + (across * ringRows) / (ringRows - 2);
  return all > 0 ? along / all : 0;
}

/** The poorest fifth's mean square over the mean of all stretches; 0 where there are none with data. */
function evenOf({ width, at, has }: Ring): number {
  const energies: number[] = [];
  for (let from = 0; from + ringRows <= width; from += ringRows) {
    let [sum, count] = [0, 0];
    for (let c = from; c < from + ringRows; c++)
      for (let r = 0; r < ringRows; r++)
        if (has(r, c)) {
          sum += at(r, c) ** 2;
          count++;
        }
    if (count > ringRows ** 2 / 2) energies.push(sum / count);
  }
  if (energies.length === 0) return 0;
  energies.sort((a, b) => a - b);
  const mean = energies.reduce((a, b) => a + b, 0) / energies.length;
  return mean > 0 ? energies[Math.floor(energies.length / 5)] / mean : 0;
}

/** Waves along the ring, in a letter's height: from the shortest to the longest that count, and where long and broad ones begin. */
const waves = { shortest: 1 / 4, broad: 1, long: 2, longest: 5 };

/** Shares of the long and of the broad waves; every second row, Fourier sums at whole numbers of waves in the round. */
function wavesOf(ring: Ring): [number, number] {
  let [long, broad, all] = [0, 0, 0];
  const powerAt = ringWaves(everySecondRow(ring));
  const rounds = ring.width / ringRows;
  const first = Math.max(1, Math.floor(rounds / waves.longest));
  for (let k = first; k < rounds / waves.shortest; k++) {
    const wave = rounds / k;
    if (wave > waves.longest) continue;
    const power = powerAt(k);
    all += power;
    if (wave > waves.long) long += power;
    else if (wave > waves.broad) broad += power;
  }
  return all > 0 ? [long / all, broad / all] : [0, 0];
}

/** Rows of the letters less their means, 0 where nothing was scanned. */
const everySecondRow = ({ width, at, has, means }: Ring): Float64Array[] =>
  Array.from({ length: ringRows >> 1 }, (_, k) =>
    Float64Array.from({ length: width }, (_, c) => (has(2 * k + 1, c) ? at(2 * k + 1, c) - means[2 * k + 1] : 0)),
  );

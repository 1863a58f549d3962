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

/** The picture row by row. */
interface Ring {
  readonly width: number;
  /** Row 0 is the letters' outermost; NaN without data. The ring is closed: a column more at either end, 1 is the first. */
  readonly row: (row: number) => Float32Array;
  /** Mean of each row of the letters. */
  readonly means: Float64Array;
}

function letterRows({ width, height, z, mask }: HeightGrid): Ring {
  const rows = Array.from({ length: height }, (_, r) => closedRow(z, mask, r * width, width));
  const row = (r: number): Float32Array => rows[r + ringMargin];
  return { width, row, means: Float64Array.from({ length: ringRows }, (_, r) => meanOf(row(r))) };
}

function closedRow(z: Float32Array, mask: Uint8Array, from: number, width: number): Float32Array {
  const row = new Float32Array(width + 2);
  for (let c = 0; c < width; c++) row[c + 1] = mask[from + c] === 1 ? z[from + c] : Number.NaN;
  row[0] = row[width];
  row[width + 1] = row[1];
  return row;
}

function meanOf(row: Float32Array): number {
  let sum = 0;
  let count = 0;
  for (let c = 1; c < row.length - 1; c++) {
    if (Number.isNaN(row[c])) continue;
    sum += row[c];
    count++;
  }
  return count > 0 ? sum / count : 0;
}

/** Σ ab / √(Σ a² Σ b²) over the columns of two rows, `rows` pairs of them one below another; means of the letters' rows taken off where `off`. */
function likeness({ row, means }: Ring, one: number, two: number, rows: number, off = false): number {
  const sums = new Float64Array(3);
  for (let r = 0; r < rows; r++)
    addProducts(row(one + r), row(two + r), off ? means[one + r] : 0, off ? means[two + r] : 0, sums);
  const [ab, aa, bb] = sums;
  return ab / Math.sqrt(aa * bb || 1);
}

/** Adds Σ ab, Σ a² and Σ b² of two rows less their means. */
function addProducts(one: Float32Array, two: Float32Array, meanOne: number, meanTwo: number, sums: Float64Array): void {
  for (let c = 1; c < one.length - 1; c++) {
    const a = one[c] - meanOne;
    const b = two[c] - meanTwo;
    if (Number.isNaN(a) || Number.isNaN(b)) continue;
    sums[0] += a * b;
    sums[1] += a * a;
    sums[2] += b * b;
  }
}

const halfLetter = Math.ceil(ringRows / 2);

const uprightOf = (ring: Ring): number => likeness(ring, 0, halfLetter, ringRows - halfLetter, true);

/** Σ (∂z/∂along)² ÷ Σ |∇z|², central differences. */
function alongOf({ row }: Ring): number {
  const sums = new Float64Array(2);
  for (let r = 0; r < ringRows; r++) {
    const here = row(r);
    addAlong(here, sums);
    if (r > 0 && r < ringRows - 1) addAcross(row(r - 1), here, row(r + 1), sums);
  }
  const [along, across] = sums;
  // Two rows have no neighbour on one side.
  const all = along + (across * ringRows) / (ringRows - 2);
  return all > 0 ? along / all : 0;
}

function addAlong(row: Float32Array, sums: Float64Array): void {
  for (let c = 1; c < row.length - 1; c++) {
    const step = row[c + 1] - row[c - 1];
    if (!Number.isNaN(row[c]) && !Number.isNaN(step)) sums[0] += step * step;
  }
}

function addAcross(above: Float32Array, row: Float32Array, below: Float32Array, sums: Float64Array): void {
  for (let c = 1; c < row.length - 1; c++) {
    const step = below[c] - above[c];
    if (!Number.isNaN(row[c]) && !Number.isNaN(step)) sums[1] += step * step;
  }
}

/** The poorest fifth's mean square over the mean of all stretches; 0 where there are none with data. */
function evenOf({ width, row }: Ring): number {
  const rows = Array.from({ length: ringRows }, (_, r) => row(r));
  const energies: number[] = [];
  for (let from = 1; from + ringRows <= width + 1; from += ringRows) {
    const energy = energyFrom(rows, from);
    if (!Number.isNaN(energy)) energies.push(energy);
  }
  if (energies.length === 0) return 0;
  energies.sort((a, b) => a - b);
  const mean = energies.reduce((a, b) => a + b, 0) / energies.length;
  return mean > 0 ? energies[Math.floor(energies.length / 5)] / mean : 0;
}

/** Mean square of a stretch one letter long; NaN where half of it or more has no data. */
function energyFrom(rows: readonly Float32Array[], from: number): number {
  let sum = 0;
  let count = 0;
  for (let c = from; c < from + ringRows; c++)
    for (let r = 0; r < ringRows; r++) {
      const z = rows[r][c];
      if (Number.isNaN(z)) continue;
      sum += z * z;
      count++;
    }
  return count > ringRows ** 2 / 2 ? sum / count : Number.NaN;
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
const everySecondRow = ({ row, means }: Ring): Float64Array[] =>
  Array.from({ length: ringRows >> 1 }, (_, k) => lessMean(row(2 * k + 1), means[2 * k + 1]));

function lessMean(row: Float32Array, mean: number): Float64Array {
  const out = new Float64Array(row.length - 2);
  for (let c = 0; c < out.length; c++) if (!Number.isNaN(row[c + 1])) out[c] = row[c + 1] - mean;
  return out;
}

import { impressionImage } from '../../../src/core/collection/features.ts';
import { type FaceIndex, openGlobals, shortlist } from '../../../src/core/collection/index.ts';
import { shortlistDefaults } from '../../../src/core/collection/shortlist.ts';
import type { Face } from '../../../src/core/face/index.ts';
import { bandPass, type HeightGrid, sampleGrid, turnGridOver } from '../../../src/core/geometry/index.ts';
import { type Row, share } from '../table.ts';
import { tableOf } from './indexed.ts';

/** A face and its index, with what its maker knows. */
export interface Trial {
  readonly matrix: string;
  readonly imageLeft: number;
  readonly decoy: string | null;
  readonly face: Pick<Face, 'image' | 'sense'>;
  readonly index: FaceIndex;
}

const rings = 24;
const angles = 64;
const harmonics = 16;

/** Places of the table in the order in which a design lists them for a query. */
type Listing = (query: number) => readonly number[];

/** Global forms alone, tried against each other: whether the right matrix is among the first 20 and 80. */
export function triedRows(trials: readonly Trial[], step: number): Row[] {
  const polar = trials.map(({ face }) => polarOf(impressionImage(face)));
  const over = trials.map(({ face }) => polarOf(turnGridOver(impressionImage(face))));
  const spectra = polar.map(spectrumOf);
  const table = openGlobals(tableOf(trials.map(({ index }) => index)));
  const byScore = (score: (place: number) => number): number[] => {
    const scores = trials.map((_, k) => score(k));
    return scores.map((_, k) => k).sort((a, b) => scores[b] - scores[a] || a - b);
  };
  const list =
    (options: Partial<typeof shortlistDefaults>) =>
    (query: number): number[] =>
      shortlist(trials[query].index, table, 81, { ...shortlistDefaults, ...options }).map(({ index }) => index);
  const designs: readonly [string, Listing][] = [
    ['spectra of 24 rings about the middle, 384 numbers', (q) => byScore((k) => dot(spectra[q], spectra[k]))],
    [
      'coarse relief on 24 rings, every turn and both ways, 1,536 numbers',
      (q) => byScore((k) => Math.max(bestTurn(polar[q], polar[k]), bestTurn(over[q], polar[k]))),
    ],
    ['features, counted whatever their turn', list({ turnBins: 1 })],
    ['features, codes alike in 12 of 64 bits', list({ mostBits: 12 })],
    ['features, in 20 of 64 bits', list({ mostBits: 20 })],
    ['features, buckets two bits off', list({ probes: 2 })],
    ['features as kept', list({})],
  ];
  return designs.flatMap(([what, listing]) => rowsOf(what, trials, listing, step));
}

function rowsOf(what: string, trials: readonly Trial[], listing: Listing, step: number): Row[] {
  return (
    [
      ['60 % and more', 0.6, 1.1],
      ['30 to 60 %', 0.3, 0.6],
    ] as const
  ).map(([words, low, high]) => {
    let [n, first, twenty, eighty] = [0, 0, 0, 0];
    for (let q = 0; q < trials.length; q += step) {
      const { matrix, imageLeft, decoy } = trials[q];
      const right = (k: number): boolean => k !== q && trials[k].matrix === matrix && !trials[k].decoy;
      if (decoy || imageLeft < low || imageLeft >= high || !trials.some((_, k) => right(k))) continue;
      const place = listing(q)
        .filter((k) => k !== q)
        .findIndex(right);
      n++;
      if (place === 0) first++;
      if (place >= 0 && place < 20) twenty++;
      if (place >= 0 && place < 80) eighty++;
    }
    return {
      what: `${what}; ${words}`,
      floor: '',
      measured: `first ${share(first, n)}, of 20 ${share(twenty, n)}, of 80 ${share(eighty, n)}`,
    };
  });
}

/** Band-passed relief on rings about the middle of what is there, each ring of mean 0, all of length 1; 0 where there is no data. */
function polarOf(image: HeightGrid): Float32Array {
  const size = Math.max(image.width, image.height) * image.pitch;
  const band = bandPass(image, size / 40, size / 8);
  const [cx, cy] = [
    image.left + ((image.width - 1) * image.pitch) / 2,
    image.top - ((image.height - 1) * image.pitch) / 2,
  ];
  const out = new Float32Array(rings * angles);
  for (let r = 0; r < rings; r++)
    for (let a = 0; a < angles; a++) {
      const radius = (0.5 * size * (r + 1)) / (rings + 1);
      const angle = (2 * Math.PI * a) / angles;
      out[r * angles + a] = sampleGrid(band, cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)) || 0;
    }
  for (let r = 0; r < rings; r++) {
    const ring = out.subarray(r * angles, (r + 1) * angles);
    const mean = ring.reduce((sum, z) => sum + z, 0) / angles;
    ring.forEach((z, a) => {
      ring[a] = z - mean;
    });
  }
  return unit(out);
}

/** Magnitudes of the first harmonics of every ring: the same at any turn, sense and mirror image. */
function spectrumOf(polar: Float32Array): Float32Array {
  const out = new Float32Array(rings * harmonics);
  for (let r = 0; r < rings; r++)
    for (let h = 1; h <= harmonics; h++) {
      let [re, im] = [0, 0];
      for (let a = 0; a < angles; a++) {
        re += polar[r * angles + a] * Math.cos((2 * Math.PI * h * a) / angles);
        im += polar[r * angles + a] * Math.sin((2 * Math.PI * h * a) / angles);
      }
      out[r * harmonics + h - 1] = Math.hypot(re, im);
    }
  return unit(out);
}

function unit(values: Float32Array): Float32Array {
  const length = Math.hypot(...values) || 1;
  return values.map((value) => value / length);
}

const dot = (a: Float32Array, b: Float32Array): number => a.reduce((sum, value, i) => sum + value * b[i], 0);

function bestTurn(a: Float32Array, b: Float32Array): number {
  let best = -1;
  for (let turn = 0; turn < angles; turn++) {
    let sum = 0;
    for (let r = 0; r < rings; r++)
      for (let k = 0, i = r * angles; k < angles; k++) sum += a[i + ((k + turn) & (angles - 1))] * b[i + k];
    best = Math.max(best, sum);
  }
  return best;
}

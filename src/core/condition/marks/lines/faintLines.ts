import type { HeightGrid } from '../../../geometry/index.ts';
import type { LossField } from '../../relief/loss.ts';
import type { WearRelief } from '../../relief/relief.ts';
import type { WearMap } from '../../wear/labels.ts';
import { soundAlong } from '../soundGround.ts';
import { type Chain, chainsOf } from './chains.ts';
import { keptAround, type LineMark, narrowForms } from './lines.ts';

export const faintDefaults = {
  directions: 16,
  /** A line is weighed over this length, mm, before its cells are linked. */
  lengthMm: 2.4,
  /** Distance of the places on both sides, mm; at least two cells. */
  besideMm: 0.45,
  /** One cell says at most so many standard deviations. */
  mostOfOne: 3,
  /** Weighed contrast from which a cell is a crest, standard deviations, and of the whole line. */
  leastCrest: 1.6,
  leastWhole: 6,
  /** … and so many times the strongest that the same rule finds sunk, and on the other face: a design out of place makes all of them alike. */
  overSunk: 1,
  overOther: 1.25,
  /** Height of its crest on the face that carries it, mm: what stands higher shows in single cells, and lines.ts has its say. */
  leastMm: 0.03,
  mostMm: 0.12,
  /** Least length, as a share of the size; share of its length on which crests were seen. */
  leastLength: 0.14,
  leastFull: 0.6,
  /** It runs inward from the edge: mean |cosine| between its way and the way inward. */
  leastInward: 0.55,
  /** The other face shows at most this share of its crest, and the difference is what the crests differ by, within these factors. */
  otherShare: 0.25,
  differs: [0.7, 1.7],
  /** Narrow forms about a line of the reference keep this much of their height on the subject. */
  leastKept: 0.5,
  /** Cells over which the way inward, and the line's own way, are taken. */
  reach: 6,
};

type Options = typeof faintDefaults;
type Weighed = Pick<LineMark, 'onReferenceMm' | 'onSubjectMm'> & { readonly carriedBy: 'reference' | 'subject' };

/**
 * Raised lines of the difference that no single cell shows: cracks as narrow as a cell. With c = d − max(d beside) across a
 * direction and w = 1/(σ² + σ² beside), a line is weighed by
 *
 *   t = Σ w c / √(Σ w), each √w c between ± `mostOfOne`,
 *
 * first over a short straight piece through each cell, then over all cells of the linked line, so that length makes up for what each
 * cell lacks, and steep ground, where cells are noisy, says little. Strokes that wore lie along the edge or keep a rest on the other
 * face; so a faint line must run inward, on sound ground, and be missing from the other face.
 */
export function faintLines(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  narrow = narrowForms(relief),
  options: Options = faintDefaults,
): LineMark[] {
  const found: (LineMark & { readonly whole: number })[] = [];
  let sunk = 0;
  const field = weighedField(relief, loss, options);
  for (const [sign, { best, along }] of [
    [1, field.ridge],
    [-1, field.groove],
  ] as const) {
    const least = (): number => options.leastCrest;
    for (const chain of chainsOf(relief.reference, best, along, options.directions, least, relief.sizeMm)) {
      const [long, full] = [
        chain.lengthMm / relief.sizeMm,
        (chain.cells.length * relief.reference.pitch) / chain.lengthMm,
      ];
      if (long < options.leastLength || full < options.leastFull) continue;
      const each = contrasts(relief, chain, along, sign, options);
      const whole = wholeOf(loss, each, options);
      if (whole < options.leastWhole || inwardOf(relief, chain, options) < options.leastInward) continue;
      if (!soundAlong(relief, map, chain.cells)) continue;
      if (readFaint(relief, loss, each, sign, -1, options)) sunk = Math.max(sunk, whole);
      const read = readFaint(relief, loss, each, sign, 1, options);
      if (!read) continue;
      if (read.carriedBy === 'reference' && keptAround(relief, narrow, chain) < options.leastKept) continue;
      found.push({ chain, ...read, faint: true, whole });
    }
  }
  const least = (line: LineMark): number =>
    Math.max(
      options.overSunk * sunk,
      ...found.filter(({ carriedBy }) => carriedBy !== line.carriedBy).map(({ whole }) => options.overOther * whole),
    );
  return found.filter((line) => line.whole >= least(line)).map(({ whole, ...line }) => line);
}

interface Crests {
  /** Greatest t over the directions, and which. */
  readonly best: Float32Array;
  readonly along: Uint8Array;
}

function weighedField(relief: WearRelief, loss: LossField, options: Options): { ridge: Crests; groove: Crests } {
  const { reference, difference, inside } = relief;
  const n = difference.length;
  const crests = (): Crests => ({ best: new Float32Array(n), along: new Uint8Array(n) });
  const out = { ridge: crests(), groove: crests() };
  const sums = { w: new Float32Array(n), ridge: new Float32Array(n), groove: new Float32Array(n) };
  const reach = Math.max(2, Math.round(options.lengthMm / 2 / reference.pitch));
  const margin = (reach + 1) * (reference.width + 1);
  const listed = new Int32Array(n);
  let count = 0;
  for (let i = margin; i < n - margin; i++) if (inside[i] && !Number.isNaN(difference[i])) listed[count++] = i;
  const cells = listed.subarray(0, count);
  for (let k = 0; k < options.directions; k++) {
    for (const values of [sums.w, sums.ridge, sums.groove]) values.fill(0);
    weighAcross(cells, difference, loss, stepBeside(relief, k, options), options.mostOfOne, sums);
    const steps = stepsAlong(reference.width, k, reach, options);
    for (const kind of ['ridge', 'groove'] as const) keepBest(cells, sums.w, sums[kind], steps, k, out[kind]);
  }
  return out;
}

/** w of each cell and w c for ridges and grooves across one direction; 0 stays where a side has no data. */
function weighAcross(
  cells: Int32Array,
  difference: Float32Array,
  loss: LossField,
  beside: number,
  mostOfOne: number,
  { w: weights, ridge, groove }: Record<'w' | 'ridge' | 'groove', Float32Array>,
): void {
  for (let j = 0; j < cells.length; j++) {
    const i = cells[j];
    const up = difference[i + beside];
    const down = difference[i - beside];
    const c = difference[i] - Math.max(up, down);
    const w = Number.isNaN(c) ? 0 : weightAt(loss, i, beside);
    if (!(w > 0)) continue;
    const most = mostOfOne * Math.sqrt(w);
    weights[i] = w;
    ridge[i] = Math.max(-most, Math.min(most, w * c));
    groove[i] = Math.max(-most, Math.min(most, w * (Math.min(up, down) - difference[i])));
  }
}

function keepBest(
  cells: Int32Array,
  w: Float32Array,
  wc: Float32Array,
  steps: Int32Array,
  k: number,
  { best, along }: Crests,
): void {
  for (let c = 0; c < cells.length; c++) {
    const i = cells[c];
    if (!(wc[i] > 0)) continue;
    let sum = 0;
    let weight = 0;
    for (let j = 0; j < steps.length; j++) {
      // Where w is 0, so is w c: the last direction's are wiped.
      sum += wc[i + steps[j]];
      weight += w[i + steps[j]];
    }
    const t = sum / Math.sqrt(weight);
    if (t <= best[i]) continue;
    best[i] = t;
    along[i] = k;
  }
}

const weightAt = ({ sigma }: LossField, i: number, beside: number): number =>
  1 / (sigma[i] ** 2 + Math.max(sigma[i + beside], sigma[i - beside]) ** 2);

/** From a cell to the place beside it across direction k; rows run downward. */
function stepBeside({ reference: { width, pitch } }: WearRelief, k: number, { directions, besideMm }: Options): number {
  const angle = (k * Math.PI) / directions;
  const beside = Math.max(2, besideMm / pitch);
  return Math.round(Math.cos(angle) * beside) * width + Math.round(Math.sin(angle) * beside);
}

function stepsAlong(width: number, k: number, reach: number, { directions }: Options): Int32Array {
  const angle = (k * Math.PI) / directions;
  return Int32Array.from({ length: 2 * reach + 1 }, (_, j) => {
    const t = j - reach;
    return Math.round(Math.cos(angle) * t) - Math.round(Math.sin(angle) * t) * width;
  });
}

/** Contrast of each cell of a line across its own direction, `sign` 1 for a ridge of the difference, mm; cells without data are left out. */
function contrasts(relief: WearRelief, { cells }: Chain, along: Uint8Array, sign: 1 | -1, options: Options) {
  const { difference: d } = relief;
  return cells
    .map((i) => {
      const beside = stepBeside(relief, along[i], options);
      return { i, beside, c: sign * d[i] - Math.max(sign * d[i + beside], sign * d[i - beside]) };
    })
    .filter(({ c }) => !Number.isNaN(c));
}

type Contrasts = ReturnType<typeof contrasts>;

function wholeOf(loss: LossField, each: Contrasts, options: Options): number {
  let [sum, weight] = [0, 0];
  for (const { i, beside, c } of each) {
    const w = weightAt(loss, i, beside);
    const most = options.mostOfOne * Math.sqrt(w);
    sum += Math.max(-most, Math.min(most, w * c));
    weight += w;
  }
  return weight > 0 ? sum / Math.sqrt(weight) : 0;
}

/** Who carries a line that is raised (`sense` 1) or sunk (−1) there; null where it is neither, where the other face shows some of it, or where one side alone falls off as an edge does. */
function readFaint(
  relief: WearRelief,
  loss: LossField,
  each: Contrasts,
  sign: 1 | -1,
  sense: 1 | -1,
  options: Options,
): Weighed | null {
  const [onReferenceMm, onSubjectMm] = [relief.reference, relief.subject].map((face) => crestOf(face, loss, each));
  const carriedBy = sign === sense ? 'subject' : 'reference';
  const [subject, reference] = [sense * onSubjectMm, sense * onReferenceMm];
  const [own, other] = carriedBy === 'subject' ? [subject, reference] : [reference, subject];
  // A trace of the other sign is no rest of a line.
  if (own < options.leastMm || own > options.mostMm || other > options.otherShare * own) return null;
  // The larger of two sides lies 0.56 σ too high on the average: by so much each contrast is too small.
  const sorted = each
    .map(({ i, beside, c }) => c + 0.56 * Math.max(loss.sigma[i + beside], loss.sigma[i - beside]))
    .sort((p, q) => p - q);
  const factor = (own - other) / sorted[sorted.length >> 1];
  return factor >= options.differs[0] && factor <= options.differs[1]
    ? { onReferenceMm, onSubjectMm, carriedBy }
    : null;
}

/** Weighted mean height of a face's cells over the mean of both sides, mm. */
function crestOf({ z, mask }: HeightGrid, loss: LossField, each: Contrasts): number {
  let [sum, weight] = [0, 0];
  for (const { i, beside } of each) {
    if (!(mask[i] && mask[i + beside] && mask[i - beside])) continue;
    const w = weightAt(loss, i, beside);
    sum += w * (z[i] - (z[i + beside] + z[i - beside]) / 2);
    weight += w;
  }
  return weight > 0 ? sum / weight : 0;
}

/** Mean |cosine| between a line's way and the way inward from the edge; 0 where the middle of the face has no way inward. */
function inwardOf({ fromEdge, reference: { width } }: WearRelief, { cells }: Chain, { reach }: Options): number {
  let [sum, count] = [0, 0];
  cells.forEach((i, k) => {
    const gx = fromEdge[i + reach] - fromEdge[i - reach];
    const gy = fromEdge[i + reach * width] - fromEdge[i - reach * width];
    const steep = Math.hypot(gx, gy);
    if (!(steep >= reach)) return;
    const [a, b] = [cells[Math.max(0, k - reach)], cells[Math.min(cells.length - 1, k + reach)]];
    const [dx, dy] = [(b % width) - (a % width), Math.floor(b / width) - Math.floor(a / width)];
    sum += Math.abs(gx * dx + gy * dy) / (steep * Math.max(1e-9, Math.hypot(dx, dy)));
    count++;
  });
  return count > 0 ? sum / count : 0;
}

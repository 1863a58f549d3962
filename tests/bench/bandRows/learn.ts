import { readFileSync } from 'node:fs';
import { type RingSigns, ringSignNames } from '../../../src/core/design/legend/ringSigns.ts';
import { solveDefinite } from '../../../src/core/geometry/index.ts';
import { type RingRow, ringRows } from './rows.ts';

export interface Learned {
  readonly worths: RingSigns;
  readonly confidence: { readonly half: number; readonly slope: number };
}

/** Weight of Σ w² (of signs brought to one spread) against one face: small, for signs that hardly differ from one another. */
const ridge = 0.01;
const steps = 1500;

/**
 * Coefficients w of a conditional logit with a ridge. A face offers rings with signs xᵢ; that one of the right ones R is chosen has
 * p = Σ_R exp(w·xᵢ) ÷ Σ exp(w·xᵢ); Σ over faces of ln p − ridge · |w|² is made greatest. Each step solves with ½ Σ of the signs'
 * scatter within the faces in place of the second derivatives, which it bounds (Böhning 1992), so that no step goes down.
 */
export function learnChoice(rows: readonly RingRow[]): Learned {
  const n = ringSignNames.length;
  const { mean, spread } = scales(rows);
  const faces = [...facesOf(rows).values()].map((rings) => ({
    right: rings.map((ring) => ring.right),
    x: rings.map(({ signs }) => ringSignNames.map((name, k) => (signs[name] - mean[k]) / spread[k])),
  }));
  const told = faces.filter(({ right }) => right.includes(true) && right.includes(false));
  const penalty = 2 * ridge * told.length;
  const bound = scatter(told, n);
  for (let k = 0; k < n; k++) bound[k * n + k] += penalty;
  const w = new Float64Array(n);
  for (let step = 0; step < steps; step++) {
    const up = gradient(told, w).map((value, k) => value - penalty * w[k]);
    solveDefinite(bound, up, n)?.forEach((value, k) => {
      w[k] += value;
    });
  }
  const worths = Object.fromEntries(ringSignNames.map((name, k) => [name, w[k] / spread[k]])) as unknown as RingSigns;
  return { worths, confidence: learnConfidence(rows, worths) };
}

interface Face {
  readonly right: readonly boolean[];
  readonly x: readonly (readonly number[])[];
}

export const worthWith = (worths: RingSigns, signs: RingSigns): number =>
  ringSignNames.reduce((sum, name) => sum + worths[name] * signs[name], 0);

export function facesOf(rows: readonly RingRow[]): Map<string, RingRow[]> {
  const faces = new Map<string, RingRow[]>();
  for (const row of rows) faces.set(row.face, [...(faces.get(row.face) ?? []), row]);
  return faces;
}

/** The ring of each face that would be chosen. */
export const chosenRings = (rows: readonly RingRow[], worths: RingSigns): RingRow[] =>
  [...facesOf(rows).values()].map((rings) =>
    rings.reduce((p, q) => (worthWith(worths, q.signs) > worthWith(worths, p.signs) ? q : p)),
  );

function scales(rows: readonly RingRow[]) {
  const mean = ringSignNames.map((name) => rows.reduce((sum, { signs }) => sum + signs[name], 0) / rows.length);
  const spread = ringSignNames.map((name, k) =>
    Math.sqrt(rows.reduce((sum, { signs }) => sum + (signs[name] - mean[k]) ** 2, 0) / rows.length),
  );
  return { mean, spread };
}

/** Σ over faces of (signs as expected among the right rings − signs as expected among all). */
function gradient(faces: readonly Face[], w: Float64Array): Float64Array {
  const sum = new Float64Array(w.length);
  for (const { right, x } of faces) {
    const worth = x.map((signs) => signs.reduce((total, value, k) => total + w[k] * value, 0));
    const most = Math.max(...worth);
    const odds = worth.map((value) => Math.exp(value - most));
    const all = odds.reduce((a, b) => a + b, 0);
    const ofRight = odds.reduce((total, value, i) => total + (right[i] ? value : 0), 0);
    x.forEach((signs, i) => {
      const share = odds[i] * ((right[i] ? 1 / ofRight : 0) - 1 / all);
      for (let k = 0; k < w.length; k++) sum[k] += share * signs[k];
    });
  }
  return sum;
}

/** ½ Σ over faces of the scatter of their rings' signs about the face's mean. */
function scatter(faces: readonly Face[], n: number): Float64Array {
  const h = new Float64Array(n * n);
  for (const { x } of faces) {
    const mean = Array.from({ length: n }, (_, k) => x.reduce((sum, signs) => sum + signs[k], 0) / x.length);
    for (const signs of x)
      for (let a = 0; a < n; a++)
        for (let b = 0; b < n; b++) h[a * n + b] += 0.5 * (signs[a] - mean[a]) * (signs[b] - mean[b]);
  }
  return h;
}

/** Logistic curve of one variable through the rings that are chosen: right or not, by their worth (Newton's method). */
function learnConfidence(rows: readonly RingRow[], worths: RingSigns): Learned['confidence'] {
  const chosen = chosenRings(rows, worths).map(({ right, signs }) => ({
    y: right ? 1 : 0,
    v: worthWith(worths, signs),
  }));
  const middle = chosen.reduce((sum, { v }) => sum + v, 0) / chosen.length;
  let [a, b] = [0, 0];
  for (let step = 0; step < 50; step++) {
    let [ga, gb, haa, hab, hbb] = [0, 0, 0, 0, 0];
    for (const { y, v } of chosen) {
      const x = v - middle;
      const p = 1 / (1 + Math.exp(-a - b * x));
      const q = p * (1 - p);
      ga += y - p;
      gb += (y - p) * x;
      haa += q;
      hab += q * x;
      hbb += q * x * x;
    }
    const det = haa * hbb - hab * hab;
    a += (hbb * ga - hab * gb) / det;
    b += (haa * gb - hab * ga) / det;
  }
  return { half: middle - a / b, slope: b };
}

/** `npm run bench -- band-choice`: what ringChoice.ts holds. */
export function bandChoice(): void {
  const rows = ringRows(readFileSync('tests/bench/bandRows/rows.csv', 'utf8'));
  const learned = learnChoice(rows);
  const chosen = chosenRings(rows, learned.worths);
  const right = chosen.filter((row) => row.right).length;
  process.stdout.write(`${JSON.stringify(learned, null, 2)}\n${right} of ${chosen.length} rings right\n`);
}

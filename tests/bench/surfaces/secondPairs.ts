import { apply, compose, type Similarity, type Vec3 } from '../../../src/core/geometry/index.ts';
import { type Comparison, comparePrepared, type PreparedScan, prepareScan } from '../../../src/core/pipeline.ts';
import {
  conditionCode,
  type MadePair,
  type MadeScan,
  makePair,
  type PairRecipe,
  type TrueMark,
} from '../../populations/index.ts';
import { NearPoints } from './places.ts';
import type { VisibleMark } from './trueMarks.ts';

const cycled = <T>(k: number, list: readonly T[]): T => list[k % list.length];

/** Recipe of a seed for marks and states: three questions in turn, three in four of two states, small enough that a mark two cells wide is seen. */
export const secondRecipe = (seed: number): PairRecipe => ({
  question: cycled(seed, ['twoNegatives', 'negativePositive', 'twoPositives'] as const),
  relation: cycled(seed >> 1, ['state', 'state', 'state', 'same'] as const),
  sizeMm: 18 + ((seed * 7) % 23),
  lip: cycled(seed, ['none', 'some'] as const),
  accidents: cycled(seed >> 2, ['none', 'some'] as const),
  imageLeft: cycled(seed, [1, 0.9, 0.95, 0.8]),
  spacingMm: cycled(seed, [0.06, 0.1, 0.14, 0.1, 0.08]),
});

/** A pair of the second generator, taken through the whole pipeline as files. */
export async function runSecond(
  seed: number,
  recipe: PairRecipe = secondRecipe(seed),
): Promise<{ pair: MadePair; comparison: Comparison }> {
  const pair = makePair(seed, recipe);
  const scan = ({ bytes }: MadeScan, name: string): Promise<PreparedScan> =>
    prepareScan({ name, bytes, unit: pair.truth.unit, sha256: () => '' });
  const comparison = comparePrepared(await scan(pair.reference, 'a.ply'), await scan(pair.subject, 'b.ply'));
  return { pair, comparison };
}

/** Visits the vertices that triangles of a made scan use, in the reference's face frame as it was found, with their condition and number. */
export function eachSecondVertex(
  { truePositions: p, conditionPerVertex, triangles }: MadeScan,
  frame: Similarity,
  visit: (x: number, y: number, code: number, vertex: number) => void,
): void {
  const used = new Uint8Array(conditionPerVertex.length);
  for (const i of triangles) used[i] = 1;
  for (let i = 0; i < used.length; i++) {
    if (!used[i]) continue;
    const [x, y] = apply(frame, [p[3 * i], p[3 * i + 1], p[3 * i + 2]]);
    visit(x, y, conditionPerVertex[i], i);
  }
}

export interface SecondFrames {
  readonly fromReference: Similarity;
  /** Null where no place of the subject corresponds. */
  readonly fromSubject: Similarity | null;
}

/** From either file, mm, to the reference's face frame as it was found. */
export function secondFrames({ truth }: MadePair, { reference }: Comparison): SecondFrames {
  const offset: Vec3 = reference.scan.mesh.offset;
  const back: Similarity = {
    scale: 1,
    rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    translation: [-offset[0], -offset[1], -offset[2]],
  };
  const fromReference = compose(reference.face.faceFromScan, back);
  return {
    fromReference,
    fromSubject: truth.subjectToReference && compose(fromReference, similarityOf(truth.subjectToReference)),
  };
}

/** Of a row-major 4 × 4 matrix. */
function similarityOf(m: readonly number[]): Similarity {
  const scale = Math.hypot(m[0], m[4], m[8]);
  const at = (row: number, column: number): number => m[4 * row + column] / scale;
  return {
    scale,
    rotation: [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)],
    translation: [m[3], m[7], m[11]],
  };
}

const ofMatrix = new Set<TrueMark['kind']>(['cut', 'matrixCrack', 'letterRecut']);
const kindNames = { cut: 'cut', matrixCrack: 'crack', letterRecut: 'recut' } as const;
const stepMm = 0.25;

/** What the floors ask for: this deep, this many cells wide, this much of it in view; of a letter's place so much lies near what changed. */
const floors = { depthMm: 0.15, cells: 2, visibleMm: 2, share: 0.7, ofLetter: 0.35 };

/**
 * The matrix's marks and the accidents, cut down to what the carriers' scans show: a place counts where a vertex within 0.3 mm, or a
 * cell, is one that a mark changed. A letter also needs surface there on the other face.
 */
export function visibleSecond(pair: MadePair, frames: SecondFrames, cellMm: number): VisibleMark[] {
  const near = (scan: MadeScan, frame: Similarity | null): { accident: NearPoints; any: NearPoints } => {
    const points = { accident: new NearPoints(Math.max(0.3, cellMm)), any: new NearPoints(Math.max(0.3, cellMm)) };
    if (frame)
      eachSecondVertex(scan, frame, (x, y, code) => {
        if (code === conditionCode.accident) points.accident.add(x, y);
        if (code === conditionCode.accident || code === conditionCode.sound) points.any.add(x, y);
      });
    return points;
  };
  const [a, b] = [near(pair.reference, frames.fromReference), near(pair.subject, frames.fromSubject)];
  return pair.truth.damage.map((mark): VisibleMark => {
    const way = inFrame(mark, frames.fromReference);
    const all = mark.shape === 'line' ? walked(way) : disc(way, mark.widthMm / 2);
    const letter = mark.kind === 'letterRecut';
    const which = mark.shape === 'line' || letter ? 'accident' : 'any';
    // A letter cut again shows against the other face alone; a line shows on its own.
    const other = (points: NearPoints, x: number, y: number): boolean => !letter || points.has(x, y);
    const kept: number[] = [];
    for (let i = 0; i < all.length; i += 2) {
      const [x, y] = [all[i], all[i + 1]];
      const onA = mark.carrier === 'subject' ? other(a.any, x, y) : a[which].has(x, y);
      const onB = mark.carrier === 'reference' ? other(b.any, x, y) : b[which].has(x, y);
      if (onA && onB) kept.push(x, y);
    }
    const visibleMm = (kept.length / 2) * stepMm;
    const seen =
      mark.shape === 'line'
        ? mark.widthMm >= floors.cells * cellMm && visibleMm >= floors.visibleMm
        : kept.length > (letter ? floors.ofLetter : floors.share) * all.length;
    const kind = kindNames[mark.kind as keyof typeof kindNames] ?? 'chip';
    return {
      mark: {
        kind,
        carriedBy: mark.carrier,
        polyline: way,
        depthMm: mark.depthMm,
        widthMm: mark.widthMm,
        lengthMm: visibleMm,
        inSubject: mark.carrier !== 'reference',
        // In the positive's sense, on whichever object: what is cut into the matrix stands up.
        raised: ofMatrix.has(mark.kind),
      },
      points: Float64Array.from(kept),
      visibleMm,
      counts: ofMatrix.has(mark.kind) && mark.depthMm >= floors.depthMm && seen,
    };
  });
}

function inFrame({ path }: TrueMark, frame: Similarity): Float64Array {
  const out: number[] = [];
  for (let i = 0; path && i < path.length; i += 3) {
    const [x, y] = apply(frame, [path[i], path[i + 1], path[i + 2]]);
    out.push(x, y);
  }
  return Float64Array.from(out);
}

function walked(way: Float64Array): number[] {
  const out: number[] = [];
  for (let i = 2; i < way.length; i += 2) {
    const [dx, dy] = [way[i] - way[i - 2], way[i + 1] - way[i - 1]];
    const n = Math.max(1, Math.round(Math.hypot(dx, dy) / stepMm));
    for (let k = 0; k < n; k++) out.push(way[i - 2] + (dx * k) / n, way[i - 1] + (dy * k) / n);
  }
  return out;
}

function disc(way: Float64Array, radius: number): number[] {
  const out: number[] = [];
  if (way.length < 2) return out;
  for (let x = -radius; x <= radius; x += stepMm)
    for (let y = -radius; y <= radius; y += stepMm) if (Math.hypot(x, y) <= radius) out.push(way[0] + x, way[1] + y);
  return out;
}

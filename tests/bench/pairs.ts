import type { GeneratedPair, GeneratedScan, Recipe, Relation } from '../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { mmPerUnit } from '../../sample-scans/generator/types.ts';
import { apply, type Similarity } from '../../src/core/geometry/index.ts';
import { type Comparison, comparePrepared, type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { writePly } from '../../src/core/scan/index.ts';

/** A generated pair, taken through the whole pipeline as files. */
export interface BenchPair {
  readonly recipe: Recipe;
  readonly pair: GeneratedPair;
  readonly comparison: Comparison;
}

export async function runPair(
  seed: number,
  relation: Relation,
  ranges: Parameters<typeof randomRecipe>[2],
  fixed: Partial<Recipe> = {},
): Promise<BenchPair> {
  const recipe = { ...randomRecipe(seed, relation, ranges), ...fixed };
  const pair = makePair(recipe);
  const reference = await prepared(pair.reference, 'reference');
  const subject = await prepared(pair.subject, 'subject');
  return { recipe, pair, comparison: comparePrepared(reference, subject) };
}

export const prepared = (scan: GeneratedScan, name: string): Promise<PreparedScan> =>
  prepareScan({
    name: `${name}.ply`,
    bytes: writePly(scan.positions, scan.triangles),
    unit: scan.unit,
    sha256: () => '',
  });

/** Root mean square distance, mm, between two similarities over the subject's sound face; file coordinates, mm. */
export function poseError({ pair, comparison }: BenchPair): number {
  const truth = pair.truth.referenceFromSubject;
  if (!truth) return Number.NaN;
  const { positions, bits, unit } = pair.subject;
  const found = inFile(comparison);
  let [sum, n] = [0, 0];
  for (let i = 0; i < bits.length; i++) {
    if (bits[i] !== 1) continue;
    const k = mmPerUnit[unit];
    const p = [positions[3 * i] * k, positions[3 * i + 1] * k, positions[3 * i + 2] * k] as const;
    const a = apply(truth, p);
    const b = apply(found, p);
    sum += (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2;
    n++;
  }
  return Math.sqrt(sum / n);
}

/** The one-scale model between file coordinates, mm. */
function inFile({ fit, reference, subject }: Comparison): Similarity {
  const { scale, rotation, translation } = fit.models[1].referenceFromSubject;
  const toFile: Similarity = {
    scale: 1,
    rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    translation: reference.scan.mesh.offset,
  };
  const moved = apply(
    { scale, rotation, translation },
    subject.scan.mesh.offset.map((value) => -value) as unknown as readonly [number, number, number],
  );
  return { scale, rotation, translation: apply(toFile, moved) };
}

/** RMS of depth difference less truth over covered, sound vertices of at most 30° slope, mm. */
export function depthError({ pair, comparison }: BenchPair): number {
  const truth = pair.subject.trueDifference;
  const found = comparison.difference?.perVertexMm;
  if (!truth || !found) return Number.NaN;
  const steep = steepVertices(comparison.subject);
  let [sum, n] = [0, 0];
  for (let i = 0; i < found.length; i++) {
    const error = found[i] - truth[i];
    if (pair.subject.bits[i] !== 1 || Number.isNaN(error) || steep[i]) continue;
    sum += error * error;
    n++;
  }
  return Math.sqrt(sum / n);
}

/** 1 where the surface slopes by more than 30° against the face plane. */
function steepVertices({ scan, face }: PreparedScan): Uint8Array {
  const { positions, triangles } = scan.mesh;
  const r = face.faceFromScan.rotation;
  const steep = new Uint8Array(positions.length / 3);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t] * 3, triangles[t + 1] * 3, triangles[t + 2] * 3];
    const u = [positions[b] - positions[a], positions[b + 1] - positions[a + 1], positions[b + 2] - positions[a + 2]];
    const v = [positions[c] - positions[a], positions[c + 1] - positions[a + 1], positions[c + 2] - positions[a + 2]];
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const along = n[0] * r[6] + n[1] * r[7] + n[2] * r[8];
    if (along < Math.cos(Math.PI / 6) * Math.hypot(n[0], n[1], n[2]))
      for (const k of [0, 1, 2]) steep[triangles[t + k]] = 1;
  }
  return steep;
}

/** Angle, degrees, between the face found and the true one. */
export function faceAngleDeg(found: PreparedScan, truth: GeneratedScan): number {
  const a = found.face.faceFromScan.rotation;
  const b = truth.faceFromScan.rotation;
  return (Math.acos(Math.min(1, a[6] * b[6] + a[7] * b[7] + a[8] * b[8])) * 180) / Math.PI;
}

import { describe, expect, test } from 'vitest';
import {
  apply,
  buildSurfaceIndex,
  closestOnSurface,
  determinant3,
  fromMatrix4,
  newSurfacePoint,
  vertexNormals,
} from '../../src/core/geometry/index.ts';
import { readScan } from '../../src/core/scan/index.ts';
import { bestSimilarity } from './bestSimilarity.ts';
import { conditionCode, type MadeScan, makePair, type PairRecipe, recipeAt } from './index.ts';

const plain: PairRecipe = {
  question: 'negativePositive',
  relation: 'same',
  lip: 'some',
  accidents: 'none',
  imageLeft: 1,
  spacingMm: 0.3,
  sizeMm: 26,
  maxVertices: 12_000,
};

const trueMesh = ({ truePositions, triangles }: MadeScan) => ({
  positions: Float32Array.from(truePositions),
  triangles,
  offset: [0, 0, 0] as const,
});

/** Every n-th vertex that is sound, in the file, mm. */
function soundVertices({ conditionPerVertex, truePositions }: MadeScan, each: number): [number, number, number][] {
  const out: [number, number, number][] = [];
  for (let i = 0; i < conditionPerVertex.length; i += each)
    if (conditionPerVertex[i] === conditionCode.sound)
      out.push([truePositions[3 * i], truePositions[3 * i + 1], truePositions[3 * i + 2]]);
  return out;
}

/** Root mean square distance from the subject's sound vertices, laid by the truth, to the reference's noiseless surface. */
function distanceToReference({ reference, subject, truth }: ReturnType<typeof makePair>): number {
  const index = buildSurfaceIndex(trueMesh(reference));
  const referenceFromSubject = fromMatrix4(truth.subjectToReference ?? []);
  const found = newSurfacePoint();
  let sum = 0;
  let n = 0;
  for (const p of soundVertices(subject, 5)) {
    const [x, y, z] = apply(referenceFromSubject, p);
    if (!closestOnSurface(index, x, y, z, 5, 0, 0, 1, -2, found) || found.onBorder) continue;
    sum += found.distance ** 2;
    n++;
  }
  return Math.sqrt(sum / n);
}

describe('a pair of the second population', () => {
  test('is the same for the same seed and another for another', () => {
    const once = makePair(5, plain);
    const again = makePair(5, plain);
    expect(Buffer.compare(again.reference.bytes, once.reference.bytes)).toBe(0);
    expect(Buffer.compare(again.subject.bytes, once.subject.bytes)).toBe(0);
    expect(again.truth).toEqual(once.truth);
    expect(Buffer.compare(makePair(6, plain).subject.bytes, once.subject.bytes)).not.toBe(0);
  });

  test('scanned a second time shows the same surface with its points elsewhere', () => {
    const once = makePair(5, plain);
    const second = makePair(5, plain, 1);
    expect(Buffer.compare(second.reference.bytes, once.reference.bytes)).toBe(0);
    expect(second.subject.designPlace.slice(0, 200)).not.toEqual(once.subject.designPlace.slice(0, 200));
    expect(second.subject.positions.length / once.subject.positions.length).toBeCloseTo(1, 1);
    expect(second.truth.spacingMm).toEqual(once.truth.spacingMm);
    expect(second.truth.imageLeft).toBeCloseTo(once.truth.imageLeft, 1);
    expect(Math.abs(distanceToReference(second) / distanceToReference(once) - 1)).toBeLessThan(0.1);
  });

  test('has numbers throughout, triangles of its own vertices, and bytes that read back', async () => {
    for (const index of [3, 18, 26, 47, 61]) {
      const { reference, subject, truth } = makePair(index, { ...recipeAt(index), maxVertices: 12_000 });
      for (const scan of [reference, subject]) {
        expect(scan.positions.every((value) => Number.isFinite(value))).toBe(true);
        expect(scan.triangles.every((v) => v < scan.positions.length / 3)).toBe(true);
        expect(scan.conditionPerVertex.length).toBe(scan.positions.length / 3);
        const read = await readScan(scan.bytes, 'scan.ply');
        expect(read.mesh.triangles.length).toBeGreaterThan(0.99 * scan.triangles.length);
      }
      expect(truth.imageLeft).toBeGreaterThan(0);
      expect(truth.imageLeft).toBeLessThanOrEqual(1);
    }
  });

  test('lies as its truth says: nothing between two scans of a matrix but its cut', () => {
    const { truth } = makePair(9, { ...plain, question: 'twoNegatives', relation: 'state' });
    expect(truth.residualRmsMm).toBeLessThan(0.001);
    expect(truth.scale).toBeCloseTo(1, 5);
    expect(truth.damage.some(({ kind }) => ['cut', 'matrixCrack', 'letterRecut'].includes(kind))).toBe(true);
  });

  test('lies as its truth says: sound vertices reach the reference, as far as wax warps', () => {
    for (const [question, relation] of [
      ['negativePositive', 'same'],
      ['twoPositives', 'cast'],
      ['twoNegatives', 'recast'],
    ] as const) {
      const pair = makePair(11, { ...plain, question, relation, sizeMm: 18, spacingMm: 0.1, maxVertices: 60_000 });
      // The distance is at most that to the same material point, but for the chords of the reference's triangles.
      expect(distanceToReference(pair)).toBeLessThan((pair.truth.residualRmsMm ?? 0) + 0.01);
    }
  });

  test('turns over by a rotation: normals are opposed between negative and positive, and agree otherwise', () => {
    for (const [question, sign] of [
      ['negativePositive', -1],
      ['twoPositives', 1],
      ['twoNegatives', 1],
    ] as const) {
      const { reference, subject, truth } = makePair(12, { ...plain, question });
      const { rotation } = fromMatrix4(truth.subjectToReference ?? []);
      expect(determinant3(rotation)).toBeCloseTo(1, 9);
      const normal = (scan: MadeScan): number[] => {
        const all = vertexNormals(trueMesh(scan));
        const sum = [0, 0, 0];
        for (let i = 0; i < all.length; i++)
          if (scan.conditionPerVertex[Math.floor(i / 3)] === conditionCode.sound) sum[i % 3] += all[i];
        return sum;
      };
      const a = normal(reference);
      const b = normal(subject);
      const turned = [0, 3, 6].map((row) => rotation[row] * b[0] + rotation[row + 1] * b[1] + rotation[row + 2] * b[2]);
      expect(Math.sign(a[0] * turned[0] + a[1] * turned[1] + a[2] * turned[2])).toBe(sign);
    }
  });

  test('copied by hand: letters lie as far out of place as was asked', () => {
    for (const displacementUm of [50, 400]) {
      let sum = 0;
      let n = 0;
      for (const seed of [1, 2, 3, 4]) {
        const { truth } = makePair(seed, { ...plain, relation: 'handCopy', displacementUm, maxVertices: 4000 });
        const flat = (letters: typeof truth.referenceLetters): Float64Array =>
          Float64Array.from(letters.flatMap(({ x, y }) => [x, y, 0]));
        const { rms } = bestSimilarity(flat(truth.subjectLetters), flat(truth.referenceLetters));
        sum += (1000 * rms) ** 2;
        n++;
        expect(truth.same).toBe(false);
      }
      // The smooth distortion of D/2 comes on top, less what a similarity takes up.
      const ratio = Math.sqrt(sum / n) / displacementUm;
      expect(ratio).toBeGreaterThan(0.87);
      expect(ratio).toBeLessThan(1.2);
    }
  });

  test('a legend cut anew leaves the motif as it was', () => {
    const pair = makePair(14, { ...plain, question: 'twoNegatives', relation: 'legendRecut' });
    expect(pair.truth.same).toBe(true);
    expect(pair.truth.residualRmsMm).toBeLessThan(0.001);
    expect(pair.subject.conditionPerVertex.includes(conditionCode.recut)).toBe(true);
    const words = (letters: typeof pair.truth.subjectLetters): string => letters.map(({ letter }) => letter).join('');
    expect(words(pair.truth.subjectLetters)).not.toBe(words(pair.truth.referenceLetters));
  });

  test('image left is the share of the reference’s image that the subject shows', () => {
    for (const left of [0.3, 0.6, 1]) {
      const recipe = { ...plain, imageLeft: left, accidents: 'many', referenceSupport: 'trimmed' } as const;
      const { reference, subject, truth } = makePair(17, recipe);
      // Referee: a vertex of the reference's image has a neighbour on the subject that is neither lost nor unfilled.
      const { body, lost, unfilled } = conditionCode;
      const near = neighbours(subject, (code) => code !== body && code !== lost, 1.1 * truth.spacingMm.subject);
      let whole = 0;
      let kept = 0;
      for (let i = 0; i < reference.conditionPerVertex.length; i++) {
        if (reference.conditionPerVertex[i] === body) continue;
        whole++;
        const code = near(reference.designPlace[2 * i], reference.designPlace[2 * i + 1]);
        if (code >= 0 && code !== unfilled) kept++;
      }
      expect(Math.abs(truth.imageLeft - kept / whole)).toBeLessThan(0.05);
      expect(truth.imageLeft).toBeLessThan(left + 0.03);
      expect(truth.lostShare).toBeGreaterThan(1 - left - 0.05);
    }
  });
});

/** The condition of the nearest wanted vertex within `reach` mm in the design's plane, or −1. */
function neighbours(scan: MadeScan, wanted: (code: number) => boolean, reach: number) {
  const boxes = new Map<string, number[]>();
  const key = (x: number, y: number): string => `${Math.floor(x / reach)},${Math.floor(y / reach)}`;
  scan.conditionPerVertex.forEach((code, i) => {
    if (!wanted(code)) return;
    const name = key(scan.designPlace[2 * i], scan.designPlace[2 * i + 1]);
    boxes.set(name, [...(boxes.get(name) ?? []), i]);
  });
  return (x: number, y: number): number => {
    let best = reach;
    let code = -1;
    for (const dx of [-reach, 0, reach])
      for (const dy of [-reach, 0, reach])
        for (const i of boxes.get(key(x + dx, y + dy)) ?? []) {
          const d = Math.hypot(scan.designPlace[2 * i] - x, scan.designPlace[2 * i + 1] - y);
          if (d < best) {
            best = d;
            code = scan.conditionPerVertex[i];
          }
        }
    return code;
  };
}

import { describe, expect, it } from 'vitest';
import { fitFaces } from '../../src/core/fit/index.ts';
import {
  apply,
  compose,
  determinant3,
  identity,
  invert,
  type Similarity,
  type Vec3,
} from '../../src/core/geometry/index.ts';
import { comparePrepared, type PreparedScan, preparePair } from '../../src/core/pipeline.ts';
import { needing, realData } from '../realData.ts';

// Pairs made by another program in another language: irregular meshes, holes, spikes, noise, no kind and no guess given.
const fileOf = (pair: string, name: string): string => `pairs/${pair}/${name}`;
const bytesOf = (pair: string, name: string): Uint8Array => realData(fileOf(pair, name)) as Uint8Array;

interface Truth {
  readonly subjectToReference: number[];
  readonly scale: number;
  readonly turnedOver: boolean;
  readonly maskBits: { readonly face: number };
}

const prepared = (pair: string): Promise<[PreparedScan, PreparedScan]> =>
  preparePair(
    { name: 'reference.ply', bytes: bytesOf(pair, 'reference.ply'), unit: 'mm' },
    { name: 'subject.ply', bytes: bytesOf(pair, 'subject.ply'), unit: 'mm' },
  );

const shift = ({ scan }: PreparedScan): Similarity => ({ ...identity, translation: scan.mesh.offset });

/** Root mean square distance, over the sound vertices of the subject's face, between found and true places, mm. */
function distanceFromTruth(pair: string, truth: Truth, subject: PreparedScan, found: Similarity): number {
  const bits = new Uint16Array(bytesOf(pair, 'mask.u16').slice().buffer);
  const { positions, offset } = subject.scan.mesh;
  const m = truth.subjectToReference;
  let [sum, count] = [0, 0];
  for (let i = 0; i < bits.length; i++) {
    if (bits[i] !== truth.maskBits.face) continue;
    const p: Vec3 = [positions[3 * i] + offset[0], positions[3 * i + 1] + offset[1], positions[3 * i + 2] + offset[2]];
    const q = apply(found, p);
    for (let r = 0; r < 3; r++)
      sum += (q[r] - (m[4 * r] * p[0] + m[4 * r + 1] * p[1] + m[4 * r + 2] * p[2] + m[4 * r + 3])) ** 2;
    count++;
  }
  return Math.sqrt(sum / count);
}

describe.each(['same-whole-object', 'struck-through', 'cast-of-impression'])('the pair %s', (pair) => {
  const file = fileOf(pair, 'subject.ply');
  it.skipIf(!realData(file))(
    needing(file, 'is laid together within 0.05 mm of the truth'),
    async () => {
      const truth = JSON.parse(new TextDecoder().decode(bytesOf(pair, 'truth.json'))) as Truth;
      const [a, b] = await prepared(pair);
      const fit = fitFaces({ mesh: a.scan.mesh, face: a.face }, { mesh: b.scan.mesh, face: b.face });
      const { referenceFromSubject, scale } = fit.models[1];
      const inFiles = compose(compose(shift(a), referenceFromSubject), invert(shift(b)));
      expect(fit.found).toBe(true);
      expect(fit.turnedOver).toBe(truth.turnedOver);
      expect(fit.mirrored).toBe(false);
      expect(determinant3(referenceFromSubject.rotation)).toBeCloseTo(1, 9);
      expect(distanceFromTruth(pair, truth, b, inFiles)).toBeLessThan(0.05);
      expect(Math.abs(scale - truth.scale)).toBeLessThan(0.002);
    },
    180_000,
  );
});

describe.each(['recut-by-hand', 'stock-pattern'])('the pair %s', (pair) => {
  const file = fileOf(pair, 'subject.ply');
  it.skipIf(!realData(file))(
    needing(file, 'is of two matrices and is not supported'),
    async () => {
      const { judgement } = comparePrepared(...(await prepared(pair)));
      expect(judgement.finding).not.toBe('supported');
      // Between two dies every difference of the designs would read as wear or as a mark.
      expect(judgement.finding === 'against' ? judgement.damage : []).toEqual([]);
    },
    180_000,
  );
});

describe('the pair copied-by-hand-same-legend', () => {
  const pair = 'copied-by-hand-same-legend';
  const file = fileOf(pair, 'subject.ply');
  it.skipIf(!realData(file))(
    needing(file, 'is of two matrices, whichever comes first: a blow that came twice is sought on the wax alone'),
    async () => {
      const [a, b] = await prepared(pair);
      for (const [first, second] of [
        [a, b],
        [b, a],
      ])
        expect(comparePrepared(first, second).judgement.finding).toBe('against');
    },
    180_000,
  );
});

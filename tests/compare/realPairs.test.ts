import { describe, expect, it } from 'vitest';
import { depthDifferences, depthTarget, subjectMotion } from '../../src/core/compare/index.ts';
import { findFace } from '../../src/core/face/index.ts';
import {
  buildSurfaceIndex,
  compose,
  fromMatrix4,
  median,
  quantile,
  type Similarity,
  type Vec3,
  vertexNormals,
} from '../../src/core/geometry/index.ts';
import { readScan } from '../../src/core/scan/index.ts';
import { needing, realData } from '../realData.ts';
import { model } from './pair.ts';

interface Truth {
  readonly subjectToReference: number[];
  readonly turnedOver: boolean;
  readonly noiseMm: { readonly correlated: number; readonly white: number };
  readonly maskBits: Record<string, number>;
}

const shift = (by: Vec3, sign: number): Similarity => ({
  scale: 1,
  rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  translation: [sign * by[0], sign * by[1], sign * by[2]],
});

/** Depth differences under the true similarity, and the truth beside them; each pair is measured once. */
const done = new Map<string, ReturnType<typeof measure>>();
function measured(pair: string): ReturnType<typeof measure> {
  const known = done.get(pair) ?? measure(pair);
  done.set(pair, known);
  return known;
}

async function measure(pair: string) {
  const bytes = (name: string): Uint8Array => realData(`pairs/${pair}/${name}`) as Uint8Array;
  const truth = JSON.parse(new TextDecoder().decode(bytes('truth.json'))) as Truth;
  const [reference, subject] = await Promise.all(
    ['reference.ply', 'subject.ply'].map(async (name) => (await readScan(bytes(name), name)).mesh),
  );
  const face = findFace(reference, { sense: 'intaglio' });
  const motion = compose(
    compose(shift(reference.offset, -1), fromMatrix4(truth.subjectToReference)),
    shift(subject.offset, 1),
  );
  const index = buildSurfaceIndex(reference, { normals: vertexNormals(reference) });
  const found = new Float32Array(subject.positions.length / 3);
  const target = depthTarget(face, index, truth.turnedOver);
  const towards = subjectMotion(face, model('oneScale', motion));
  depthDifferences(target, subject.positions, vertexNormals(subject), towards, found);
  const truly = new Float32Array(bytes('difference.f32').slice().buffer);
  const bits = new Uint16Array(bytes('mask.u16').slice().buffer);
  return { truth, found, truly, bits };
}

// Made by another program in another language; truth: distance to the noise-free surface, with sign, warp included.
describe.each(['same-whole-object', 'struck-through', 'cast-of-impression'])('the pair %s', (pair) => {
  const file = `pairs/${pair}/difference.f32`;

  it.skipIf(!realData(file))(
    needing(
      file,
      'has the depth differences that the other generator wrote beside it, within the noise of the two scans',
    ),
    async () => {
      const { truth, found, truly, bits } = await measured(pair);
      const plain = [...found.keys()].filter((i) => bits[i] === truth.maskBits.face);
      const met = plain.filter((i) => !Number.isNaN(found[i]));
      const residual = met.map((i) => found[i] - truly[i]);
      const noise = Math.SQRT2 * Math.hypot(truth.noiseMm.correlated, truth.noiseMm.white);
      expect(met.length / plain.length).toBeGreaterThan(0.975);
      expect(Math.abs(median(residual))).toBeLessThan(0.004);
      expect(quantile(residual.map(Math.abs), 0.68)).toBeLessThan(1.25 * noise);
      expect(quantile(residual.map(Math.abs), 0.95)).toBeLessThan(2.5 * noise);
      const wrongSign = met.filter((i) => Math.abs(truly[i]) > 0.1 && found[i] * truly[i] < 0);
      expect(wrongSign.length / met.length).toBeLessThan(0.001);
    },
    60_000,
  );

  it.skipIf(!realData(file))(
    needing(file, 'has no difference on the back, and next to none on the walls of a break'),
    async () => {
      const { truth, found, bits } = await measured(pair);
      const share = (bit: number): number => {
        const all = [...found.keys()].filter((i) => bits[i] === bit);
        return all.length === 0 ? 0 : all.filter((i) => !Number.isNaN(found[i])).length / all.length;
      };
      expect(share(truth.maskBits.back)).toBe(0);
      expect(share(truth.maskBits.wall)).toBeLessThan(0.01);
    },
    60_000,
  );
});

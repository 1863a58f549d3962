import { beforeAll, describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { comparePrepared, type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { keptDefaults, packFace, unpackFace } from '../../src/store/keptFace.ts';

let matrix: PreparedScan;
let impression: PreparedScan;
beforeAll(async () => {
  const pair = makePair({ ...randomRecipe(11, 'same', { vertices: 40_000 }), whole: false, sizeMm: 36 });
  [matrix, impression] = await Promise.all(
    (['reference', 'subject'] as const).map((side) =>
      prepareScan({ name: side, bytes: writePly(pair[side].positions, pair[side].triangles), unit: 'mm' }),
    ),
  );
});

describe('a kept face', () => {
  it('is under 2 MB, and gives heights back within half a step, in the same places', () => {
    const bytes = packFace(impression);
    expect(bytes.length).toBeLessThan(2e6);
    const { face } = unpackFace(bytes);
    const { relief } = impression.face;
    expect([face.relief.width, face.relief.height]).toEqual([relief.width, relief.height]);
    expect(face.relief.mask).toEqual(relief.mask);
    expect(face.image.mask).toEqual(impression.face.image.mask);
    const worst = relief.z.reduce((most, z, i) => Math.max(most, Math.abs(z - face.relief.z[i])), 0);
    expect(worst).toBeLessThan(keptDefaults.stepPerNoise * impression.face.noiseMm);
    expect(packFace(unpackFace(bytes))).toEqual(bytes);
  });

  it('of a matrix is coarser than the scan', () => {
    const { face } = unpackFace(packFace(matrix, { ...keptDefaults, negativePitchMm: 0.3 }));
    expect(face.relief.pitch).toBeGreaterThanOrEqual(0.3);
    expect(unpackFace(packFace(matrix)).face.relief.pitch).toBeGreaterThanOrEqual(keptDefaults.negativePitchMm * 0.99);
  });

  it('is judged like the scan', () => {
    const whole = comparePrepared(matrix, impression);
    const kept = comparePrepared(unpackFace(packFace(matrix)), unpackFace(packFace(impression)));
    expect(kept.judgement.finding).toBe(whole.judgement.finding);
    expect(kept.judgement.question).toBe(whole.judgement.question);
    expect(Math.abs(kept.judgement.score - whole.judgement.score)).toBeLessThan(0.2 * whole.judgement.score);
  });

  it('of a coarse scan is kept as finely as it was read, and its places are those of the scan', async () => {
    const pair = makePair({ ...randomRecipe(12, 'same', { vertices: 9_000 }), whole: false, sizeMm: 36 });
    const scans = await Promise.all(
      (['reference', 'subject'] as const).map((side) =>
        prepareScan({ name: side, bytes: writePly(pair[side].positions, pair[side].triangles), unit: 'mm' }),
      ),
    );
    const kept = scans.map((scan) => unpackFace(packFace(scan)));
    scans.forEach(({ face: { fine, noiseMm } }, i) => {
      if (!fine) throw new Error('a coarse scan has no finer image');
      const back = kept[i].face.fine;
      expect(back?.mask).toEqual(fine.mask);
      const worst = fine.z.reduce((most, z, k) => Math.max(most, Math.abs(z - (back?.z[k] ?? Number.NaN))), 0);
      expect(worst).toBeLessThan(keptDefaults.stepPerNoise * noiseMm);
      expect(packFace(kept[i])).toEqual(packFace(scans[i]));
    });
    const [whole, again] = [comparePrepared(scans[0], scans[1]), comparePrepared(kept[0], kept[1])];
    expect(whole.fit.found).toBe(true);
    expect(again.judgement.finding).toBe(whole.judgement.finding);
    expect(Math.abs(again.judgement.score - whole.judgement.score)).toBeLessThan(0.2 * whole.judgement.score);
  });

  it('that is something else is refused', () => {
    expect(() => unpackFace(new Uint8Array([255, 255, 0, 0, 1]))).toThrow(RangeError);
  });
});

import { beforeAll, describe, expect, it } from 'vitest';
import { gaussianFilter, seededRandom, xOf, yOf } from '../../../src/core/geometry/index.ts';
import { comparePrepared, type PreparedScan, prepareScan } from '../../../src/core/pipeline.ts';
import { writePly } from '../../../src/core/scan/index.ts';
import { needing, realData } from '../../realData.ts';

const bytes = realData('coins/euro.tif');

/** The coin's own relief under a Gaussian mean, every second cell, with 2 µm of noise: a scan blurred until its legend cannot be read. */
function blurred({ face: { relief } }: PreparedScan, cutoffMm: number): Uint8Array {
  const { width, height, mask } = relief;
  const { z } = gaussianFilter(relief, cutoffMm);
  const random = seededRandom(4);
  const across = Math.floor(width / 2);
  const down = Math.floor(height / 2);
  const vertex = new Int32Array(across * down).fill(-1);
  const places: number[] = [];
  for (let k = 0; k < vertex.length; k++) {
    const [col, row] = [2 * (k % across), 2 * Math.floor(k / across)];
    if (!mask[row * width + col]) continue;
    vertex[k] = places.length / 3;
    places.push(xOf(relief, col), yOf(relief, row), z[row * width + col] + 0.002 * random.normal());
  }
  const triangles: number[] = [];
  for (let k = 0; k + across + 1 < vertex.length; k++) {
    const [a, b, c, d] = [k, k + 1, k + across, k + across + 1].map((at) => vertex[at]);
    if (k % across === across - 1 || Math.min(a, b, c, d) < 0) continue;
    triangles.push(a, c, b, b, c, d);
  }
  return writePly(Float64Array.from(places), Uint32Array.from(triangles));
}

describe.runIf(bytes)('a real coin, blurred until its legend cannot be read', () => {
  let coin: PreparedScan;
  beforeAll(async () => {
    const stated = { unit: 'mm', pixelSize: 0.03836, heightStep: 1, kind: 'impression' } as const;
    coin = await prepareScan({ name: 'euro.tif', bytes: bytes as Uint8Array, ...stated });
  });

  it(needing('coins/euro.tif', 'is called blurred, and neither sharp nor lower'), async () => {
    const soft = await prepareScan(
      { name: 'blurred.ply', bytes: blurred(coin, 1.5), unit: 'mm', kind: 'cast' },
      {},
      coin,
    );
    const { zones } = comparePrepared(coin, soft).judgement.wear;
    expect(zones.find(({ zone }) => zone === 'whole')?.state).toBe('blurred');
    expect(zones.find(({ zone }) => zone === 'legend')?.state).toBe('blurred');
  });
});

import { describe, expect, it } from 'vitest';
import { mirroredBack } from '../src/core/mirroredBack.ts';
import { prepareScan } from '../src/core/prepare.ts';
import { readScan } from '../src/core/scan/index.ts';
import { castPly } from './browser/castPly.ts';

const bytes = new Uint8Array(castPly(60, 40));

describe('a file that is read mirrored back', () => {
  it('comes back when that is done twice, and is wound outward all the while', async () => {
    const raw = await readScan(bytes, 'cast.ply', {}, {});
    const once = mirroredBack(raw);
    const twice = mirroredBack(once);
    expect(twice.mesh.positions).toEqual(raw.mesh.positions);
    expect(twice.mesh.offset).toEqual(raw.mesh.offset);
    expect(once.mesh.positions[0]).toBe(-raw.mesh.positions[0]);
    const corners = (triangles: Uint32Array): number[] => [...triangles.subarray(0, 3)].sort((p, q) => p - q);
    expect(corners(twice.mesh.triangles)).toEqual(corners(raw.mesh.triangles));
  });

  it('is a face of the same sense and size, and says that it was', async () => {
    const plain = await prepareScan({ name: 'cast.ply', bytes, unit: 'mm', kind: 'cast' });
    const back = await prepareScan({ name: 'cast.ply', bytes, unit: 'mm', kind: 'cast', mirrored: true });
    expect([plain.mirroredBack, back.mirroredBack]).toEqual([undefined, true]);
    expect(back.face.sense).toBe(plain.face.sense);
    expect(back.face.outline.widthMm).toBeCloseTo(plain.face.outline.widthMm, 1);
    expect(back.scan.repairs).toEqual(plain.scan.repairs);
  });
});

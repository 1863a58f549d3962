import { describe, expect, it } from 'vitest';
import { BinaryPart, parseGlb, writeGlb } from '../../src/app/saved/glb.ts';
import { gridOfPicture, halfValue, loadGrid, reducedGrid, storeGrid } from '../../src/app/saved/grids.ts';
import { packComparison } from '../../src/app/saved/pack.ts';
import { toPlain } from '../../src/app/saved/plain.ts';
import { unpackComparison } from '../../src/app/saved/unpack.ts';
import { emptyDocument, keyOf } from '../../src/app/state/document.ts';
import { emptyGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { halfBits } from '../../src/workers/browser/halfFloat.ts';
import type { FaceView } from '../../src/workers/browser/protocol.ts';
import { reliefPicture } from '../../src/workers/browser/reliefPicture.ts';
import { pictured } from './pictured.ts';

const random = seededRandom(5);

function bumpy(pitch = 0.1) {
  const grid = emptyGrid(-8, 8, -6, 6, pitch);
  for (let i = 0; i < grid.z.length; i++) {
    const x = grid.left + (i % grid.width) * pitch;
    const y = grid.top - Math.floor(i / grid.width) * pitch;
    if (x * x + y * y > 34) continue;
    grid.mask[i] = 1;
    grid.z[i] = 0.4 * Math.sin(x * 2) * Math.cos(y * 1.5);
  }
  return grid;
}

describe('a GLB', () => {
  it('gives its two parts back', () => {
    const binary = new BinaryPart();
    const view = binary.add(Uint16Array.of(1, 2, 3));
    const next = binary.add(Float32Array.of(1.5));
    const glb = parseGlb(
      writeGlb({ json: { asset: { version: '2.0' }, views: binary.views }, binary: binary.bytes() }),
    );
    expect([view, next]).toEqual([0, 1]);
    expect(binary.views[1].byteOffset % 4).toBe(0);
    expect(glb?.json).toMatchObject({ asset: { version: '2.0' } });
    expect(glb?.binary.length).toBe(12);
  });

  it('is not read from anything else', () => {
    expect(parseGlb(new Uint8Array(8))).toBeNull();
    expect(parseGlb(new TextEncoder().encode('ply\nformat ascii 1.0\nend_header\n'))).toBeNull();
  });
});

describe('half floats', () => {
  it('keep every value that they can hold', () => {
    const changed = Array.from({ length: 0x7c00 }, (_, bits) => bits).filter(
      (bits) => halfBits(halfValue(bits)) !== bits,
    );
    expect(changed).toEqual([]);
  });

  it('round to the nearest', () => {
    for (let i = 0; i < 2000; i++) {
      const value = random.between(-6, 6);
      expect(Math.abs(halfValue(halfBits(value)) - value)).toBeLessThanOrEqual(
        Math.max(2 ** -25, Math.abs(value) * 2 ** -11),
      );
    }
  });
});

describe('results as plain JSON', () => {
  it('say null for what is no number, and name their typed arrays', () => {
    const value = { a: Float64Array.of(1, Number.NaN, 3), b: [{ c: 'x', d: Number.NaN }], e: true };
    expect(JSON.parse(JSON.stringify(toPlain(value)))).toEqual({
      a: { floats: [1, null, 3] },
      b: [{ c: 'x', d: null }],
      e: true,
    });
  });
});

describe('a saved comparison', () => {
  const scan = { id: 'one', name: 'one.ply', title: 'One', stated: { kind: 'cast' } } as const;
  const relief = bumpy();
  const face = {
    key: keyOf(scan),
    name: 'one.ply',
    ...{
      format: 'ply',
      kind: 'cast',
      kindFrom: 'stated',
      sense: 'relief',
      senseConfidence: 0.9,
      unit: 'mm',
      unitFrom: 'stated',
    },
    ...{ vertices: 3, triangles: 1, noiseMm: 0.02, filled: 1, holes: 0, upFrom: 'scan', candidate: 0 },
    repairs: {
      ...{ notANumber: 0, cornerNotANumber: 0, degenerate: 0, duplicate: 0, unreferenced: 0 },
      ...{ welded: 0, flipped: 0, strayPieces: 0, strayTriangles: 0 },
    },
    sha256: 'ab'.repeat(32),
    outline: { shape: 'round', widthMm: 12, heightMm: 12, polygon: Float64Array.of(6, 0, 0, 6, -6, 0), confidence: 1 },
    candidates: [],
    rim: Float32Array.of(1, 2),
    picture: reliefPicture(relief),
    mesh: { positions: Float32Array.of(0, 0, 0, 5, 0, 0, 0, 5, 1), triangles: Uint32Array.of(0, 1, 2) },
    thumbnail: { width: 1, height: 1, rgba: new Uint8ClampedArray(4) },
  } as unknown as FaceView;
  const document = {
    ...emptyDocument,
    scans: [scan],
    subjectId: 'one',
    conclusion: { text: 'Ours.', by: 'A.', on: '2025-01-01' },
  };

  it('opens as it was saved', async () => {
    const bytes = packComparison({ document, faces: { one: face }, comparison: undefined, reason: 'for the referee' });
    const back = await unpackComparison(bytes, 'a.glb', pictured);
    expect(back?.document).toEqual(document);
    expect(back?.detail).toBe('full');
    const kept = back?.faces.one;
    expect(kept?.sha256).toBe(face.sha256);
    expect([...(kept?.outline.polygon ?? [])]).toEqual([6, 0, 0, 6, -6, 0]);
    kept?.mesh.positions.forEach((value, i) => {
      expect(value).toBeCloseTo(face.mesh.positions[i], 5);
    });
    const grid = gridOfPicture(kept?.picture ?? face.picture);
    for (let i = 0; i < grid.z.length; i += 37)
      if (grid.mask[i] && relief.mask[i]) expect(grid.z[i]).toBeCloseTo(relief.z[i], 2);
  });

  it('keeps a reduced relief unless there is a reason', async () => {
    const fine = { ...face, picture: reliefPicture(bumpy(0.02)) };
    const bytes = packComparison({ document, faces: { one: fine }, comparison: undefined, reason: '' });
    const back = await unpackComparison(bytes, 'a.glb', pictured);
    expect(back?.detail).toBe('reduced');
    expect(Math.max(back?.faces.one.picture.width ?? 0, back?.faces.one.picture.height ?? 0)).toBeLessThanOrEqual(420);
  });

  it('is told from an ordinary GLB', async () => {
    const ordinary = writeGlb({ json: { asset: { version: '2.0' } }, binary: new Uint8Array(0) });
    expect(await unpackComparison(ordinary, 'a.glb', pictured)).toBeNull();
  });
});

describe('stored grids', () => {
  it('lose at most half a step of 65 534', () => {
    const grid = bumpy();
    const binary = new BinaryPart();
    const stored = storeGrid(grid, binary);
    const back = loadGrid(stored, new Uint16Array(binary.bytes().slice().buffer));
    expect(back.mask).toEqual(grid.mask);
    const worst = grid.z.reduce((most, z, i) => Math.max(most, Math.abs(back.z[i] - z)), 0);
    expect(worst).toBeLessThanOrEqual(stored.step * 0.51);
  });

  it('cover the same ground when they are reduced', () => {
    const grid = bumpy(0.05);
    const small = reducedGrid(grid, 100);
    expect(Math.max(small.width, small.height)).toBeLessThanOrEqual(100);
    expect(small.left - small.pitch / 2).toBeCloseTo(grid.left - grid.pitch / 2, 9);
  });
});

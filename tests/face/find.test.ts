import { describe, expect, it } from 'vitest';
import { type DieShape, type GeneratedPair, shapes } from '../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { bodyOf, type Face, faceCandidates, findFace, reverseWinding, scaleFace } from '../../src/core/face/index.ts';
import {
  compose,
  dot,
  identity,
  invert,
  type Mesh,
  normalise,
  rotationAbout,
  type Similarity,
  scaleMesh,
} from '../../src/core/geometry/index.ts';
import { prepareScan } from '../../src/core/pipeline.ts';
import { ScanError, writePly } from '../../src/core/scan/index.ts';
import { shuffledMesh } from '../geometry/surface.ts';
import { joined, meshOf, movedMesh, sheet, tiltDeg, trueFromFound } from './scanned.ts';

/** Whole objects with back, wall and handle or cake of wax; nothing broken off. */
const whole: Record<DieShape, GeneratedPair> = Object.fromEntries(
  shapes.map((shape, k) => [
    shape,
    makePair({ ...randomRecipe(11 + k, 'same', { vertices: 6000 }), shape, sizeMm: 34, whole: true, coverage: 1 }),
  ]),
) as Record<DieShape, GeneratedPair>;

const mesh = meshOf(whole.shield.reference);
const face = findFace(mesh);

/** The numbers of a face that do not depend on where the object lies. */
const numbersOf = (found: Face): number[] => [
  found.outline.widthMm,
  found.outline.heightMm,
  found.filled,
  found.senseConfidence,
  found.noiseMm,
  found.relief.pitch,
  ...found.candidates.flatMap(({ areaMm2, detailMm, score }) => [areaMm2, detailMm, score]),
  ...found.outline.polygon,
  ...found.faceFromScan.rotation,
  ...found.faceFromScan.translation,
];

function expectSameNumbers(a: Face, b: Face, relative: number): void {
  const [x, y] = [numbersOf(a), numbersOf(b)];
  expect(x.length).toBe(y.length);
  x.forEach((value, i) => {
    expect(Math.abs(value - y[i])).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(y[i])));
  });
}

describe('findFace on whole objects', () => {
  for (const shape of shapes)
    for (const role of ['reference', 'subject'] as const)
      it(`finds the right side, levelled to 3°, and its sense: ${shape}, ${role}`, () => {
        const scan = whole[shape][role];
        const surface = meshOf(scan);
        const found = findFace(surface);
        expect(tiltDeg(trueFromFound(scan, surface, found.faceFromScan))).toBeLessThan(3);
        expect(found.sense).toBe(scan.sense);
        expect(found.senseFrom).toBe('closedBody');
        expect(found.faceFromScan.scale).toBe(1);
      });

  it('names the outline of a clean matrix and its size', () => {
    for (const shape of shapes) {
      const { outline } = findFace(meshOf(whole[shape].reference));
      expect(outline.shape).toBe(shape);
      expect(Math.abs(Math.max(outline.widthMm, outline.heightMm) - 34)).toBeLessThan(2.5);
      expect(outline.polygon).toHaveLength(360);
    }
  });

  it('stands a shape with a long axis upright, or on its head: the design is not read', () => {
    for (const shape of ['pointedOval', 'oval'] as const) {
      const surface = meshOf(whole[shape].reference);
      const { rotation } = trueFromFound(whole[shape].reference, surface, findFace(surface).faceFromScan);
      expect(Math.abs(rotation[4])).toBeGreaterThan(Math.cos((6 * Math.PI) / 180));
    }
  });
});

describe('findFace', () => {
  for (const factor of [1e-3, 1e3])
    it(`gives the same face ${factor} times as large for a file in another unit`, () => {
      const found = scaleFace(findFace(scaleMesh(mesh, factor)), 1 / factor);
      // Float32 coordinates carry seven digits.
      expect(found.outline.shape).toBe(face.outline.shape);
      expect(tiltDeg(compose(found.faceFromScan, invert(face.faceFromScan)))).toBeLessThan(1e-3);
      expect(found.outline.widthMm).toBeCloseTo(face.outline.widthMm, 3);
      expect(found.outline.heightMm).toBeCloseTo(face.outline.heightMm, 3);
      expect(found.noiseMm / face.noiseMm).toBeCloseTo(1, 2);
      expect(found.filled).toBeCloseTo(face.filled, 3);
      expect(found.candidates).toHaveLength(face.candidates.length);
    });

  it('gives the same numbers whatever the order of vertices, triangles and corners', () => {
    expectSameNumbers(findFace(shuffledMesh(mesh, 5).mesh), face, 1e-6);
  });

  it('moves with the object and changes nothing else', () => {
    const motion: Similarity = {
      scale: 1,
      rotation: rotationAbout(normalise([1, 2, -0.5]), 1.3),
      translation: [40, -10, 5],
    };
    const found = findFace(movedMesh(mesh, motion));
    expect(tiltDeg(compose(compose(found.faceFromScan, motion), invert(face.faceFromScan)))).toBeLessThan(0.05);
    expect(found.outline.shape).toBe(face.outline.shape);
    expect(found.sense).toBe(face.sense);
    expect(found.outline.heightMm / face.outline.heightMm).toBeCloseTo(1, 1);
    expect(found.candidates).toHaveLength(face.candidates.length);
    expect(found.candidates[0].areaMm2 / face.candidates[0].areaMm2).toBeCloseTo(1, 2);
  });

  it('takes what the user states about sense, direction and upright', () => {
    expect(findFace(mesh, { sense: 'relief' })).toMatchObject({ sense: 'relief', senseFrom: 'stated' });
    const turned = findFace(mesh, { upDeg: 30 });
    const { rotation } = compose(turned.faceFromScan, invert(face.faceFromScan));
    // Clockwise by 30°: what pointed up now points to the right.
    expect((Math.atan2(rotation[1], rotation[0]) * 180) / Math.PI).toBeCloseTo(30, 6);
    expect(turned.upFrom).toBe('stated');
    const back = face.candidates[0].outward.map((value) => -value) as [number, number, number];
    const other = findFace(mesh, { toward: back });
    expect(dot(other.candidates[0].outward, back)).toBeGreaterThan(0.7);
  });

  it('finds a seal that lies on the remains of the table it was scanned on', () => {
    const scan = whole.round.subject;
    const surface = movedMesh(meshOf(scan), { ...scan.faceFromScan, translation: [0, 0, 0] });
    const lowest = surface.positions.reduce((least, z, i) => (i % 3 === 2 ? Math.min(least, z) : least), 0);
    const table = sheet(75, 75, 1, (x, y) => lowest + 0.01 * Math.sin(3 * x + 2 * y));
    const found = findFace(joined(surface, table));
    expect(tiltDeg(found.faceFromScan)).toBeLessThan(3);
    expect(found.outline.heightMm).toBeLessThan(60);
  });

  it('is not misled by the side of a break, whose relief is the deeper one and runs one way only', () => {
    const design = sheet(20, 20, 0.2, (x, y) => 0.1 * Math.sin(4 * x) * Math.sin(3 * y));
    const side = sheet(20, 16, 0.2, (x) => 0.2 * Math.sin(4 * x) + 0.1 * Math.sin(2.3 * x));
    const stood: Similarity = { scale: 1, rotation: rotationAbout([1, 0, 0], Math.PI / 2), translation: [0, -12, -8] };
    const { faceFromScan, candidates } = findFace(joined(design, movedMesh(side, stood)));
    expect(tiltDeg(faceFromScan)).toBeLessThan(3);
    expect(candidates).toHaveLength(1);
  });

  it('sees through a hole of the scan to the back, and takes nothing of it for the face', () => {
    const { rotation, translation } = face.faceFromScan;
    const reach = 1;
    const inFace = (v: number, axis: number): number =>
      [0, 1, 2].reduce((sum, k) => sum + rotation[3 * axis + k] * mesh.positions[3 * v + k], translation[axis]);
    const punched = {
      ...mesh,
      triangles: mesh.triangles.filter((_, i) => {
        const v = mesh.triangles[i - (i % 3)];
        return Math.hypot(inFace(v, 0), inFace(v, 1)) > reach || inFace(v, 2) < -2;
      }),
    };
    const { detail } = findFace(punched);
    const heights = [...detail.z].filter((_, i) => detail.mask[i]);
    expect(Math.max(...heights.map(Math.abs))).toBeLessThan(2);
    expect(heights.length).toBeLessThan([...face.detail.mask].filter(Boolean).length);
  });
});

describe('two engraved faces', () => {
  const obverse = sheet(30, 30, 0.4, (x, y) =>
    Math.hypot(x, y) < 13 ? 0.5 * Math.sin(1.9 * x) * Math.cos(1.7 * y) : 0,
  );
  const under = sheet(30, 30, 0.4, (x, y) => (Math.hypot(x, y) < 13 ? 0.4 * Math.cos(1.6 * x + y) : 0));
  const turnedUnder: Similarity = { ...identity, rotation: [1, 0, 0, 0, -1, 0, 0, 0, -1], translation: [0, 0, -6] };
  const double = joined(obverse, movedMesh(under, turnedUnder));

  it('are both listed, the one with more relief first', () => {
    const candidates = faceCandidates(double);
    const { candidates: listed, candidate } = findFace(double, {}, candidates);
    expect(listed.map(({ outward }) => Math.round(outward[2])).sort()).toEqual([-1, 1]);
    expect(listed[0].score).toBeGreaterThanOrEqual(listed[1].score);
    expect(candidate).toBe(0);
  });

  it('can each be chosen, by number or by direction', () => {
    const second = findFace(double, { candidate: 1 });
    expect(second.candidate).toBe(1);
    const [z1, z2] = [findFace(double), second].map((found) => found.faceFromScan.rotation[8]);
    expect(z1 * z2).toBeLessThan(-0.9);
    expect(findFace(double, { toward: [0, 0.1, -1] }).faceFromScan.rotation[8]).toBeLessThan(-0.99);
  });
});

describe('a surface without an engraved face', () => {
  const box = (step: number): Mesh => {
    const top = sheet(20, 20, step, () => 10);
    const sides: Similarity['rotation'][] = [
      [1, 0, 0, 0, 1, 0, 0, 0, 1],
      [1, 0, 0, 0, -1, 0, 0, 0, -1],
      [1, 0, 0, 0, 0, -1, 0, 1, 0],
      [1, 0, 0, 0, 0, 1, 0, -1, 0],
      [0, 0, 1, 0, 1, 0, -1, 0, 0],
      [0, 0, -1, 0, 1, 0, 1, 0, 0],
    ];
    return joined(...sides.map((rotation) => movedMesh(top, { ...identity, rotation })));
  };
  const ball = (): Mesh => {
    const rough = box(1);
    const positions = rough.positions.slice();
    for (let i = 0; i < positions.length; i += 3) {
      const length = Math.hypot(positions[i], positions[i + 1], positions[i + 2]);
      for (let k = 0; k < 3; k++) positions[i + k] *= 12 / length;
    }
    return { ...rough, positions };
  };
  const lens = (share: number): Mesh => {
    const round = ball();
    return { ...round, positions: round.positions.map((value, i) => (i % 3 === 2 ? share * value : value)) };
  };
  const one: Mesh = {
    positions: Float32Array.of(0, 0, 0, 20, 0, 0, 0, 20, 0),
    triangles: Uint32Array.of(0, 1, 2),
    offset: [0, 0, 0],
  };

  const refusalOf = (surface: Mesh): unknown => {
    try {
      return findFace(surface);
    } catch (error) {
      return error;
    }
  };

  for (const [name, surface] of [
    ['a cube', box(20)],
    ['a finely meshed cube', box(1)],
    ['a smooth ball', ball()],
    ['a smooth lens, a third as high', lens(0.35)],
    ['a smooth lens, a quarter as high', lens(0.25)],
    ['a smooth plate', sheet(30, 30, 0.5, () => 0)],
    ['a gently bent plate', sheet(30, 30, 0.5, (x, y) => 0.002 * x * x - 0.001 * y * y)],
    ['one triangle', one],
    ['nothing', { ...one, triangles: new Uint32Array(0) }],
  ] as const)
    it(`is refused: ${name}`, () => {
      const error = refusalOf(surface);
      expect(error).toBeInstanceOf(ScanError);
      expect(error).toMatchObject({ code: 'noFace', message: expect.stringMatching(/--face-toward/) });
    });
});

describe('a domed face', () => {
  it('is found by engraving that a ball would hide', () => {
    // A cap 20 mm wide that rises by 1.8 mm, strokes 1 mm apart and 20 µm deep on it.
    const cap = (strokeMm: number): Mesh =>
      sheet(20, 20, 0.2, (x, y) => -0.009 * (x * x + y * y) + strokeMm * Math.sin(2 * Math.PI * x));
    expect(findFace(cap(0.02)).candidates.length).toBeGreaterThan(0);
    expect(() => findFace(cap(0))).toThrow(ScanError);
  });
});

describe('bodyOf', () => {
  it('tells a closed body from a sheet, and one that is inside out', () => {
    expect(bodyOf(mesh)).toEqual({ closed: true, insideOut: false });
    expect(bodyOf(reverseWinding(mesh))).toEqual({ closed: true, insideOut: true });
    expect(bodyOf(sheet(10, 10, 1, () => 0)).closed).toBe(false);
    expect(reverseWinding(reverseWinding(mesh)).triangles).toEqual(mesh.triangles);
  });
});

describe('prepareScan', () => {
  const asFile = (surface: Mesh) => ({
    name: 'scan.ply',
    bytes: writePly(surface.positions, surface.triangles),
    unit: 'mm' as const,
  });

  it('turns a closed body that is inside out, and says how many triangles it turned', async () => {
    const [sound, turned] = await Promise.all([mesh, reverseWinding(mesh)].map((each) => prepareScan(asFile(each))));
    expect(turned.face.sense).toBe(sound.face.sense);
    expect(tiltDeg(compose(turned.face.faceFromScan, invert(sound.face.faceFromScan)))).toBeLessThan(0.01);
    expect(turned.scan.repairs.flipped - sound.scan.repairs.flipped).toBe(mesh.triangles.length / 3);
  });

  it('lets a stated kind beat the winding of an open sheet', async () => {
    const recipe = { ...randomRecipe(12, 'same', { vertices: 6000 }), sizeMm: 30, whole: false, coverage: 1 };
    const { subject } = makePair({ ...recipe, wear: 0 });
    const open = meshOf(subject);
    const reversed = reverseWinding(open);
    const unstated = await prepareScan(asFile(reversed));
    expect(unstated.face.sense).toBe('intaglio');
    expect(unstated.kind).toBe('matrix');
    const stated = await prepareScan({ ...asFile(reversed), kind: 'impression' });
    expect(stated.face).toMatchObject({ sense: 'relief', senseFrom: 'stated' });
    expect(tiltDeg(trueFromFound(subject, open, stated.face.faceFromScan))).toBeLessThan(3);
  });
});

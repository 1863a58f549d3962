import { beforeAll, describe, expect, it } from 'vitest';
import {
  agreement,
  type FaceIndex,
  findCandidates,
  globalBytes,
  indexFace,
  openGlobals,
  shortlist,
} from '../../src/core/collection/index.ts';
import type { Face } from '../../src/core/face/index.ts';
import { turnGridOver } from '../../src/core/geometry/index.ts';
import { type CollectedObject, makeCollection, plainPlan } from '../populations/collection.ts';

const plan = {
  ...plainPlan,
  matrices: 3,
  objectsEach: 4,
  sisters: 1,
  sisterObjects: 1,
  casts: 2,
  singletons: 4,
  mirrored: 2,
  across: 120,
};
let objects: CollectedObject[];
let faces: Face[];
let indices: FaceIndex[];
let table: { count: number; bytes: Uint8Array };

beforeAll(() => {
  objects = makeCollection(41, plan);
  faces = objects.map((object) => object.face());
  indices = faces.map(indexFace);
  table = tableOf(indices);
}, 120_000);

function tableOf(list: readonly FaceIndex[]) {
  const bytes = new Uint8Array(list.length * globalBytes);
  for (const [k, { global }] of list.entries()) bytes.set(global, k * globalBytes);
  return { count: list.length, bytes };
}

const found = (query: FaceIndex, want = 20) => findCandidates(query, table, (place) => indices[place].local, want);

describe('index of a face', () => {
  it('keeps to its sizes', () => {
    for (const { global, local } of indices) {
      expect(global.length).toBe(globalBytes);
      expect(globalBytes).toBeLessThanOrEqual(2048);
      expect(local.length).toBeLessThanOrEqual(48_000);
    }
  });

  it('is the same bytes for the same face', () => {
    expect(indexFace(faces[0])).toEqual(indices[0]);
  });

  it('of a face without relief finds nothing and is not found', () => {
    const { image } = faces[0];
    const bare = indexFace({ sense: 'relief', image: { ...image, z: new Float32Array(image.z.length) } });
    expect(shortlist(bare, openGlobals(table), 5)).toEqual([]);
    expect(agreement(indices[0], bare)).toMatchObject({ score: 0, inliers: 0 });
  });

  it('refuses a table of another length', () => {
    expect(() => openGlobals({ count: 2, bytes: new Uint8Array(globalBytes) })).toThrow(RangeError);
  });
});

describe('search', () => {
  it('puts the face itself first', () => {
    for (const [k, index] of indices.entries())
      if (faces[k].image.mask.some(Boolean)) expect(found(index)[0].index).toBe(k);
  });

  it('finds the other objects of the matrix before all others but its copies', () => {
    for (const [k, object] of objects.entries()) {
      if (object.decoy || !object.matrix.includes('-M') || object.sisterOf) continue;
      const others = found(indices[k]).filter(({ index }) => index !== k);
      expect(others.slice(0, 2).some(({ index }) => objects[index].matrix === object.matrix)).toBe(true);
    }
  });

  it('tells the turn: a face turned by a known angle agrees at that angle', () => {
    const turned = indexFace({ ...faces[1], image: quarterTurned(faces[1].image) });
    const { turnDeg, turnedOver, mirrored, scale, inliers } = agreement(indices[1], turned);
    expect(Math.abs(turnDeg - 90)).toBeLessThan(2);
    expect([turnedOver, mirrored]).toEqual([false, false]);
    expect(scale).toBeCloseTo(1, 2);
    expect(inliers).toBeGreaterThan(30);
  });

  it('is free of the sense: a file wound the wrong way round finds the same, turned over', () => {
    const wrong = indexFace({ sense: faces[1].sense, image: turnGridOver(faces[1].image) });
    const first = found(wrong)[0];
    expect(first.index).toBe(1);
    expect(first.why.turnedOver).toBe(true);
    // With heights and stated sense both exchanged nothing has changed at all.
    const both = faces[1].sense === 'relief' ? 'intaglio' : 'relief';
    expect(indexFace({ sense: both, image: turnGridOver(faces[1].image) })).toEqual(indices[1]);
  });

  it('tells a mirrored file, and lists it in no proper way', () => {
    const decoy = objects.findIndex(({ decoy }) => decoy === 'mirrored');
    const original = objects.findIndex(({ id }) => `${id}-mirrored` === objects[decoy].id);
    const told = agreement(indices[original], indices[decoy]);
    expect(told.mirrored).toBe(true);
    expect(told.score).toBeGreaterThan(20);
    const place = found(indices[original]).find(({ index }) => index === decoy);
    expect(place?.likely ?? false).toBe(false);
  });

  it('tells the size: a face 3 % smaller agrees at 0.97', () => {
    const { image, sense } = faces[1];
    const s = 0.97;
    const small = {
      ...image,
      pitch: image.pitch * s,
      left: image.left * s,
      top: image.top * s,
      z: image.z.map((z) => z * s),
    };
    const told = agreement(indices[1], indexFace({ image: small, sense }));
    expect(told.scale).toBeCloseTo(s, 2);
    expect(told.inliers).toBeGreaterThan(30);
  });

  it('does not depend on the order of the table', () => {
    const order = indices.map((_, k) => k).reverse();
    const other = tableOf(order.map((k) => indices[k]));
    const here = found(indices[2]).map(({ index, score }) => [index, score]);
    const there = findCandidates(indices[2], other, (place) => indices[order[place]].local, 20);
    const scores = there.map(({ index, score }) => [order[index], score]);
    expect(new Map(scores as [number, number][])).toEqual(new Map(here as [number, number][]));
  });
});

/** Turned by 90° counter-clockwise: (x, y) → (−y, x). */
function quarterTurned(grid: Face['image']): Face['image'] {
  const { width, height, pitch } = grid;
  const z = new Float32Array(grid.z.length);
  const mask = new Uint8Array(grid.z.length);
  for (let row = 0; row < height; row++)
    for (let col = 0; col < width; col++) {
      const to = (width - 1 - col) * height + row;
      z[to] = grid.z[row * width + col];
      mask[to] = grid.mask[row * width + col];
    }
  return { width: height, height: width, pitch, left: -grid.top, top: grid.left + (width - 1) * pitch, z, mask };
}

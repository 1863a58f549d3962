import { isDeepStrictEqual } from 'node:util';
import { describe, expect, it } from 'vitest';
import {
  buildSurfaceIndex,
  closestOnSurface,
  type Help,
  helpIndex,
  layOutWith,
  newSurfacePoint,
  type SurfaceIndex,
  seededRandom,
  sharedMesh,
  vertexNormals,
} from '../../../src/core/geometry/index.ts';
import { awaitStretches, sharedStretches, takeStretches } from '../../../src/kernels/index.ts';
import { bumpySheet } from '../surface.ts';

/** Enough columns that help is asked for. */
const mesh = sharedMesh(bumpySheet(340, 28, 3));
const normals = vertexNormals(mesh);

function helped(help: Help): SurfaceIndex {
  const index = buildSurfaceIndex(mesh, { normals, help });
  layOutWith(help, index);
  return index;
}

function answers(index: SurfaceIndex): number[] {
  const random = seededRandom(5);
  const point = newSurfacePoint();
  return Array.from({ length: 500 }, () => {
    const p = [random.between(-17, 17), random.between(-17, 17), random.between(-2, 2)] as const;
    const found = closestOnSurface(index, ...p, 3, 0, 0, 1, -1, point);
    return found ? [point.x, point.y, point.z, point.nx, point.distance, point.triangle] : [];
  }).flat();
}

describe('an index made by two threads', () => {
  const alone = buildSurfaceIndex(mesh, { normals });

  it('is the same whoever did the work, and answers alike', () => {
    let asked = 0;
    // What is sent to a thread is a copy but for the memory itself; one that comes late finds nothing left.
    const early: Help = (work) => {
      asked++;
      helpIndex(structuredClone(work));
    };
    const all = helped(early);
    const none = helped(() => undefined);
    expect(asked).toBe(2);
    for (const index of [all, none]) {
      for (const part of ['triangleOf', 'grids', 'open'] as const)
        expect(isDeepStrictEqual(index[part], alone[part]), part).toBe(true);
      expect(answers(index)).toEqual(answers(alone));
    }
  });

  it('takes every stretch once and waits for those of the other', () => {
    const stretches = sharedStretches(10, 3);
    const taken: [number, number][] = [];
    takeStretches((list, from, to) => list.push([from, to]), taken, stretches);
    expect(taken).toEqual([
      [0, 3],
      [3, 6],
      [6, 9],
      [9, 10],
    ]);
    awaitStretches(stretches);
  });
});

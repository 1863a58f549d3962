import type { PairRecipe } from '../../populations/index.ts';
import { grades, type SurfaceCase } from './populations.ts';
import { secondRecipe } from './secondPairs.ts';

/**
 * Pairs made for the floors of marks: one cut, crack or letter cut again between the two, and every fourth pair of one state, scanned so
 * finely that a mark of the matrix is two cells wide.
 */
const wounds = ['letterRecut', 'matrixCrack', 'cut', null] as const;

/** Of the second generator. */
export function fineRecipe(seed: number): PairRecipe {
  const wound = wounds[seed % wounds.length];
  return {
    ...secondRecipe(seed >> 2),
    relation: wound ? 'state' : 'same',
    ...(wound && { wound }),
    sizeMm: 16 + ((seed * 7) % 13),
    spacingMm: 0.06,
    maxVertices: 60_000,
  };
}

const names = { letterRecut: 'recut', matrixCrack: 'crack', cut: 'cut' } as const;
const gradeOrder = ['plain', 'worn', 'partial'] as const;

/** Of the first, the k-th from a first seed. */
export function fineCase(firstSeed: number, k: number): SurfaceCase {
  const seed = firstSeed + k;
  const wound = wounds[seed % wounds.length];
  const round = seed >> 2;
  const grade = gradeOrder[round % gradeOrder.length];
  return {
    seed,
    grade,
    relation: wound ? (round % 2 === 0 ? 'laterState' : 'earlierState') : 'same',
    ranges: { ...grades[grade], vertices: 70_000 },
    fixed: {
      secondStrikeMm: 0,
      sizeMm: 16 + ((seed * 7) % 17),
      ...(wound ? { stateDamage: [names[wound]] } : { oldDamage: [] }),
    },
  };
}

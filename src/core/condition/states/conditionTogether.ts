import type { WearAndDamage } from '../condition.ts';
import { withoutFit } from '../condition.ts';
import type { StateReading } from '../types.ts';
import { type Together, together } from './together.ts';

/** What one comparison with the common reference hands on. */
export interface ComparedSubject {
  readonly name: string;
  /** Which face of the reference it was compared with. */
  readonly referenceFace: number;
  readonly state: StateReading;
  /** What the comparison found on the surfaces; null without a fit and where the two are of different matrices. */
  readonly surfaces: Pick<WearAndDamage, 'marks' | 'telling' | 'wearMap'> | null;
}

/**
 * What several subjects, each compared with the same reference, say together (see `together`). One without a fit, one of another
 * matrix, or one compared with another face of the reference than the first has no part in the marks; its own reading stands.
 * Outlines in the reference's face frame, mm.
 */
export function judgeTogether(compared: readonly ComparedSubject[]): Together {
  const base = compared.find(({ surfaces }) => surfaces !== null)?.referenceFace;
  return together(
    compared.map(({ name, referenceFace, state, surfaces }) => {
      const fitted = surfaces !== null && referenceFace === base;
      const { marks, telling, wearMap } = (fitted && surfaces) || withoutFit;
      return { name, fitted, state, marks, telling, wearMap };
    }),
  );
}

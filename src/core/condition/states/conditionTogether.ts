import type { Face } from '../../face/index.ts';
import type { Fit } from '../../fit/index.ts';
import { judgeSurfaces } from '../condition.ts';
import { type SubjectFindings, type Together, together } from './together.ts';

/** What one comparison with the common reference hands on. */
export interface ComparedSubject {
  readonly name: string;
  readonly reference: Face;
  readonly subject: Face;
  readonly fit: Fit;
  /** The comparison found it to be of another matrix. */
  readonly otherMatrix: boolean;
}

/**
 * What several subjects, each compared with the same reference, say together (see `together`). One without a fit, one of another
 * die, or one compared with another face of the reference says nothing of the die's states. Outlines in the
 * reference's face frame, mm.
 */
export function judgeTogether(compared: readonly ComparedSubject[]): Together {
  const base = compared.find(({ fit }) => fit.found)?.reference;
  return together(
    compared.map(({ name, reference, subject, fit, otherMatrix }): SubjectFindings => {
      const fitted = fit.found && !otherMatrix && reference.candidate === base?.candidate;
      const { marks, wearMap } = judgeSurfaces(reference, subject, fitted ? fit : { ...fit, found: false });
      return { name, fitted, marks, wearMap };
    }),
  );
}

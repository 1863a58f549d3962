import type { Difference } from '../compare/index.ts';
import type { Face } from '../face/index.ts';
import type { Fit } from '../fit/index.ts';
import type { Judgement, Mark } from './types.ts';

export interface SurfaceJudgement {
  readonly wear: Judgement['wear'];
  readonly marks: readonly Mark[];
  readonly state: Judgement['state'];
}

/** Wear by zone and wavelength, marks and state of a fitted pair. */
export function judgeSurfaces(
  _reference: Face,
  _subject: Face,
  _fit: Fit,
  _difference: Difference | null,
): SurfaceJudgement {
  return { wear: { zones: [], byWavelength: [] }, marks: [], state: { reading: 'cannotJudge', marks: [] } };
}

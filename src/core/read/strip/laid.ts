import type { Face } from '../../face/index.ts';
import { chosenModel, type Fit } from '../../fit/index.ts';
import { identity } from '../../geometry/index.ts';
import { type JudgedPair, kinshipOf } from './kin.ts';
import type { Witness } from './stack.ts';
import type { Kinship, WitnessStanding } from './standing.ts';

/** Objects laid on the first by their fits, and those that could not be. */
export interface Laid {
  readonly witnesses: ReadonlyArray<Witness & { readonly face: Face }>;
  readonly standings: readonly WitnessStanding[];
  readonly noiseMm: readonly number[];
  readonly kin: readonly Kinship[];
  readonly left: readonly string[];
}

/** An object that was compared with the first. */
export interface ComparedWitness {
  readonly name: string;
  /** Its face that was fitted. */
  readonly face: Face;
  readonly fit: Fit;
  readonly judgement: Pick<WitnessStanding, 'finding' | 'question'> & JudgedPair;
}

/** The first, and on it every other that was fitted to it. */
export function laidOn(
  first: { readonly name: string; readonly face: Face },
  others: readonly ComparedWitness[],
): Laid {
  const models = others.map(({ fit }) => (fit.found ? chosenModel(fit) : undefined));
  const placed = others.flatMap((other, k) => {
    const model = models[k];
    return model ? [{ ...other, referenceFromSubject: model.referenceFromSubject }] : [];
  });
  return {
    witnesses: [
      { name: first.name, face: first.face, referenceFromSubject: identity },
      ...placed.map(({ name, face, referenceFromSubject }) => ({ name, face, referenceFromSubject })),
    ],
    standings: [
      { name: first.name, isReference: true, finding: null, state: null },
      ...placed.map(({ name, judgement: { finding, state, question } }) => ({
        ...{ name, finding, state: state.reading },
        question,
      })),
    ],
    noiseMm: [first, ...placed].map(({ face }) => face.noiseMm),
    kin: placed.flatMap(({ name, judgement }) => kinshipOf(first.name, name, judgement.descent)),
    left: others.flatMap(({ name }, k) => (models[k] ? [] : [name])),
  };
}

import type { Face } from '../../face/index.ts';
import { joined, meetingEdges, overlapsAmong, type PlacedFragment, shareOf } from '../../read/index.ts';
import { fragmentsWords } from '../words/index.ts';
import { besideEdges } from './besideEdges.ts';
import { type PrintOptions, type PrintPlate, printPlate } from './printPlate.ts';

export interface FragmentsOptions extends PrintOptions {
  /** What the fragments were fitted to, as it is named in the caption. */
  readonly reference: string;
  /** Names of fragments of which it is not decided that they came from it. */
  readonly undecided: readonly string[];
}

/**
 * Fragments of one seal in their places on one plate, under one light, over the dashed outline of the face that they were
 * fitted to; each has a letter beside it. Edges that meet are measured and told in the caption, and so is where two overlap.
 */
export function fragmentsPlate(
  reference: Pick<Face, 'sense' | 'relief' | 'outline'>,
  placed: readonly PlacedFragment[],
  options: FragmentsOptions,
): PrintPlate {
  const lettered = placed.map((fragment, k) => ({ ...fragment, name: letterOf(k) }));
  const said = fragmentsWords(
    {
      names: placed.map(({ name }, k) => `${letterOf(k)} (${name})`),
      reference: options.reference,
      undecided: lettered.flatMap(({ name }, k) => (options.undecided.includes(placed[k].name) ? [name] : [])),
      share: shareOf(reference, placed),
      edges: meetingEdges(lettered),
      overlaps: overlapsAmong(lettered),
    },
    options.language,
  );
  const flip = reference.sense === 'intaglio' ? -1 : 1;
  const outline = reference.outline.polygon.map((value, i) => (i % 2 === 0 ? flip * value : value));
  const detail = joined(placed, 'detail');
  const face = { detail, sense: 'relief', outline: reference.outline } as const;
  const labels = besideEdges(lettered, outline).map((place, k) => ({ ...place, text: letterOf(k) }));
  return printPlate([{ face, view: 'asItIs', kind: 'fragments', around: { outline, labels } }], { ...options, said });
}

/** A, B … Z, then by number. */
const letterOf = (k: number): string => (k < 26 ? String.fromCharCode(65 + k) : String(k + 1));

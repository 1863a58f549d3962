import type { Face } from '../../face/index.ts';
import { type HeightGrid, xOf, yOf } from '../../geometry/index.ts';
import { joined, meetingEdges, overlapsAmong, type PlacedFragment, shareOf } from '../../read/index.ts';
import { fragmentsWords } from '../words/index.ts';
import { type PrintOptions, type PrintPlate, printPlate } from './printPlate.ts';

export interface FragmentsOptions extends PrintOptions {
  /** What the fragments were fitted to, as it is named in the caption. */
  readonly reference: string;
  /** Names of fragments of which it is not decided that they came from it. */
  readonly undecided: readonly string[];
}

/** Between the furthest edge and a fragment's letter, mm. */
const besideMm = 3;

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
  const labels = lettered.map((fragment) => ({ ...besideOf(fragment, outline), text: fragment.name }));
  return printPlate([{ face, view: 'asItIs', kind: 'fragments', around: { outline, labels } }], { ...options, said });
}

/** A, B … Z, then by number. */
const letterOf = (k: number): string => (k < 26 ? String.fromCharCode(65 + k) : String(k + 1));

/** Beyond all edges, in the direction from the face's centre to the middle of the fragment. */
function besideOf({ middle, surface }: PlacedFragment, outline: ArrayLike<number>): { x: number; y: number } {
  const long = Math.hypot(...middle) || 1;
  const [dx, dy] = long < 1e-6 ? [0, 1] : [middle[0] / long, middle[1] / long];
  let reach = 0;
  for (let i = 0; i < outline.length; i += 2) reach = Math.max(reach, outline[i] * dx + outline[i + 1] * dy);
  reach = Math.max(reach, reachOf(surface, dx, dy));
  return { x: (reach + besideMm) * dx, y: (reach + besideMm) * dy };
}

function reachOf(grid: HeightGrid, dx: number, dy: number): number {
  let reach = 0;
  for (let i = 0; i < grid.mask.length; i++)
    if (grid.mask[i])
      reach = Math.max(reach, xOf(grid, i % grid.width) * dx + yOf(grid, Math.floor(i / grid.width)) * dy);
  return reach;
}

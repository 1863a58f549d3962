import type { HeightGrid } from '../../geometry/index.ts';
import type { Aligned } from './alignCurve.ts';
import type { BaseCurve } from './baseCurve.ts';
import { leastLine, type PickedBand } from './pickBand.ts';
import type { RingSigns } from './ringSigns.ts';
import { arcOver } from './strokesOver.ts';

/** A ring that may be the legend's. */
export interface Ring {
  readonly aligned: Aligned;
  readonly band: PickedBand;
  /** Laid out straight, and what is read there. */
  readonly picture: HeightGrid;
  readonly signs: RingSigns;
  readonly worth: number;
}

export interface ChoiceOptions {
  /** A ring that ends at a border line is worth less, by at most this, than one that takes the line along. */
  readonly mostBehind: number;
  /** A ring that holds another is taller by at most this factor and worth less by at most this; strokes run on into it along at least this share of the round. */
  readonly mostTaller: number;
  readonly tallerBehind: number;
  readonly leastArc: number;
}

/**
 * The ring of the greatest worth, in its place the best of those within it that end at a border line over which it reaches: border
 * lines bound a legend. Of those that hold this one up to its lines and are worth hardly less the tallest into which strokes run on along
 * a good part of the round, since the arcs of one ring need not have letters of one height.
 */
export function chosenRing(rings: readonly Ring[], options: ChoiceOptions): Ring {
  const { mostBehind, mostTaller, tallerBehind, leastArc } = options;
  const best = rings.reduce(worthier);
  const bounded = rings.filter(
    (ring) =>
      best.worth - ring.worth <= mostBehind &&
      holds(best, ring) &&
      (takesLine(best, ring) || endsBehindLine(best, ring)),
  );
  const chosen = bounded.length > 0 ? bounded.reduce(worthier) : best;
  const most = mostTaller * heightOf(chosen);
  return rings
    .filter((ring) => chosen.worth - ring.worth <= tallerBehind && heightOf(ring) <= most)
    .filter((ring) => holds(ring, chosen) && !takesLine(ring, chosen) && strokesRunInto(ring, chosen, leastArc))
    .reduce((p, q) => (heightOf(q) > 1.1 * heightOf(p) ? q : p), chosen);
}

const worthier = (p: Ring, q: Ring): Ring => (q.worth > p.worth ? q : p);

const heightOf = ({ band }: Ring): number => band.lettersInnerMm - band.lettersOuterMm;

/** Both edges of the letters lie within the other's, but for a tenth of their height. */
function holds(ring: Ring, other: Ring): boolean {
  const shortMm = 0.1 * heightOf(other);
  const [outer, inner] = lettersRadii(ring);
  const [otherOuter, otherInner] = lettersRadii(other);
  const [p, q] = [ring.aligned.place, other.aligned.place];
  return (
    Math.hypot(p.cx - q.cx, p.cy - q.cy) < 2 * shortMm && outer > otherOuter - shortMm && inner < otherInner + shortMm
  );
}

/** The letters of a ring reach over a border line at which the other ends. */
const takesLine = (ring: Ring, other: Ring): boolean => crossesLine(lettersRadii(ring), other);

/** So does the gap at which it ends. */
const endsBehindLine = (ring: Ring, other: Ring): boolean =>
  crossesLine(radii(ring, ring.band.outerMm, ring.band.innerMm), other);

function crossesLine([outer, inner]: readonly number[], other: Ring): boolean {
  const shortMm = 0.1 * heightOf(other);
  const { outerMm, innerMm, outerLine, innerLine } = other.band;
  const [outerGap, innerGap] = radii(other, outerMm, innerMm);
  return (outerLine > leastLine && outer > outerGap + shortMm) || (innerLine > leastLine && inner < innerGap - shortMm);
}

/** Over each edge of the other beyond which a ring reaches, strokes run on along at least `leastArc` of the round. */
function strokesRunInto(ring: Ring, other: Ring, leastArc: number): boolean {
  const shortMm = 0.1 * heightOf(other);
  const [outer, inner] = lettersRadii(ring);
  const [otherOuter, otherInner] = lettersRadii(other);
  return (
    (outer < otherOuter + shortMm || arcOver(other.picture, 'outer') >= leastArc) &&
    (inner > otherInner - shortMm || arcOver(other.picture, 'inner') >= leastArc)
  );
}

/** Mean radii of the letters' two edges, mm. */
const lettersRadii = (ring: Ring): number[] => radii(ring, ring.band.lettersOuterMm, ring.band.lettersInnerMm);

const radii = ({ aligned: { curve } }: Ring, ...depthsMm: number[]): number[] =>
  depthsMm.map((depthMm) => lengthMm(curve, depthMm) / (2 * Math.PI));

/** Length of a parallel: a closed convex curve is 2π d shorter d mm inside. */
export const lengthMm = (curve: BaseCurve, depthMm: number): number =>
  curve.x.length * curve.spacingMm - 2 * Math.PI * depthMm;

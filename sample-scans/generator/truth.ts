import type { Similarity } from '../../src/core/geometry/index.ts';
import type { Accident } from './accidents.ts';
import { heightKept } from './heightKept.ts';
import type { Objects } from './objects.ts';
import type { Scanned } from './scanned.ts';
import { bit, type PairTruth, type Recipe, type TrueDamage } from './types.ts';

/** All that is true of a pair, in the reference's face frame. */
export function truthOf(
  recipe: Recipe,
  a: Scanned,
  b: Scanned,
  similarity: Similarity | null,
  dieMarks: Objects['dieMarks'],
): PairTruth {
  const toFace = faceOf(a);
  const line = (points: ArrayLike<number>): Float64Array => {
    const out = new Float64Array(points.length);
    for (let i = 0; i < out.length; i += 2) {
      const [x, y] = toFace(points[i], points[i + 1]);
      out[i] = x;
      out[i + 1] = y;
    }
    return out;
  };
  const damage = (mark: Accident, carriedBy: TrueDamage['carriedBy'], inSubject: boolean): TrueDamage => ({
    ...mark,
    polyline: line(mark.polyline),
    carriedBy,
    inSubject,
  });
  let face = 0;
  let worn = 0;
  for (const bits of b.shell.bits) {
    if (bits & bit.face) face++;
    if (bits & bit.worn) worn++;
  }
  const otherDie = similarity === null;
  return {
    sameMatrix: !otherDie && recipe.relation !== 'recastMatrix',
    relation: recipe.relation,
    referenceFromSubject: similarity,
    scale: similarity?.scale ?? null,
    sizeRatio: b.made.size / a.made.size,
    turnedOver: a.made.sense !== b.made.sense,
    mirrored: recipe.mirrored,
    referenceLegend: a.design.legend,
    subjectLegend: b.design.legend,
    letters: a.design.letters.map(({ char, x, y, heightMm }) => {
      const [fx, fy] = toFace(x, y);
      const angleDeg = ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360;
      return { char, angleDeg, x: fx, y: fy, heightMm: heightMm * a.made.size };
    }),
    shape: a.design.shape,
    outline: line(a.design.outline),
    bandInnerOuterMm: [a.design.bandInnerOuterMm[1] * a.made.size, a.design.bandInnerOuterMm[0] * a.made.size],
    damage: [
      ...dieMarks.map(({ mark, inReference, inSubject }) =>
        damage(mark, inReference && inSubject ? 'both' : inReference ? 'reference' : 'subject', inSubject),
      ),
      ...a.made.marks.map((mark) => damage(mark, 'reference', false)),
      ...(otherDie ? [] : b.made.marks.map((mark) => damage(mark, 'subject', true))),
    ],
    wear: {
      amount: recipe.wear,
      deepestMm: b.made.wornMm,
      wornFraction: face ? worn / face : 0,
      heightKept: otherDie ? null : heightKept(a, b),
    },
    whiteNoiseMm: b.whiteMm,
  };
}

/** Design plane → reference's face frame, warp included. */
function faceOf({ placement }: Scanned): (x: number, y: number) => readonly [number, number] {
  const shift = new Float64Array(3);
  const flip = placement.sense === 'intaglio' ? -1 : 1;
  return (x, y) => {
    placement.warp.shift(x, y, shift);
    return [flip * placement.size * (x + shift[0]), placement.size * (y + shift[1])];
  };
}

import type { GeneratedPair } from '../../../sample-scans/generator/index.ts';
import { bit } from '../../../sample-scans/generator/types.ts';
import type { WearAndDamage } from '../../../src/core/condition/condition.ts';
import type { FoundMark } from '../../../src/core/condition/marks/index.ts';
import type { Face } from '../../../src/core/face/index.ts';
import type { Vec3 } from '../../../src/core/geometry/index.ts';
import { type LabelCounts, labelCounts, type TrueCause } from './confusion.ts';
import { eachVertex, foundFrame, NearPoints } from './places.ts';
import { inside, type VisibleMark, visibleMarks } from './trueMarks.ts';
import { type WearOverlap, wearOverlap } from './trueWear.ts';

/** One pair's marks and wear held against the truth. */
export interface SurfaceGrade {
  /** Marks that the floors speak of, and what was found of each. */
  readonly wanted: readonly { readonly true: VisibleMark; readonly found: FoundMark | null; readonly right: boolean }[];
  /** Side of the cells that the marks were looked for in, mm. */
  readonly cellMm: number;
  /** Marks on nothing that the truth lists. */
  readonly unlisted: readonly FoundMark[];
  /** … and on nothing that happened to a vertex either. */
  readonly false: readonly FoundMark[];
  readonly overlap: WearOverlap;
  /** Found less true, of the whole face's height kept. */
  readonly keptError: number;
  readonly keptSd: number;
  /** True cause × label, cells. */
  readonly labels: LabelCounts;
  readonly state: WearAndDamage['state']['reading'];
}

/** A point belongs to a mark found within so much of it, mm; a mark is found by this share of its visible points. */
const aroundMm = 0.7;
const leastShare = 0.25;

export function gradeSurfaces(pair: GeneratedPair, face: Face, offset: Vec3, seen: WearAndDamage): SurfaceGrade {
  const frame = foundFrame(pair, face, offset);
  const truths = visibleMarks(pair, frame);
  const happened = new NearPoints(0.5);
  const odd = bit.pit | bit.chip | bit.damage | bit.debris | bit.bump;
  eachVertex(pair.reference, frame.fromReferenceFile, odd, (x, y) => happened.add(x, y));
  if (frame.fromSubjectFile) eachVertex(pair.subject, frame.fromSubjectFile, odd, (x, y) => happened.add(x, y));
  const whole = seen.wear.zones.find(({ zone }) => zone === 'whole');
  return {
    ...gradeMarks(truths, seen.marks, happened),
    cellMm: seen.wearMap.pitch,
    overlap: wearOverlap(pair, frame, seen.toldMap),
    keptError: (whole?.heightKept ?? Number.NaN) - (pair.truth.wear.heightKept ?? Number.NaN),
    keptSd: whole?.heightKeptSd ?? Number.NaN,
    labels: labelCounts(seen.toldMap, (visit) => {
      if (!frame.fromSubjectFile) return;
      const any = bit.face | bit.lip | bit.wall;
      eachVertex(pair.subject, frame.fromSubjectFile, any, (x, y, bits) =>
        visit(x, y, bits & bit.face ? causeOf(bits) : null),
      );
    }),
    state: seen.state.reading,
  };
}

/** Which true marks were found, and which of those found lie on none. `happened`: places where anything happened to a vertex. */
export function gradeMarks(
  truths: readonly VisibleMark[],
  found: readonly FoundMark[],
  happened: NearPoints,
): Pick<SurfaceGrade, 'wanted' | 'unlisted' | 'false'> {
  const unlisted = found.filter((mark) => !truths.some((each) => touches(each, mark)));
  return {
    wanted: truths.filter(({ counts }) => counts).map((each) => ({ true: each, ...bestFor(each, found) })),
    unlisted,
    false: unlisted.filter(({ outline }) => !touchesAny(outline, happened)),
  };
}

const causeOf = (bits: number): TrueCause | null => {
  if (bits & bit.spike) return null;
  if (bits & (bit.chip | bit.pit)) return 'lost';
  if (bits & (bit.damage | bit.debris | bit.bump)) return 'other';
  if (bits & bit.notFilled) return 'notFilled';
  return bits & bit.worn ? 'worn' : 'sound';
};

/** The mark found that covers most of a true one, and whether its carrier and polarity are right. */
function bestFor({ mark, points }: VisibleMark, found: readonly FoundMark[]) {
  let best: FoundMark | null = null;
  let most = leastShare * (points.length / 2);
  const right = (one: FoundMark): boolean => one.carriedBy === mark.carriedBy && one.raised === mark.raised;
  for (const one of found) {
    const covered = coveredBy(points, one.outline);
    // Of marks that cover it about as well the one with the right polarity is meant.
    if (covered < most || (best && covered < 1.3 * most && right(best))) continue;
    most = covered;
    best = one;
  }
  return { found: best, right: best !== null && right(best) };
}

function coveredBy(points: Float64Array, outline: Float64Array): number {
  let count = 0;
  for (let i = 0; i < points.length; i += 2) if (within(outline, points[i], points[i + 1])) count++;
  return count;
}

const within = (outline: Float64Array, x: number, y: number): boolean =>
  inside(outline, x, y) || distanceTo(outline, x, y) < aroundMm;

function distanceTo(outline: Float64Array, x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  const n = outline.length / 2;
  for (let i = 0, j = n - 1; i < n; j = i++) {
    const [ax, ay, bx, by] = [outline[2 * j], outline[2 * j + 1], outline[2 * i], outline[2 * i + 1]];
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    best = Math.min(best, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return best;
}

/** Whether a mark lies on a true one: a fifth of its own places do, or a quarter of the true one's. */
function touches({ mark, points }: VisibleMark, found: FoundMark): boolean {
  if (coveredBy(points, found.outline) > leastShare * (points.length / 2)) return points.length > 0;
  const near = new NearPoints(Math.max(0.8, mark.widthMm / 2 + 0.5));
  for (let i = 0; i < points.length; i += 2) near.add(points[i], points[i + 1]);
  return touchesAny(found.outline, near);
}

function touchesAny(outline: Float64Array, near: NearPoints): boolean {
  let count = 0;
  for (let i = 0; i < outline.length; i += 2) if (near.has(outline[i], outline[i + 1])) count++;
  return count > 0.2 * (outline.length / 2);
}

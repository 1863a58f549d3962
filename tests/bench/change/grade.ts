import type { Change, ChangeFound } from '../../../src/core/change/index.ts';
import type { ChangeComparison } from '../../../src/core/changeBetween.ts';
import { changeBetween } from '../../../src/core/changeBetween.ts';
import { apply, compose, invert, type Similarity } from '../../../src/core/geometry/index.ts';
import { prepareScan } from '../../../src/core/pipeline.ts';
import type { Scanned } from '../../populations/scanning.ts';
import type { Happening, TwoDates } from './twoDates.ts';

/** What was found of one simulated object, against the truth. */
export interface Graded {
  readonly seed: number;
  readonly happening: Happening;
  readonly judged: boolean;
  /** The change that overlaps the true one, of the right direction; null where none does. */
  readonly hit: Change | null;
  /** Changes elsewhere, or of the wrong direction. */
  readonly falseChanges: readonly Change[];
  readonly volumeErrorMm3: number;
  /** Root mean square height error of the pose over the face, scale and bending of the instruments left in, mm. */
  readonly poseMm: number;
  readonly truth: TwoDates['truth'];
  readonly found: ChangeFound | null;
}

/** Runs the whole job on simulated scans. */
export async function compareDates(two: TwoDates): Promise<ChangeComparison> {
  const read = (scanned: Scanned, name: string) => prepareScan({ name, bytes: scanned.scan.bytes, unit: 'mm' });
  const earlier = await read(two.earlier, 'earlier.ply');
  const later = await read(two.later, 'later.ply');
  const again = two.repeats && {
    earlierAgain: await read(two.repeats.earlier, 'earlier-again.ply'),
    laterAgain: await read(two.repeats.later, 'later-again.ply'),
  };
  return changeBetween({ earlier, later, ...again });
}

/** Holds what was found against the truth. A change counts as the true one where its place lies within the true reach and 1 mm. */
export function grade(seed: number, happening: Happening, two: TwoDates, comparison: ChangeComparison): Graded {
  const { result } = comparison;
  const base = { seed, happening, truth: two.truth };
  if (!result.judged)
    return {
      ...base,
      judged: false,
      hit: null,
      falseChanges: [],
      volumeErrorMm3: Number.NaN,
      poseMm: Number.NaN,
      found: null,
    };
  const true_ =
    happening === 'none' ? [] : result.changes.filter((change) => isTrue(change, happening, two, comparison));
  const hit = true_[0] ?? null;
  const volume = true_.reduce((sum, change) => sum + change.volumeMm3, 0);
  return {
    ...base,
    judged: true,
    hit,
    falseChanges: result.changes.filter((change) => !true_.includes(change) && change.direction !== 'absent'),
    volumeErrorMm3: hit ? volume - two.truth.volumeMm3 : Number.NaN,
    poseMm: poseError(two, comparison, result),
    found: result,
  };
}

function isTrue(change: Change, happening: Happening, { truth }: TwoDates, { earlier }: ChangeComparison): boolean {
  if (change.direction !== (happening === 'deposit' ? 'raised' : 'lowered') || !truth.place) return false;
  const [x, y] = apply(compose(earlier.face.faceFromScan, minus(earlier.scan.mesh.offset)), [
    truth.place[0],
    truth.place[1],
    truth.place[2],
  ]);
  const { outline } = change;
  let nearest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < outline.length; k += 2)
    nearest = Math.min(nearest, Math.hypot(outline[k] - x, outline[k + 1] - y));
  return nearest < truth.reachMm + 1;
}

const minus = ([x, y, z]: readonly number[]): Similarity => ({
  scale: 1,
  rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  translation: [-x, -y, -z],
});

/** How far the pose puts the later's face off its true place along the height, root mean square over a disc of half the face. */
function poseError(two: TwoDates, { earlier, later }: ChangeComparison, { earlierFromLater }: ChangeFound): number {
  const truth = compose(
    compose(minus(earlier.scan.mesh.offset), two.truth.earlierFromLater),
    invert(minus(later.scan.mesh.offset)),
  );
  const toFace = earlier.face.faceFromScan;
  const off = compose(compose(toFace, truth), invert(compose(toFace, earlierFromLater)));
  const R = earlier.face.outline.heightMm / 4;
  let [sum, n] = [0, 0];
  for (let a = 0; a < 12; a++)
    for (const r of [0.3, 0.7, 1]) {
      const [x, y] = [r * R * Math.cos((a * Math.PI) / 6), r * R * Math.sin((a * Math.PI) / 6)];
      sum += apply(off, [x, y, 0])[2] ** 2;
      n++;
    }
  return Math.sqrt(sum / n);
}

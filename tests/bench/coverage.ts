import { apply, compose, invert, type Similarity, type Vec3 } from '../../src/core/geometry/index.ts';
import { fitBestFaces, type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { makePair, recipeAt } from '../populations/index.ts';

/** An error of a fit over its standard deviation: turn and shift as the record prints them, of three components together. */
interface Errors {
  readonly recipe: number;
  readonly relation: string;
  readonly turnDeg: number;
  readonly turnSdDeg: number;
  readonly shiftMm: number;
  readonly shiftSdMm: number;
  readonly size: number;
  readonly sizeSd: number;
}

/** Larger than this the fit is of another place: it is counted, and no question of uncertainty. */
const astray = { deg: 3, mm: 1 };

/**
 * How often the pose is within 1.96 standard deviations of the truth: recipes `from` to `from + count − 1` of the second population
 * whose pair has one matrix and is found. Rows, then a table.
 */
export async function coverage(from: number, count: number, say: (line: string) => void): Promise<void> {
  const rows: Errors[] = [];
  let lost = 0;
  say('recipe,relation,turnDeg,turnSdDeg,shiftMm,shiftSdMm,size,sizeSd');
  for (let index = from; index < from + count; index++) {
    if (!['same', 'cast', 'state', 'recast'].includes(recipeAt(index).relation)) continue;
    const row = await errorsOf(index);
    if (!row || row.turnDeg > astray.deg || row.shiftMm > astray.mm) lost++;
    else rows.push(row);
    if (row) say(Object.values(row).join(','));
  }
  const within = (error: (row: Errors) => number): string =>
    `${((100 * rows.filter((row) => Math.abs(error(row)) < 1.96).length) / rows.length).toFixed(1)} %`;
  say(`\n${rows.length} pairs; ${lost} not found, or astray by more than ${astray.deg}° or ${astray.mm} mm`);
  say(`| turn | ${within((row) => row.turnDeg / row.turnSdDeg)} |`);
  say(`| shift | ${within((row) => row.shiftMm / row.shiftSdMm)} |`);
  say(`| size | ${within((row) => row.size / row.sizeSd)} |`);
}

async function errorsOf(index: number): Promise<Errors | null> {
  const { reference, subject, truth } = makePair(index, recipeAt(index));
  if (!truth.subjectToReference) return null;
  const scan = (name: string, bytes: Uint8Array): Promise<PreparedScan> =>
    prepareScan({ name, bytes, unit: truth.unit, sha256: () => '' });
  const [a, b] = [await scan('a.ply', reference.bytes), await scan('b.ply', subject.bytes)];
  const { fit, reference: on } = fitBestFaces(a, b);
  if (!fit.found) return null;
  const centred = compose(shift(a, -1), compose(similarity(truth.subjectToReference), shift(b, 1)));
  // What is left of the truth in the reference's face frame, about its centre.
  const { faceFromScan } = on.face;
  const rest = compose(
    faceFromScan,
    compose(compose(fit.models[1].referenceFromSubject, invert(centred)), invert(faceFromScan)),
  );
  const r = rest.rotation;
  return {
    recipe: index,
    relation: truth.relation,
    turnDeg: (Math.hypot(r[7] - r[5], r[2] - r[6], r[3] - r[1]) / 2) * (180 / Math.PI),
    turnSdDeg: fit.rotationSdDeg,
    shiftMm: Math.hypot(...apply(rest, [0, 0, 0])),
    shiftSdMm: fit.translationSdMm,
    size: Math.log(rest.scale),
    sizeSd: fit.models[1].scaleSd / fit.models[1].scale,
  };
}

/** File ← centred scan, or the other way with −1. */
const shift = ({ scan }: PreparedScan, sign: 1 | -1): Similarity => ({
  scale: 1,
  rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  translation: scan.mesh.offset.map((value) => sign * value) as unknown as Vec3,
});

/** Rows of a 4 × 4 or 3 × 4 matrix as a similarity. */
function similarity(m: readonly number[]): Similarity {
  const scale = Math.hypot(m[0], m[4], m[8]);
  const rotation = [0, 1, 2].flatMap((row) => [0, 1, 2].map((col) => m[4 * row + col] / scale));
  return { scale, rotation, translation: [m[3], m[7], m[11]] };
}

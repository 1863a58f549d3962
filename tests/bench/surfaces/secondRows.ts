import { judgeSurfaces, type WearAndDamage } from '../../../src/core/condition/condition.ts';
import { findZones } from '../../../src/core/design/index.ts';
import { conditions, type MadePair, type PairRecipe } from '../../populations/index.ts';
import { type Row, share } from '../table.ts';
import { addedCounts, type LabelCounts, labelCounts, labelRate, labelRows, type TrueCause } from './confusion.ts';
import { gradeMarks, type SurfaceGrade } from './grade.ts';
import { NearPoints } from './places.ts';
import {
  eachSecondVertex,
  runSecond,
  type SecondFrames,
  secondFrames,
  secondRecipe,
  visibleSecond,
} from './secondPairs.ts';
import { differsMm, leastDropMm, trueHeights } from './trueHeights.ts';
import type { VisibleMark } from './trueMarks.ts';
import { keptRows, type MadePoint, type ZoneKept, zonesKept, zonesLine } from './trueZones.ts';

interface Graded extends Pick<SurfaceGrade, 'wanted' | 'unlisted' | 'false'> {
  readonly seed: number;
  readonly cellMm: number;
  readonly state: WearAndDamage['state']['reading'];
  /** What is true of the two states; null where the two are not of one matrix's states. */
  readonly truly: WearAndDamage['state']['reading'];
  readonly telling: number;
  /** A mark that counts stands on one of the two alone, and its place is sound on the other. */
  readonly tellable: boolean;
  /** … and the two surfaces as made differ there by as much as a mark is deep: asked of a letter alone, and of any mark. */
  readonly letterStands: boolean;
  readonly stands: boolean;
  readonly labels: LabelCounts;
  /** The same by how the surface lies against the reference's: `worn` where it is lower, whatever lowered it. */
  readonly drops: LabelCounts;
  readonly zones: readonly ZoneKept[];
  /** Of each mark sought, how far the two surfaces as made differ there, mm. */
  readonly differs: readonly number[];
}

/** A mark of the matrix so deep may be printed less deep, or not at all. */
const leastStandingMm = 0.15;

/** The place of a mark is sound on the other face where this share of it lies near sound surface. */
const leastSound = 0.7;

const causes: Readonly<Record<(typeof conditions)[number], TrueCause | null>> = {
  sound: 'sound',
  worn: 'worn',
  unfilled: 'notFilled',
  lost: 'lost',
  accident: 'other',
  recut: 'other',
  lip: null,
  body: null,
};

/** Marks, states and wear labels of pairs of the second generator (docs/condition.md). */
export async function secondRows(
  from: number,
  count: number,
  say: (line: string) => void,
  recipeOf = secondRecipe,
): Promise<Row[]> {
  const list: Graded[] = [];
  let unfitted = 0;
  for (let seed = from; seed < from + count; seed++) {
    const one = await gradedSecond(seed, recipeOf(seed));
    if (one) {
      list.push(one);
      say(lineOf(one));
      say(`  ${zonesLine(one.zones)}`);
    } else unfitted++;
  }
  return [{ what: 'pairs fitted', floor: '', measured: share(list.length, list.length + unfitted) }, ...rowsOf(list)];
}

async function gradedSecond(seed: number, recipe: PairRecipe): Promise<Graded | null> {
  const { pair, comparison } = await runSecond(seed, recipe);
  const { reference, subject, fit } = comparison;
  if (!fit.found) return null;
  const seen = judgeSurfaces(reference.face, subject.face, fit);
  const frames = secondFrames(pair, comparison);
  const happened = new NearPoints(0.5);
  const note = (x: number, y: number, code: number): void => {
    if (causes[conditions[code]] === 'other' || causes[conditions[code]] === 'lost') happened.add(x, y);
  };
  eachSecondVertex(pair.reference, frames.fromReference, note);
  if (frames.fromSubject) eachSecondVertex(pair.subject, frames.fromSubject, note);
  // Where the subject has no face left, a loss is no false mark.
  const face = new NearPoints(0.5);
  const isFace = (code: number): boolean => causes[conditions[code]] !== null && conditions[code] !== 'lost';
  if (frames.fromSubject)
    eachSecondVertex(pair.subject, frames.fromSubject, (x, y, code) => void (isFace(code) && face.add(x, y)));
  const graded = gradeMarks(visibleSecond(pair, frames, seen.wearMap.pitch), seen.marks, happened);
  const labels = labelCounts(seen.toldMap, (visit) => {
    if (!frames.fromSubject) return;
    eachSecondVertex(pair.subject, frames.fromSubject, (x, y, code) => visit(x, y, causes[conditions[code]]));
  });
  const heights = trueHeights(seed, recipe, pair);
  const points: MadePoint[] = [];
  const drops = labelCounts(seen.toldMap, (visit) => {
    if (!frames.fromSubject) return;
    eachSecondVertex(pair.subject, frames.fromSubject, (x, y, code, vertex) => {
      const cause = causes[conditions[code]];
      const own = cause === 'sound' || cause === 'worn' || cause === 'notFilled';
      const { made, left, onFace } = heights(vertex);
      if (onFace && (own || cause === 'other')) points.push({ x, y, made, left });
      visit(x, y, own ? (made - left > leastDropMm ? 'worn' : 'sound') : cause);
    });
  });
  const differs = graded.wanted.map((each) => differsMm(each.true.points, pair, frames, heights));
  const isTellable = graded.wanted.map(({ true: each }) => isSoundOnOther(each, pair, frames));
  return {
    ...graded,
    false: graded.false.filter(({ outline }) => mostlyOn(outline, face)),
    seed,
    cellMm: seen.wearMap.pitch,
    state: seen.state.reading,
    truly: pair.truth.state ?? 'sameState',
    telling: seen.telling.length,
    tellable: isTellable.includes(true),
    letterStands: graded.wanted.some(
      ({ true: { mark } }, k) => isTellable[k] && (mark.kind !== 'recut' || differs[k] >= leastStandingMm),
    ),
    stands: isTellable.some((is, k) => is && differs[k] >= leastStandingMm),
    labels,
    drops,
    zones: zonesKept(seen.wear.zones, findZones(reference.face), seen.toldMap, points),
    differs,
  };
}

/** Whether a mark stands on one face alone, where the other has sound surface. */
function isSoundOnOther({ mark, points }: VisibleMark, pair: MadePair, frames: SecondFrames): boolean {
  if (mark.carriedBy === 'both') return false;
  const [other, frame] =
    mark.carriedBy === 'reference' ? [pair.subject, frames.fromSubject] : [pair.reference, frames.fromReference];
  const sound = new NearPoints(0.3);
  if (frame) eachSecondVertex(other, frame, (x, y, code) => void (conditions[code] === 'sound' && sound.add(x, y)));
  let count = 0;
  for (let i = 0; i < points.length; i += 2) if (sound.has(points[i], points[i + 1])) count++;
  return count >= leastSound * (points.length / 2);
}

function mostlyOn(outline: Float64Array, face: NearPoints): boolean {
  let off = 0;
  for (let i = 0; i < outline.length; i += 2) if (!face.has(outline[i], outline[i + 1])) off++;
  return off <= 0.2 * (outline.length / 2);
}

function lineOf({ seed, wanted, false: wrong, state, truly, cellMm }: Graded): string {
  const sought = wanted.map(
    ({ true: { mark }, found, right }) =>
      `${mark.kind} ${mark.depthMm.toFixed(2)} × ${mark.widthMm.toFixed(2)} on ${mark.carriedBy} ${found ? (right ? 'found' : `read as ${found.shape} of ${found.carriedBy}`) : 'missed'}`,
  );
  const made = wrong.map(
    ({ shape, carriedBy, lengthMm }) => `FALSE ${shape} of ${carriedBy} ${lengthMm.toFixed(1)} mm`,
  );
  return `${seed} cells ${cellMm.toFixed(2)}: ${[...sought, ...made].join('; ') || 'nothing sought, nothing made up'}; ${truly} read as ${state}`;
}

function rowsOf(list: readonly Graded[]): Row[] {
  const wanted = list.flatMap((each) => each.wanted);
  const differs = list.flatMap((each) => each.differs);
  // What both carry differs nowhere: it is counted by what was cut into the matrix alone.
  const standing = wanted.filter(({ true: { mark } }, k) => mark.carriedBy === 'both' || differs[k] >= leastStandingMm);
  const found = wanted.filter((each) => each.found !== null);
  const one = (what: string, floor: string, of: readonly (typeof wanted)[number][]): Row => ({
    what,
    floor,
    measured: of.length > 0 ? share(of.filter((each) => each.found).length, of.length) : 'none',
  });
  const kinds = [
    ['cut', 'cuts ≥ 0.15 mm deep and two cells wide found', '95 %'],
    ['crack', 'cracks', '85 %'],
    ['recut', 'letters cut again', '75 %'],
  ] as const;
  const wrong = list.reduce((sum, each) => sum + each.false.length, 0);
  const decided = list.filter(({ state }) => state !== 'cannotJudge');
  const same = list.filter(({ truly }) => truly === 'sameState');
  const tellable = list.filter((each) => each.tellable && each.truly !== 'sameState');
  const bare = same.filter(({ wanted: sought }) => sought.length === 0);
  return [
    ...kinds.flatMap(([kind, what, floor]) => [
      one(`marks of the matrix: ${what}`, floor, wanted.filter(isOf(kind))),
      one(`… on both, or where the two as made differ by ${leastStandingMm} mm`, '', standing.filter(isOf(kind))),
    ]),
    {
      what: 'carrier and polarity right, of those found',
      floor: '99 %',
      measured: share(found.filter(({ right }) => right).length, found.length),
    },
    { what: 'marks on nothing', floor: '0.15 a pair', measured: `${wrong} in ${list.length} pairs` },
    {
      what: 'same state and no mark of the matrix: none claimed',
      floor: '90 %',
      measured: share(bare.filter(({ telling }) => telling === 0).length, bare.length),
    },
    { what: 'order of states told', floor: '', measured: share(decided.length, list.length) },
    {
      what: '… and right',
      floor: 'all',
      measured: share(decided.filter(({ state, truly }) => state === truly).length, decided.length),
    },
    rightOf('… of pairs of two states with a mark that counts, whose place is sound on both', '85 %', tellable),
    rightOf(
      `… of these, letters only where the two as made differ by ${leastStandingMm} mm`,
      '',
      tellable.filter(({ letterStands }) => letterStands),
    ),
    rightOf(
      '… of these, every mark only where they do',
      '',
      tellable.filter(({ stands }) => stands),
    ),
    ...labelRows(addedCounts(list.map(({ labels }) => labels))),
    ...dropRows(addedCounts(list.map(({ drops }) => drops))),
    ...keptRows(list.flatMap(({ zones }) => zones)),
  ];
}

const isOf =
  (kind: VisibleMark['mark']['kind']) =>
  ({ true: { mark } }: SurfaceGrade['wanted'][number]): boolean =>
    mark.kind === kind;

const rightOf = (what: string, floor: string, of: readonly Graded[]): Row => ({
  what,
  floor,
  measured: share(of.filter(({ state, truly }) => state === truly).length, of.length),
});

/** What is said lower against what lies lower than the reference. */
function dropRows(drops: LabelCounts): Row[] {
  const { sharp, lower, lost } = drops.sound;
  return [
    labelRate(
      drops,
      'lower',
      ['worn'],
      `label lower, of cells that lie ${leastDropMm} mm and more below the reference`,
    ),
    {
      what: 'cells that do not: called lower or lost',
      floor: '5 %',
      measured: share(lower + lost, sharp + lower + lost),
    },
  ];
}

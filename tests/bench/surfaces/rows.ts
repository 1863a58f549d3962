import { judgeSurfaces } from '../../../src/core/condition/condition.ts';
import { findZones } from '../../../src/core/design/index.ts';
import { runPair } from '../pairs.ts';
import { quantileOf, type Row, share } from '../table.ts';
import { addedCounts, labelRows } from './confusion.ts';
import { gradeSurfaces, type SurfaceGrade } from './grade.ts';
import { foundFrame } from './places.ts';
import { type Grade, gradeNames, type SurfaceCase, surfaceCase } from './populations.ts';
import { madePoints } from './trueHeights.ts';
import { keptRows, type ZoneKept, zonesKept, zonesLine } from './trueZones.ts';

/** Pairs whose subject is touched or gone over less than this share of the face say little of the overlap. */
const leastTouched = 0.1;

interface Graded {
  readonly kind: SurfaceCase;
  /** Null where no fit was found. */
  readonly grade: SurfaceGrade | null;
  readonly zones: readonly ZoneKept[];
  readonly finding: string;
}

/** Marks, wear and state of generated pairs, taken through the whole pipeline and held against the truth. */
export async function surfaceRows(
  count: number,
  firstSeed: number,
  say: (line: string) => void,
  caseOf = surfaceCase,
): Promise<{ rows: Row[]; worst: string[] }> {
  const list: Graded[] = [];
  for (let k = 0; k < count; k++) {
    const one = await graded(caseOf(firstSeed, k));
    list.push(one);
    say(`${one.kind.seed} ${zonesLine(one.zones)}`);
    if (k % 10 === 9) say(`marks and wear: ${k + 1} of ${count}`);
  }
  const rows = [...markRows(list), ...wearRows(list), ...stateRows(list)];
  return { rows, worst: worstOf(list) };
}

async function graded(kind: SurfaceCase): Promise<Graded> {
  const { pair, comparison } = await runPair(kind.seed, kind.relation, kind.ranges, kind.fixed);
  const { reference, subject, fit, judgement } = comparison;
  if (!fit.found) return { kind, grade: null, zones: [], finding: judgement.finding };
  const seen = judgeSurfaces(reference.face, subject.face, fit);
  const { offset } = reference.scan.mesh;
  const grade = gradeSurfaces(pair, reference.face, offset, seen);
  const points = madePoints(pair, foundFrame(pair, reference.face, offset));
  const zones = zonesKept(seen.wear.zones, findZones(reference.face), seen.toldMap, points);
  return { kind, grade, zones, finding: judgement.finding };
}

const fitted = (list: readonly Graded[]): (Graded & { grade: SurfaceGrade })[] =>
  list.filter((each): each is Graded & { grade: SurfaceGrade } => each.grade !== null);

type Sought = SurfaceGrade['wanted'][number] & { readonly cellMm: number };
const onBoth = ({ true: { mark } }: Sought): boolean => mark.carriedBy === 'both';
const wide = ({ true: { mark }, cellMm }: Sought): boolean => mark.widthMm >= 2 * cellMm;
const resolved = ({ true: { mark }, cellMm }: Sought): boolean => mark.widthMm >= cellMm;

function markRows(list: readonly Graded[]): Row[] {
  const seen = fitted(list);
  const wanted = seen.flatMap(({ grade }) => grade.wanted.map((each) => ({ ...each, cellMm: grade.cellMm })));
  const found = wanted.filter((each) => each.found !== null);
  const part = (what: string, test: (each: Sought) => boolean): Row => {
    const of = wanted.filter(test);
    return {
      what,
      floor: '',
      measured: of.length > 0 ? share(of.filter((each) => each.found).length, of.length) : 'none',
    };
  };
  const total = (pick: (grade: SurfaceGrade) => readonly unknown[]): string =>
    `${(seen.reduce((sum, { grade }) => sum + pick(grade).length, 0) / Math.max(1, seen.length)).toFixed(2)} a pair`;
  return [
    {
      what: 'cuts, cracks and recut letters of at least 0.15 mm by 2 mm found',
      floor: '95 %',
      measured: share(found.length, wanted.length),
    },
    part('… on one of the two, at least as wide as the cells', (each) => !onBoth(each) && resolved(each)),
    part('… on one of the two, narrower', (each) => !onBoth(each) && !resolved(each)),
    part('… on both, at least as wide as the cells', (each) => onBoth(each) && resolved(each)),
    part('… on both, narrower', (each) => onBoth(each) && !resolved(each)),
    part('… cuts', ({ true: { mark } }) => mark.kind === 'cut'),
    part('… cracks', ({ true: { mark } }) => mark.kind === 'crack'),
    part('… recut letters', ({ true: { mark } }) => mark.kind === 'recut'),
    part('… two cells wide: cuts', (each) => wide(each) && each.true.mark.kind === 'cut'),
    part('… … cracks', (each) => wide(each) && each.true.mark.kind === 'crack'),
    {
      what: 'carrier and polarity right, of those found',
      floor: '99 %',
      measured: share(found.filter((each) => each.right).length, found.length),
    },
    {
      what: 'marks where nothing happened to the surface',
      floor: '0.5 a pair',
      measured: total((grade) => grade.false),
    },
    { what: 'marks that the list of true ones does not hold', floor: '', measured: total((grade) => grade.unlisted) },
  ];
}

function wearRows(list: readonly Graded[]): Row[] {
  const seen = fitted(list);
  const ratio = ({ grade: { overlap } }: { grade: SurfaceGrade }): number => overlap.both / overlap.either;
  const touched = seen.filter(({ grade: { overlap } }) => overlap.truly >= leastTouched * overlap.cells);
  const sums = (of: typeof seen): string => {
    const both = of.reduce((sum, { grade }) => sum + grade.overlap.both, 0);
    const either = of.reduce((sum, { grade }) => sum + grade.overlap.either, 0);
    return `${(both / either).toFixed(2)} pooled, median ${quantileOf(of.map(ratio), 0.5).toFixed(2)}`;
  };
  const kept = seen.map(({ grade }) => Math.abs(grade.keptError)).filter((error) => !Number.isNaN(error));
  const stated = seen.filter(({ grade }) => !Number.isNaN(grade.keptError));
  const ofGrade = (grade: Grade): typeof seen => seen.filter(({ kind }) => kind.grade === grade);
  return [
    {
      what: `lower or lost against truly touched or gone, intersection over union, where at least ${100 * leastTouched} % is`,
      floor: '0.7',
      measured: sums(touched),
    },
    { what: '… all pairs', floor: '0.7', measured: sums(seen) },
    ...gradeNames
      .filter((grade) => ofGrade(grade).length > 0)
      .map((grade) => ({ what: `… ${grade}, all pairs`, floor: '', measured: sums(ofGrade(grade)) })),
    {
      what: 'mean height kept within 5 points',
      floor: 'all',
      measured: `${share(kept.filter((error) => error < 0.05).length, kept.length)}; median error ${(100 * quantileOf(kept, 0.5)).toFixed(1)} points`,
    },
    {
      what: 'mean height kept within its own 95 %',
      floor: '93 to 97 %',
      measured: share(
        stated.filter(({ grade }) => Math.abs(grade.keptError) < 1.96 * grade.keptSd).length,
        stated.length,
      ),
    },
    ...labelRows(addedCounts(seen.map(({ grade }) => grade.labels))),
    ...keptRows(list.flatMap(({ zones }) => zones)),
  ];
}

const rightState = { laterState: 'subjectLater', earlierState: 'subjectEarlier', same: 'sameState' } as const;

function stateRows(list: readonly Graded[]): Row[] {
  const seen = fitted(list).filter(({ finding }) => finding !== 'against');
  const right = (each: (typeof seen)[number]): boolean =>
    rightState[each.kind.relation as keyof typeof rightState] === each.grade.state;
  const decided = seen.filter(({ grade }) => grade.state !== 'cannotJudge');
  return [
    { what: 'order of states told, else “cannot judge”', floor: '', measured: share(decided.length, seen.length) },
    { what: '… and right', floor: 'all', measured: share(decided.filter(right).length, decided.length) },
  ];
}

/** What was missed, misread or made up, with its seed. */
function worstOf(list: readonly Graded[]): string[] {
  return fitted(list).flatMap(({ kind, grade }) => {
    const name = `seed ${kind.seed}, ${kind.grade}, ${kind.relation}`;
    const right = rightState[kind.relation as keyof typeof rightState];
    return [
      ...(grade.state !== 'cannotJudge' && grade.state !== right ? [`${name}: read as ${grade.state}`] : []),
      ...grade.wanted
        .filter(({ found, right }) => !found || !right)
        .map(
          ({ true: { mark, visibleMm }, found }) =>
            `${name}: ${mark.kind} of ${mark.depthMm.toFixed(2)} × ${mark.widthMm.toFixed(2)} × ${visibleMm.toFixed(1)} mm on ${mark.carriedBy} ${found ? `read as ${found.shape} of ${found.carriedBy}` : 'missed'}`,
        ),
      ...grade.false.map(
        ({ shape, carriedBy, lengthMm }) =>
          `${name}: ${shape} of ${carriedBy}, ${lengthMm.toFixed(1)} mm, where nothing is`,
      ),
    ];
  });
}

import type { Relation } from '../../sample-scans/generator/index.ts';
import { doubtWords } from '../../src/core/report/words/index.ts';
import { type BenchPair, depthError, faceAngleDeg, poseError, runPair } from './pairs.ts';
import { noneSeenBound, quantileOf, type Row, share } from './table.ts';

const vertices = 30_000;
/** Seeds of the bench; none of them was used to set a threshold. */
const firstSeed = 20_000;

interface Outcome {
  readonly label: string;
  readonly errorMm: number;
  readonly scaleError: number;
  readonly depthMm: number;
  readonly noiseMm: number;
  readonly angleDeg: number;
  readonly found: boolean;
  readonly doubts: readonly string[];
  readonly finding: string;
  readonly score: number;
  readonly whole: boolean;
}

/** Fit, depth difference and finding on pairs of one matrix and on pairs of different ones. */
export async function populations(
  same: number,
  different: number,
  say: (line: string) => void,
): Promise<{ rows: Row[]; worst: string[] }> {
  const matching = await outcomes('same', same, firstSeed, say);
  const relations: readonly Relation[] = ['handCopy', 'stockMotif', 'unrelated'];
  const others: Outcome[] = [];
  for (const [k, relation] of relations.entries())
    others.push(
      ...(await outcomes(
        relation,
        Math.ceil((different - others.length) / (relations.length - k)),
        firstSeed + 5000 * (k + 1),
        say,
      )),
    );
  return { rows: [...fitRows(matching), ...findingRows(matching, others)], worst: worstOf(matching) };
}

async function outcomes(
  relation: Relation,
  count: number,
  seed: number,
  say: (line: string) => void,
): Promise<Outcome[]> {
  const list: Outcome[] = [];
  for (let i = 0; i < count; i++) {
    const run = await runPair(seed + i, relation, {
      vertices,
      coverage: [0.55, 1.15],
      warpMm: [0.02, 0.3],
      noiseMm: [0.005, 0.02],
    });
    list.push(outcomeOf(run));
    if (i % 20 === 19) say(`${relation}: ${i + 1} of ${count}`);
  }
  return list;
}

function outcomeOf(run: BenchPair): Outcome {
  const { recipe, pair, comparison } = run;
  const { fit, judgement } = comparison;
  const truth = pair.truth.referenceFromSubject;
  return {
    label: `seed ${recipe.seed}: ${recipe.shape}, ${recipe.motif}, ${recipe.sizeMm.toFixed(0)} mm, coverage ${recipe.coverage.toFixed(2)}, wear ${recipe.wear.toFixed(2)}, warp ${recipe.warpMm.toFixed(2)} mm${recipe.whole ? ', whole object' : ''}`,
    errorMm: poseError(run),
    scaleError: truth ? Math.abs(fit.models[1].scale - truth.scale) : Number.NaN,
    depthMm: depthError(run),
    noiseMm: Math.SQRT2 * Math.hypot(recipe.noiseMm, 0.6 * recipe.noiseMm),
    angleDeg: Math.max(
      faceAngleDeg(comparison.reference, pair.reference),
      faceAngleDeg(comparison.subject, pair.subject),
    ),
    found: fit.found,
    doubts: fit.doubts.map(doubtWords),
    finding: judgement.finding,
    score: judgement.score,
    whole: recipe.whole,
  };
}

function fitRows(list: readonly Outcome[]): Row[] {
  const n = list.length;
  const within = (mm: number): number => list.filter((each) => each.errorMm <= mm).length;
  const missed = list.filter((each) => !(each.errorMm <= 0.1));
  const flagged = missed.filter((each) => !each.found || each.doubts.length > 0).length;
  const wholes = list.filter((each) => each.whole);
  const depth = list.filter((each) => each.depthMm <= each.noiseMm + 0.015).length;
  return [
    { what: 'one-scale similarity within 0.1 mm of the truth', floor: '98 %', measured: share(within(0.1), n) },
    { what: 'within 0.05 mm', floor: '90 %', measured: share(within(0.05), n) },
    {
      what: 'scale within 0.002',
      floor: 'all',
      measured: `${share(list.filter((each) => each.scaleError <= 0.002).length, n)}; greatest error ${Math.max(...list.map((each) => each.scaleError)).toFixed(4)}`,
    },
    { what: 'misses that the tool itself flags', floor: 'all', measured: `${flagged} of ${missed.length}` },
    {
      what: 'right side of whole objects (within 5°)',
      floor: '100 %',
      measured: share(wholes.filter((each) => each.angleDeg < 5).length, wholes.length),
    },
    {
      what: 'depth difference RMS at most noise + 15 µm',
      floor: 'all',
      measured: `${share(depth, n)}; median RMS ${(
        1000 *
          quantileOf(
            list.map((each) => each.depthMm),
            0.5,
          )
      ).toFixed(1)} µm`,
    },
  ];
}

function findingRows(matching: readonly Outcome[], others: readonly Outcome[]): Row[] {
  const count = (list: readonly Outcome[], finding: string): number =>
    list.filter((each) => each.finding === finding).length;
  const wrong = count(others, 'supported');
  return [
    { what: 'one matrix: supported', floor: '95 %', measured: share(count(matching, 'supported'), matching.length) },
    { what: 'one matrix: against', floor: 'at most 1 %', measured: share(count(matching, 'against'), matching.length) },
    {
      what: 'different matrix: supported',
      floor: 'none',
      measured: `${share(wrong, others.length)}${wrong === 0 ? `, ${noneSeenBound(others.length)}` : ''}`,
    },
    { what: 'different matrix: against', floor: '', measured: share(count(others, 'against'), others.length) },
    {
      what: 'score, lowest of one matrix and highest of different ones',
      floor: '',
      measured: `${Math.min(...matching.filter((each) => each.found).map((each) => each.score)).toFixed(2)}, ${Math.max(...others.map((each) => each.score)).toFixed(2)}`,
    },
  ];
}

/** The ten worst fits, for the reader to look at. */
function worstOf(list: readonly Outcome[]): string[] {
  const badness = (each: Outcome): number => (Number.isNaN(each.errorMm) ? Number.POSITIVE_INFINITY : each.errorMm);
  return [...list]
    .sort((a, b) => badness(b) - badness(a))
    .slice(0, 10)
    .map(
      (each) =>
        `${each.label}: ${each.errorMm.toFixed(3)} mm, scale off by ${each.scaleError.toFixed(4)}, ${each.finding}${each.doubts.length > 0 ? ` (${each.doubts.join(' ')})` : ''}`,
    );
}

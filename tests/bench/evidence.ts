import { appendFileSync, mkdirSync, rmSync } from 'node:fs';
import type { Recipe, Relation } from '../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { type Features, featuresOf } from '../../src/core/judge/features.ts';
import { fitBestFaces, type PreparedScan } from '../../src/core/pipeline.ts';
import { prepared } from './pairs.ts';

/** `fine`: held out too, scanned as finely as seals usually are. */
export type SetName = 'reference' | 'heldOut' | 'fine';

/** One pair of the reference population: what it is, and all that the finding may rest on. */
export interface EvidenceRow {
  readonly set: SetName;
  readonly seed: number;
  readonly relation: Relation;
  readonly recipe: Pick<
    Recipe,
    'shape' | 'sizeMm' | 'motif' | 'coverage' | 'wear' | 'warpMm' | 'jitterMm' | 'vertices' | 'whole'
  >;
  readonly found: boolean;
  readonly significance: number;
  readonly overlap: number;
  readonly doubts: readonly string[];
  readonly scale: number;
  readonly scaleSd: number;
  readonly trueScale: number | null;
  readonly features: Features | null;
}

/** Pairs of one matrix or a copy by moulding, in the order in which relations take turns. */
const same: readonly Relation[] = [
  'same',
  'sisterImpressions',
  'same',
  'castOfImpression',
  'same',
  'recastMatrix',
  'same',
  'laterState',
  'same',
  'earlierState',
  'same',
];
/** Engraved by another hand. */
const different: readonly Relation[] = ['handCopy', 'stockMotif', 'handCopy', 'handCopy', 'stockMotif'];
/** Motifs that only the held-out pairs show. */
const heldOutMotifs = ['ship', 'tree', 'headFacing', 'fishes', 'hand'];
const referenceMotifs = [
  ...['figure', 'bird', 'eagle', 'lamb', 'lion', 'fleur', 'rosette', 'starAndCrescent', 'tower', 'keys'],
  ...['merchantMark', 'shieldOfArms'],
];

export const sizes = {
  reference: { same: 500, different: 510, seed: 100_000, motifs: referenceMotifs, vertices: [12_000, 18_000, 30_000] },
  heldOut: { same: 183, different: 155, seed: 200_000, motifs: heldOutMotifs, vertices: [12_000, 18_000, 30_000] },
  fine: { same: 200, different: 160, seed: 300_000, motifs: heldOutMotifs, vertices: [40_000, 50_000, 60_000] },
} as const;

/**
 * `npm run bench -- evidence [PART OF]`: the pairs of the population that fall to this part, one JSON line each. Every
 * engraved difference also brings unrelated pairs, its reference with earlier subjects, those of the same outline first: three in the reference set, in the
 * held-out one only every stock motif one, so that hand copies are more than a third of what does not match there.
 */
export async function evidenceRows(
  folder: string,
  part: number,
  of: number,
  say: (line: string) => void,
  sets: readonly SetName[] = ['heldOut', 'fine', 'reference'],
) {
  mkdirSync(folder, { recursive: true });
  const path = `${folder}/${sets.join('-')}-${part}.jsonl`;
  rmSync(path, { force: true });
  for (const set of sets) {
    const { same: nSame, different: nDifferent, seed } = sizes[set];
    const earlier: Earlier[] = [];
    const most = Math.max(nSame, nDifferent);
    for (let i = part; i < most; i += of) {
      const rows: EvidenceRow[] = [];
      if (i < nSame) rows.push(...(await rowsOf(set, seed + i, same[i % same.length], earlier)));
      if (i < nDifferent)
        rows.push(...(await rowsOf(set, seed + 50_000 + i, different[i % different.length], earlier)));
      for (const row of rows) appendFileSync(path, `${JSON.stringify(row)}\n`);
      if (((i - part) / of) % 10 === 0) say(`${set}: ${i} of ${most}`);
    }
  }
}

interface Earlier {
  readonly recipe: Recipe;
  readonly scan: PreparedScan;
}

async function rowsOf(set: SetName, seed: number, relation: Relation, earlier: Earlier[]): Promise<EvidenceRow[]> {
  const recipe = gradedRecipe(set, seed, relation);
  const pair = makePair(recipe);
  const reference = await prepared(pair.reference, 'reference');
  const subject = await prepared(pair.subject, 'subject');
  const rows = [rowOf(set, recipe, relation, reference, subject, pair.truth.scale)];
  if (different.includes(relation)) {
    const unlike = earlier.filter((one) => one.recipe.motif !== recipe.motif);
    unlike.sort((a, b) => unlikeness(a.recipe, recipe) - unlikeness(b.recipe, recipe));
    const most = set === 'reference' ? 3 : relation === 'stockMotif' ? 1 : 0;
    for (const one of unlike.slice(0, most)) rows.push(rowOf(set, one.recipe, 'unrelated', reference, one.scan, null));
  }
  earlier.push({ recipe, scan: subject });
  if (earlier.length > 16) earlier.shift();
  return rows;
}

const unlikeness = (a: Recipe, b: Recipe): number =>
  (a.shape === b.shape ? 0 : 1) + Math.abs(Math.log(a.sizeMm / b.sizeMm));

/** Graded difficulty: half of the face gone in one of five, worn to flatness, coarse and fine scans. */
export function gradedRecipe(set: SetName, seed: number, relation: Relation): Recipe {
  const { motifs, vertices } = sizes[set];
  const recipe = randomRecipe(seed, relation, {
    vertices: vertices[seed % 3],
    coverage: seed % 5 === 4 ? [0.2, 0.5] : [0.5, 1.2],
    wear: [0, 0.9],
    warpMm: [0.02, 0.3],
    noiseMm: [0.005, 0.02],
  });
  return { ...recipe, motif: motifs[seed % motifs.length] };
}

function rowOf(
  set: SetName,
  recipe: Recipe,
  relation: Relation,
  a: PreparedScan,
  b: PreparedScan,
  trueScale: number | null,
): EvidenceRow {
  const { fit, cut } = fitBestFaces(a, b);
  const { shape, sizeMm, motif, coverage, wear, warpMm, jitterMm, vertices, whole } = recipe;
  return {
    set,
    seed: recipe.seed,
    relation,
    recipe: { shape, sizeMm, motif, coverage, wear, warpMm, jitterMm, vertices, whole },
    found: fit.found,
    significance: fit.significance,
    overlap: fit.overlap,
    doubts: fit.doubts,
    scale: fit.models[1].scale,
    scaleSd: fit.models[1].scaleSd,
    trueScale,
    features: fit.found ? featuresOf(cut.reference.face, cut.subject.face, fit) : null,
  };
}

import type { Relation } from '../../sample-scans/generator/index.ts';
import { type Comparison, comparePrepared, type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { runPair } from '../bench/pairs.ts';
import { makePair, type PairRecipe } from '../populations/index.ts';
import { told } from './told.ts';

/** A pair of the second population, about 100 points across, taken through the whole way. */
export async function comparedOfSecond(
  seed: number,
  recipe: Pick<PairRecipe, 'question' | 'relation' | 'shape' | 'lip' | 'accidents' | 'imageLeft' | 'displacementUm'>,
): Promise<Comparison> {
  const { reference, subject, truth } = makePair(seed, { ...recipe, spacingMm: 0.25, sizeMm: 24, maxVertices: 14_000 });
  const prepared = (name: string, bytes: Uint8Array): Promise<PreparedScan> =>
    prepareScan({ name, bytes, unit: truth.unit, sha256: () => '' });
  return comparePrepared(
    await prepared('reference.ply', reference.bytes),
    await prepared('subject.ply', subject.bytes),
  );
}

/** The same of the first, worn and warped. */
export async function comparedOfFirst(seed: number, relation: Relation): Promise<Comparison> {
  const ranges = { vertices: 12_000, warpMm: [0.3, 0.3], noiseMm: [0.005, 0.008] } as const;
  const { comparison } = await runPair(seed, relation, ranges, { whole: false, coverage: 0.95, wear: 0.5 });
  return comparison;
}

/** Every figure of a comparison but those of its scans, which their own tests ask. */
export function figuresOf({ fit, difference, judgement }: Comparison): string {
  return `${told({ fit, difference, judgement }).join('\n')}\n`;
}

import type { PreparedScan, ScanInput } from '../../../src/core/pipeline.ts';
import { prepareScan } from '../../../src/core/pipeline.ts';

/** Two positives of one matrix: a broken impression and its cast, in either order, or two impressions, each broken by itself. */
export interface DescentPair {
  readonly copyIs: 'reference' | 'subject' | null;
  readonly scans: readonly [Pick<ScanInput, 'bytes' | 'unit'>, Pick<ScanInput, 'bytes' | 'unit'>];
  /** Share of the original's image that was gone when it was cast. */
  readonly lostShare: number;
  /** Size of the cast ÷ size of what it was cast from; 1 where nothing was cast. */
  readonly castSize: number;
}

export interface DescentCase {
  readonly seed: number;
  readonly isCast: boolean;
  readonly castFirst: boolean;
  /** Kinds and both scales, to 0.1 %, are stated. */
  readonly stated: boolean;
}

/** Two in three are casts, half of them as the reference; of half of all the scales are stated. */
export const descentCase = (seed: number): DescentCase => ({
  seed,
  isCast: seed % 3 !== 2,
  castFirst: (seed >> 1) % 2 === 0,
  stated: Math.floor(seed / 3) % 2 === 0,
});

/** What is stated of a scale, percent (1 σ), and from how many σ of the two a step of size is a witness. */
export const statedPercent = 0.1;
export const witnessSigma = 2;

export const hasWitness = ({ castSize }: DescentPair, { stated, isCast }: DescentCase): boolean =>
  stated && isCast && Math.abs(castSize - 1) > (witnessSigma * Math.SQRT2 * statedPercent) / 100;

export async function preparedOf({ scans, copyIs }: DescentPair, { stated }: DescentCase): Promise<PreparedScan[]> {
  const one = (k: 0 | 1, role: 'reference' | 'subject'): Promise<PreparedScan> =>
    prepareScan({
      name: `${role}.ply`,
      ...scans[k],
      sha256: () => '',
      ...(stated && { scaleUncertaintyPercent: statedPercent, kind: copyIs === role ? 'cast' : 'impression' }),
    });
  return [await one(0, 'reference'), await one(1, 'subject')];
}

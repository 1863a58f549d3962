import type { SizeTest } from '../compare/index.ts';
import type { WavelengthBand } from '../condition/index.ts';
import type { Sense } from '../face/index.ts';
import type { Evidence, SizeCaution, SizeSays, Verdict } from './types.ts';

/** What size and sharpness say of a copy: a cast, a recast matrix. */
export interface Descent {
  readonly verdict: Verdict;
  readonly evidence: readonly Evidence[];
  /** What size says against the plain reading of a finding of one matrix; null where it says nothing. */
  readonly caution: SizeCaution | null;
}

export const descentDefaults = {
  /** A band tells sharpness where the two agree at least so well in it. */
  leastCoherence: 0.5,
  /** Finest relief lower than this share of the coarse relief's height is blunter. */
  blunt: 0.8,
  /** No positive grows beyond its negative by more: plaster, the only material of the chain that grows at all. */
  mostGrown: 1.0035,
};

/**
 * Whether one of the two may be a copy of the other. Size speaks by the ranges of the materials; sharpness only
 * gives the direction, since a cast is never sharper than what it was cast from, and wear blunts as casting does.
 */
export function descentOf(
  reference: Sense,
  subject: Sense,
  size: SizeTest | undefined,
  bands: readonly WavelengthBand[],
  options = descentDefaults,
): Descent {
  if (!size) return { verdict: { code: 'notWeighed' }, evidence: [], caution: null };
  const sharpness = relativeSharpness(bands, options);
  const { favours, copyIs, ratio, sd } = size;
  const says: SizeSays = { favours, copyIs, oneSense: reference === subject, ratio, sd };
  return {
    verdict: { code: 'bySize', size: says, blunter: blunterOf(sharpness, options) },
    caution: sizeCaution(says, subject, options),
    evidence: [
      { code: 'size', ...sidesOf(favours), value: ratio, sd },
      ...(Number.isNaN(sharpness)
        ? []
        : [{ code: 'sharpness' as const, favours: 'neither' as const, over: 'neither' as const, value: sharpness }]),
    ],
  };
}

function sidesOf(favours: SizeTest['favours']): Pick<Evidence, 'favours' | 'over'> {
  if (favours === 'neither') return { favours: 'neither', over: 'neither' };
  return favours === 'direct' ? { favours: 'sameMatrix', over: 'copy' } : { favours: 'copy', over: 'sameMatrix' };
}

/** Gain of the finest octave that both show over that of the coarsest; NaN where there are not two. */
function relativeSharpness(bands: readonly WavelengthBand[], { leastCoherence }: typeof descentDefaults): number {
  const shown = bands.filter(({ coherence }) => coherence >= leastCoherence);
  return shown.length < 2 ? Number.NaN : shown[0].gain / shown[shown.length - 1].gain;
}

/**
 * Two cases that a reader of the finding alone would miss: size speaks for a copy; or the positive is larger than its
 * negative by more than any material grows, at 95 %, though nobody stated how true to scale the scans are.
 */
function sizeCaution(says: SizeSays, subject: Sense, { mostGrown }: typeof descentDefaults): SizeCaution | null {
  if (says.favours === 'copy') return { kind: 'copy', ...says };
  if (says.oneSense) return null;
  const { ratio } = says;
  const [grown, sd] = subject === 'relief' ? [ratio, says.sd] : [1 / ratio, says.sd / ratio ** 2];
  if (!(grown - 1.96 * sd > mostGrown)) return null;
  return { kind: 'grown', grownPercent: 100 * (grown - 1), sdPercent: 100 * sd };
}

function blunterOf(sharpness: number, { blunt }: typeof descentDefaults): 'reference' | 'subject' | null {
  if (sharpness < blunt) return 'subject';
  return sharpness > 1 / blunt ? 'reference' : null;
}

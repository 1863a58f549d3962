import type { SizeTest } from '../compare/index.ts';
import type { WavelengthBand } from '../condition/index.ts';
import type { Sense } from '../face/index.ts';
import type { Evidence } from './types.ts';

/** What size and sharpness say of a copy: a cast, a recast matrix. */
export interface Descent {
  readonly words: string;
  readonly evidence: readonly Evidence[];
  /** What size says against the plain reading of a finding of one matrix; null where it says nothing. */
  readonly caution: SizeCaution | null;
}

export interface SizeCaution {
  /** Stands beside the finding's own sentence. */
  readonly sentence: string;
  /** Stands first among its limits, with the numbers. */
  readonly limit: string;
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
  if (!size) return { words: 'not weighed', evidence: [], caution: null };
  const sharpness = relativeSharpness(bands, options);
  return {
    words: [sizeWords(size, reference, subject), ...sharpnessWords(sharpness, options)].join('; '),
    caution: sizeCaution(size, reference, subject, options),
    evidence: [
      {
        name: 'size',
        favours: size.favours === 'neither' ? 'neither' : size.favours === 'direct' ? 'sameMatrix' : 'copy',
        over: size.favours === 'neither' ? 'neither' : size.favours === 'direct' ? 'copy' : 'sameMatrix',
        value: size.ratio,
        sd: size.sd,
        unit: '',
        words:
          'size ratio subject to reference, its uncertainty (1 σ) with both scans’ scale, against the materials’ ranges',
      },
      ...(Number.isNaN(sharpness)
        ? []
        : [
            {
              name: 'sharpness',
              favours: 'neither' as const,
              over: 'neither' as const,
              value: sharpness,
              unit: '',
              words:
                'height of the finest relief that both show, subject to reference, over that of the coarse relief; a cast is no sharper than its original, and wear blunts alike',
            },
          ]),
    ],
  };
}

/** Gain of the finest octave that both show over that of the coarsest; NaN where there are not two. */
function relativeSharpness(bands: readonly WavelengthBand[], { leastCoherence }: typeof descentDefaults): number {
  const shown = bands.filter(({ coherence }) => coherence >= leastCoherence);
  return shown.length < 2 ? Number.NaN : shown[0].gain / shown[shown.length - 1].gain;
}

const copyNames = {
  reference: 'the reference would be the copy',
  subject: 'the subject would be the copy',
  either: 'either might be the copy',
} as const;

function sizeWords({ favours, copyIs, ratio, sd }: SizeTest, reference: Sense, subject: Sense): string {
  const measured = `size ratio subject to reference ${ratio.toFixed(4)} ± ${sd.toFixed(4)}`;
  const copy = reference === subject ? 'a cast of the one from the other' : 'a matrix recast from the impression';
  if (favours === 'copy') return `size speaks for ${copy}: ${copyNames[copyIs]} (${measured})`;
  if (favours === 'direct')
    return `size speaks against ${copy}; a copy that was moulded from the matrix, or a new impression, passes the same tests (${measured})`;
  return `size does not decide, and a faithful copy passes the same tests (${measured})`;
}

/**
 * Two cases that a reader of the finding alone would miss: size speaks for a copy; or the positive is larger than its
 * negative by more than any material grows, at 95 %, though nobody stated how true to scale the scans are.
 */
function sizeCaution(
  size: SizeTest,
  reference: Sense,
  subject: Sense,
  { mostGrown }: typeof descentDefaults,
): SizeCaution | null {
  if (size.favours === 'copy') {
    const words = sizeWords(size, reference, subject).replace(/^s/, 'S');
    return {
      sentence: `${words.replace(/ \(.*/, '')}.`,
      limit: `${words}. The score weighs one matrix and its copies against another die, and does not part them.`,
    };
  }
  if (reference === subject) return null;
  const [grown, sd] = subject === 'relief' ? [size.ratio, size.sd] : [1 / size.ratio, size.sd / size.ratio ** 2];
  if (!(grown - 1.96 * sd > mostGrown)) return null;
  const percent = (100 * (grown - 1)).toFixed(1);
  return {
    sentence: `But the positive is ${percent} % larger than the negative, and neither wax nor plaster grows so much: see the limits.`,
    limit: `The positive is ${percent} ± ${(100 * sd).toFixed(1)} % (1 σ) larger than the negative, and neither wax nor plaster grows so much: if both scans are true to scale, the negative would be a copy, cast from the positive or from one like it. State the scales’ uncertainty to have this weighed.`,
  };
}

function sharpnessWords(sharpness: number, { blunt }: typeof descentDefaults): string[] {
  if (sharpness < blunt)
    return ['the subject is the blunter of the two: if one is a copy of the other, the subject is'];
  if (sharpness > 1 / blunt)
    return ['the reference is the blunter of the two: if one is a copy of the other, the reference is'];
  return [];
}

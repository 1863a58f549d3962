import { componentsOf, median, quantile } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';

/** A letter that stands out among its neighbours on one face and not on the other: gone over again. */
export interface RecutLetter {
  readonly cells: Int32Array;
  readonly carriedBy: 'reference' | 'subject';
  /** How much higher it stands than on the other face, against what the other letters do, mm. */
  readonly gainMm: number;
  /** No other of the legend is as tall on its face or gains as much, and it stands higher than on the other face by a share of its height, not over a level. */
  readonly unequalled?: boolean;
}

export const letterDefaults = {
  leastAreaMm2: 0.6,
  mostAreaMm2: 40,
  leastLetters: 6,
  /** Its ratio of heights lies off the usual one by this much (in logarithm) and so many standard deviations of all letters. */
  leastOff: 0.28,
  leastSigma: 2.8,
  /** It stands this much over the usual height of the letters of the face that has it, and both together (in logarithm) at least so much. */
  leastOver: 1.08,
  leastBoth: 0.6,
  leastMm: 0.06,
  /** A letter's part smaller than this is no letter, mm². */
  leastLetterMm2: 1.8,
  /** Recut on the subject: it stands higher there than the reference would make it, by this factor: wear cannot. */
  leastSubject: 1.06,
  /** Recut on the reference is read only where letters usually keep this much: rubbing takes the tallest most. */
  leastKept: 0.75,
  /** … and where the subject's letter is there, at this share of its letters' usual height. */
  leastThere: 0.6,
};

/** Height of each letter on both faces: the mean of its upper third. */
export interface LetterHeight {
  readonly cells: Int32Array;
  readonly reference: number;
  readonly subject: number;
}

/** Connected raised parts of the legend's band, at least a letter's part in size, with data on both faces. */
export function letterHeights(
  relief: WearRelief,
  loss: LossField,
  band: Uint8Array,
  options = letterDefaults,
): LetterHeight[] {
  const { reference, subject, difference: d } = relief;
  const { height } = loss;
  const inBand = height.filter((_, i) => band[i] === 1 && reference.mask[i] === 1);
  const least = 0.35 * quantile(inBand, 0.93);
  const raised = Uint8Array.from(height, (value, i) => (band[i] && reference.mask[i] && value > least ? 1 : 0));
  const area = reference.pitch ** 2;
  const letters: LetterHeight[] = [];
  for (const cells of componentsOf(raised, reference.width)) {
    if (cells.length * area < options.leastAreaMm2 || cells.length * area > options.mostAreaMm2) continue;
    const seen = cells.filter((i) => subject.mask[i] === 1 && !Number.isNaN(d[i]));
    if (seen.length < 0.8 * cells.length || seen.length < 5) continue;
    letters.push({
      cells,
      reference: upper(Float32Array.from(seen, (i) => height[i])),
      subject: upper(Float32Array.from(seen, (i) => height[i] + d[i])),
    });
  }
  return letters;
}

function upper(values: Float32Array): number {
  const sorted = values.slice().sort();
  const top = sorted.subarray(Math.floor((2 * sorted.length) / 3));
  return top.reduce((sum, value) => sum + value, 0) / top.length;
}

/**
 * Letters recut on one of the two faces, `taken` cells left out. Of all letters the ratio subject ÷ reference of their
 * heights is taken. One that lies far above the usual ratio, and higher than the reference would make it, was gone over again before
 * the subject was made; one far below it, tall on the reference and there on the subject, since.
 */
export function recutLetters(
  relief: WearRelief,
  loss: LossField,
  band: Uint8Array,
  taken: Uint8Array,
  options = letterDefaults,
): RecutLetter[] {
  const letters = letterHeights(relief, loss, band, options).filter(({ subject }) => subject > 0.02);
  if (letters.length < options.leastLetters) return [];
  const ratios = letters.map(({ reference, subject }) => Math.log(subject / reference));
  const usual = median(ratios);
  const spread = Math.max(0.04, 1.4826 * median(ratios.map((ratio) => Math.abs(ratio - usual))));
  const usualReference = median(letters.map(({ reference }) => reference));
  const usualSubject = median(letters.map(({ subject }) => subject));
  const least = Math.max(options.leastOff, options.leastSigma * spread);
  return letters.flatMap((letter, k): RecutLetter[] => {
    const { cells, reference, subject } = letter;
    const off = ratios[k] - usual;
    if (Math.abs(off) < least || cells.filter((i) => taken[i]).length > 0.25 * cells.length) return [];
    const found: RecutLetter =
      off > 0
        ? { cells, carriedBy: 'subject', gainMm: subject - reference }
        : { cells, carriedBy: 'reference', gainMm: reference - subject / Math.exp(usual) };
    const over = off > 0 ? subject / usualSubject : reference / usualReference;
    const told =
      off > 0
        ? subject > options.leastSubject * reference
        : Math.exp(usual) > options.leastKept && subject > options.leastThere * usualSubject;
    const large = cells.length * relief.reference.pitch ** 2 > options.leastLetterMm2;
    const both = Math.abs(off) + Math.log(over) > options.leastBoth;
    return large && told && both && over > options.leastOver && found.gainMm > options.leastMm ? [found] : [];
  });
}

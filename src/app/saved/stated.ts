import {
  doubtWords,
  evidenceWords,
  findingSentence,
  freeMotionWords,
  limitWords,
  lineWords,
  readingWords,
  sizeWords,
} from '../../core/report/words/index.ts';
import type { ComparisonView, StatedResults } from '../../workers/browser/protocol.ts';

/** What is said and drawn of a comparison, as plain text and outlines: all that a file keeps of a judgement. */
export function statedOf(comparison: ComparisonView): StatedResults | null {
  if (comparison.stated) return comparison.stated;
  const { judgement, fit, difference } = comparison;
  if (!judgement) return null;
  const { strength, finding, limits, evidence, damage, wear } = judgement;
  return {
    sentence: findingSentence(judgement, comparison.stateSentence),
    strength: `${strength} (${finding})`,
    limits: limits.map(limitWords),
    ground: evidence.map(evidenceWords).map(({ name, words }) => `${name}: ${words}`),
    ...(comparison.grounds && { grounds: comparison.grounds.map(wordsOfGround) }),
    doubts: [...fit.doubts.map(doubtWords), ...fit.degenerate.map((motion) => freeMotionWords[motion])],
    size: (difference?.size.reading ?? []).map(sizeWords),
    marks: damage.map(({ id, shape, section, readings, outline }) => ({
      id,
      label: shape,
      words: [...(section ? [lineWords(section)] : []), ...readings.map(readingWords)],
      outline: pairsOf(outline),
    })),
    zones: wear.zones.map((zone) => ({ ...zone })),
    zoneOutlines: wear.zoneOutlines.map(({ zone, outlines }) => ({ zone, outlines: outlines.map(flat) })),
    areas: wear.areas.map(({ outlines, ...area }) => ({ ...area, outlines: outlines.map(flat) })),
  };
}

type GroundWords = NonNullable<StatedResults['grounds']>[number];

const wordsOfGround = ({ title, figure, says, against, overturn, how }: GroundWords): GroundWords => ({
  ...{ title, figure, says },
  ...{ against, overturn, how },
});

/** Whole micrometres are enough for what is drawn. */
const flat = (outline: ArrayLike<number>): number[] => Array.from(outline, (value) => Math.round(value * 1000) / 1000);

function pairsOf(outline: ArrayLike<number>): [number, number][] {
  const values = flat(outline);
  return Array.from({ length: Math.floor(values.length / 2) }, (_, i) => [values[2 * i], values[2 * i + 1]]);
}

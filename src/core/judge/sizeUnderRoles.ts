import type { SizeReading, SizeTest } from '../compare/index.ts';
import type { Asked } from './asked.ts';
import { leastNamed } from './question.ts';

/** Of a negative and a positive it is known which is which; of two alike there is nothing to know. */
export const rolesKnown = ({ question, confidence }: Pick<Asked, 'question' | 'confidence'>): boolean =>
  question !== 'madeFrom' || confidence >= leastNamed;

/** What the materials' chain asks for, which begins at the negative. */
const ofChain: ReadonlySet<SizeReading['code']> = new Set(['oneMatrix', 'recast', 'copyOfMatrix']);

/**
 * Size decides nothing while it is not sure which of the two is the negative: of wax that shrank by a hundredth in its matrix the same two
 * files, roles exchanged, are a positive a hundredth larger than its negative, as it is from a recast one. `known`: whether it is sure.
 */
export function sizeUnderRoles(size: SizeTest, known: boolean): SizeTest {
  if (known) return size;
  const weighed = size.reading.some(({ code }) => ofChain.has(code));
  const [ratio, ...others] = size.reading.filter(({ code }) => !ofChain.has(code));
  const reading = weighed ? [ratio, { code: 'rolesUnsure' as const }, ...others] : size.reading;
  return { ...size, favours: 'neither', copyIs: 'either', reading };
}

import type { SizeTest } from '../compare/index.ts';
import { sizeBesideWear } from './sizeBesideWear.ts';
import { rolesKnown, sizeUnderRoles } from './sizeUnderRoles.ts';
import type { Judgement } from './types.ts';

/** What the size says, held against what is known of the roles and what is left of the relief. */
export function sizeAsJudged(
  size: SizeTest,
  { wear, question, rolesConfidence }: Pick<Judgement, 'wear' | 'question' | 'rolesConfidence'>,
): SizeTest {
  const told = sizeUnderRoles(size, rolesKnown({ question, confidence: rolesConfidence }));
  return { ...told, reading: sizeBesideWear(told.reading, wear) };
}

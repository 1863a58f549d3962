import { featureReadings, rivals, type Spread } from '../../src/core/judge/scoreModel.ts';
import type { FittedScore } from './fitScore.ts';

/** The fitted score as the text of src/core/judge/scoreFigures.ts. */
export function printScore({ figures, offset }: FittedScore, counts: string): string {
  const number = (value: number): string => String(Number(value.toFixed(3)));
  const spread = (values: Spread): string => `[${values.map(number).join(', ')}]`;
  const rows = figures.map(({ same, against }, k) => {
    const sides = rivals.map(
      (name) => `${name}: { spread: ${spread(against[name].spread)}, weight: ${number(against[name].weight)} }`,
    );
    return `  // ${featureReadings[k].name}\n  { same: ${spread(same)}, against: { ${sides.join(', ')} } },`;
  });
  return [
    "import type { FeatureFigures, RivalName } from './scoreModel.ts';",
    '',
    '/**',
    ` * Figures of the score, in the order of \`featureReadings\`: ${counts}.`,
    ' * By `npm run bench -- evidence` and `figures`; how the pairs were made, and what they are not: docs/judge.md.',
    ' */',
    'export const scoreFigures: readonly FeatureFigures[] = [',
    ...rows,
    '];',
    '',
    `export const scoreOffset: Readonly<Record<RivalName, number>> = { ${rivals.map((name) => `${name}: ${number(offset[name])}`).join(', ')} };`,
    '',
  ].join('\n');
}

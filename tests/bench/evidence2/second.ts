import { prepareScan } from '../../../src/core/pipeline.ts';
import type { Kind } from '../../../src/core/scan/index.ts';
import { makePair, recipeAt } from '../../populations/index.ts';
import { keep } from './dev.ts';

const [from, count] = process.argv.slice(2).map(Number);
for (let i = from; i < from + count; i++) {
  const recipe = recipeAt(i);
  try {
    const pair = makePair(i, recipe);
    const scan = (s: typeof pair.reference, name: string, kind: Kind | undefined) =>
      prepareScan({
        name: `${name}.ply`,
        bytes: s.bytes,
        unit: pair.truth.unit === 'um' ? undefined : pair.truth.unit,
        kind,
        sha256: () => '',
      });
    const a = await scan(pair.reference, 'reference', process.env.KIND ? pair.truth.kinds.reference : undefined);
    const b = await scan(pair.subject, 'subject', process.env.KIND ? pair.truth.kinds.subject : undefined);
    const { relation, same, imageLeft, displacementUm } = pair.truth;
    keep(
      `h-${i}-${relation}`,
      `${relation}${displacementUm ? (displacementUm < 60 ? '30' : displacementUm < 150 ? '60' : '150') : ''}`,
      same,
      { ...recipe, left: imageLeft, jitterMm: displacementUm ? displacementUm / 1000 : undefined },
      a,
      b,
    );
  } catch (error) {
    console.log(i, recipe.relation, String(error).slice(0, 200));
  }
}

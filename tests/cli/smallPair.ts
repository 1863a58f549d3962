import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';

/** A simulated pair of some thousand vertices a scan, written into a folder: what `compare` is called with to make it quick. */
export function smallPair(folder: string, vertices = 5000, sizeMm = 32): string[] {
  const pair = makePair({ ...randomRecipe(11, 'same', { vertices }), whole: false, coverage: 1, sizeMm });
  const scans = (['reference', 'subject'] as const).map((side) => {
    const path = join(folder, `${side}.ply`);
    writeFileSync(path, writePly(pair[side].positions, pair[side].triangles));
    return path;
  });
  return [...scans, '--unit', 'mm'];
}

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';

/** A simulated pair of 5,000 vertices a scan, written into a folder: what `compare` is called with to make it quick. */
export function smallPair(folder: string): string[] {
  const pair = makePair({ ...randomRecipe(11, 'same', { vertices: 5000 }), whole: false, coverage: 1, sizeMm: 32 });
  const scans = (['reference', 'subject'] as const).map((side) => {
    const path = join(folder, `${side}.ply`);
    writeFileSync(path, writePly(pair[side].positions, pair[side].triangles));
    return path;
  });
  return [...scans, '--unit', 'mm'];
}

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';

/**
 * Two matrices with an impression each, and a cast of the first impression, as files of some thousand vertices, the first `count` of
 * them in the manifest; its path.
 */
export function fiveScans(folder: string, vertices = 3000, count = 5): string {
  const lines = ['file,shelfmark,kind,unit,cast_of,document_date'];
  for (const [k, seed] of [11, 16].entries()) {
    const pair = makePair({
      ...randomRecipe(seed, 'same', { vertices }),
      whole: false,
      coverage: 1,
      sizeMm: 30 + 4 * k,
    });
    for (const [side, kind] of [
      ['reference', 'matrix'],
      ['subject', 'impression'],
    ] as const) {
      writeFileSync(join(folder, `${kind}${k}.ply`), writePly(pair[side].positions, pair[side].triangles));
      lines.push(`${kind}${k}.ply,"Arch. ${k}, ${kind}",${kind},mm,,${kind === 'impression' ? '1310' : ''}`);
    }
    if (k === 0) {
      const { positions, triangles } = pair.subject;
      writeFileSync(
        join(folder, 'cast0.ply'),
        writePly(
          positions.map((value) => value * 0.999),
          triangles,
        ),
      );
      lines.push('cast0.ply,"Arch. 0, cast",cast,mm,impression0.ply,');
    }
  }
  const manifest = join(folder, 'manifest.csv');
  writeFileSync(manifest, `${lines.slice(0, count + 1).join('\n')}\n`);
  return manifest;
}

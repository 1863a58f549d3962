import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { compareDefaults } from '../../src/core/compare/compareFaces.ts';
import { differenceMap } from '../../src/core/compare/differenceMap.ts';
import { effectiveNeighbours, levelGrid } from '../../src/core/compare/levelOfDetection.ts';
import { subjectMotion } from '../../src/core/compare/motion.ts';
import { inRegions, significantCells } from '../../src/core/compare/significance.ts';
import { gaussianFilter, sigmaOfCutoff } from '../../src/core/geometry/index.ts';
import { measureWeighed, type PreparedScan, prepareScan, weighPrepared } from '../../src/core/pipeline.ts';
import { writePly } from '../../src/core/scan/index.ts';

/**
 * `npm run bench -- difference-coverage FROM COUNT`: how often the true difference lies within the level of detection of the measured one, cell by
 * cell after the one-scale similarity, and on how many faces any region's error is called significant. Pairs of one matrix of the first
 * generator, which knows the difference of each vertex and has no light inside wax; a row a pair, then a table.
 */
export async function differenceCoverage(from: number, count: number, say: (line: string) => void): Promise<void> {
  const rows: { within: number; alarmed: number }[] = [];
  say('seed,kinds,cells,within,alarmed,levelMm,rmsErrorMm');
  for (let seed = from; seed < from + count; seed++) {
    const row = await errorsOf(seed);
    if (!row) continue;
    rows.push(row);
    say(
      [
        seed,
        row.kinds,
        row.cells,
        row.within.toFixed(4),
        row.alarmed.toFixed(4),
        row.levelMm.toFixed(4),
        row.rmsMm.toFixed(4),
      ].join(','),
    );
  }
  const mean = rows.reduce((sum, { within }) => sum + within, 0) / rows.length;
  say(
    `\n${rows.length} pairs; within the level ${(100 * mean).toFixed(1)} % of the cells; faces with a false alarm ${rows.filter(({ alarmed }) => alarmed > 0).length}`,
  );
}

async function errorsOf(seed: number) {
  const { reference, subject } = makePair(randomRecipe(seed, 'same', { vertices: 20_000 }));
  const truth = subject.trueDifference;
  if (!truth) return null;
  const scan = (
    { positions, triangles, unit, kind }: typeof reference,
    name: string,
    material: string,
  ): Promise<PreparedScan> =>
    prepareScan({
      name,
      bytes: writePly(Float32Array.from(positions), triangles),
      unit,
      kind,
      material,
      sha256: () => '',
    });
  const pair = measureWeighed(
    weighPrepared(await scan(reference, 'reference.ply', 'brass'), await scan(subject, 'subject.ply', 'plaster')),
  );
  const { difference, fit, cut } = pair;
  if (!difference?.level) return null;
  const { face } = cut.reference;
  const error = difference.perVertexMm.map((value, i) => value - truth[i]);
  const { pitch } = difference.map;
  const cells = differenceMap(face, cut.subject.mesh, subjectMotion(face, fit.models[1]), error, pitch);
  const map = gaussianFilter(cells, compareDefaults.meanCells * pitch);
  const level = levelGrid(map, face.relief, { ...difference.level, covariance: fit.covariance });
  const meanCells = effectiveNeighbours(sigmaOfCutoff(compareDefaults.meanCells * pitch), pitch, pitch);
  const alarms = inRegions(significantCells(map, level), map.width, meanCells);
  let [n, within, alarmed, squares] = [0, 0, 0, 0];
  for (let i = 0; i < map.z.length; i++) {
    if (!map.mask[i]) continue;
    n++;
    squares += map.z[i] ** 2;
    if (Math.abs(map.z[i]) <= level.z[i]) within++;
    if (alarms[i]) alarmed++;
  }
  return {
    kinds: `${reference.kind}-${subject.kind}`,
    cells: n,
    within: within / n,
    alarmed: alarmed / n,
    levelMm: difference.levelOfDetectionMm,
    parts: JSON.stringify(difference.level),
    lens: [face.noiseLengthMm, cut.subject.face.noiseLengthMm, pitch, reference.kind],
    rmsMm: Math.sqrt(squares / n),
  };
}

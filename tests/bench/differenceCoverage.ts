import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import type { GeneratedScan, Recipe } from '../../sample-scans/generator/types.ts';
import { compareDefaults } from '../../src/core/compare/compareFaces.ts';
import { depthsOf } from '../../src/core/compare/depths.ts';
import { differenceMap } from '../../src/core/compare/differenceMap.ts';
import { levelGrid } from '../../src/core/compare/levelOfDetection.ts';
import { subjectMotion } from '../../src/core/compare/motion.ts';
import { inRegions, significantCells } from '../../src/core/compare/significance.ts';
import { modelOf } from '../../src/core/fit/index.ts';
import { gaussianFilter, type HeightGrid } from '../../src/core/geometry/index.ts';
import {
  type Measured,
  measureWeighed,
  type PreparedScan,
  prepareScan,
  weighPrepared,
} from '../../src/core/pipeline.ts';
import { writePly } from '../../src/core/scan/index.ts';

/**
 * `npm run bench -- difference-coverage FROM COUNT`: how often the true difference lies within the level of detection of the measured one, cell by
 * cell of the map that is shown, and on how many faces any region's error is called significant. Pairs of one matrix of the first
 * generator, which knows the difference of each vertex and has no light inside wax; a row a pair, then a table.
 */
export async function differenceCoverage(from: number, count: number, say: (line: string) => void): Promise<void> {
  const rows: { within: number; alarmed: number }[] = [];
  say('seed,kinds,model,cells,within,alarmed,levelMm,rmsErrorMm');
  for (let seed = from; seed < from + count; seed++) {
    const row = await errorsOf(randomRecipe(seed, 'same', { vertices: 20_000 }));
    if (!row) continue;
    rows.push(row);
    const { kinds, model, cells, within, alarmed, levelMm, rmsMm } = row;
    say(
      [seed, kinds, model, cells, within.toFixed(4), alarmed.toFixed(4), levelMm.toFixed(4), rmsMm.toFixed(4)].join(
        ',',
      ),
    );
  }
  const mean = rows.reduce((sum, { within }) => sum + within, 0) / rows.length;
  say(
    `\n${rows.length} pairs; within the level ${(100 * mean).toFixed(1)} % of the cells; faces with a false alarm ${rows.filter(({ alarmed }) => alarmed > 0).length}`,
  );
}

/** What the map shows that is not so. */
async function errorsOf(recipe: Recipe) {
  const { reference, subject, pair } = await measuredPair(recipe);
  const { difference, fit, cut } = pair;
  const truth = fit.chosen === 'smoothWarp' ? await withoutNoise(recipe, pair) : subject.trueDifference;
  if (!difference?.level || !truth) return null;
  const { face } = cut.reference;
  const shown = difference.perVertexWarpedMm ?? difference.perVertexMm;
  const error = shown.map((value, i) => value - truth[i]);
  const { pitch } = difference.map;
  const motion = subjectMotion(face, modelOf(fit, fit.chosen));
  const map = gaussianFilter(
    differenceMap(face, cut.subject.mesh, motion, error, pitch),
    compareDefaults.meanCells * pitch,
  );
  const level = levelGrid(map, face.relief, { ...difference.level, covariance: fit.covariance });
  const alarms = inRegions(significantCells(map, level), map.width, compareDefaults.sampleCells);
  return {
    kinds: `${reference.kind}-${subject.kind}`,
    model: fit.chosen,
    levelMm: difference.levelOfDetectionMm,
    ...counted(map, level, alarms),
  };
}

function counted(map: HeightGrid, level: HeightGrid, alarms: Uint8Array) {
  let [cells, within, alarmed, squares] = [0, 0, 0, 0];
  for (let i = 0; i < map.z.length; i++) {
    if (!map.mask[i]) continue;
    cells++;
    squares += map.z[i] ** 2;
    if (Math.abs(map.z[i]) <= level.z[i]) within++;
    if (alarms[i]) alarmed++;
  }
  return { cells, within: within / cells, alarmed: alarmed / cells, rmsMm: Math.sqrt(squares / cells) };
}

async function measuredPair(recipe: Recipe) {
  const { reference, subject } = makePair(recipe);
  const scans = [await prepared(reference, 'brass'), await prepared(subject, 'plaster')] as const;
  return { reference, subject, pair: measureWeighed(weighPrepared(...scans)) };
}

const prepared = ({ positions, triangles, unit, kind }: GeneratedScan, material: string): Promise<PreparedScan> =>
  prepareScan({
    name: `${kind}.ply`,
    bytes: writePly(Float32Array.from(positions), triangles),
    unit,
    kind,
    material,
    sha256: () => '',
  });

/**
 * Of a warp no truth is known: what is left under it depends on which warp it is. So the truth is what the same two objects, scanned without
 * noise, differ by under the warp that they are given then, vertex by vertex.
 */
async function withoutNoise(recipe: Recipe, { fit: noisy }: Measured): Promise<Float32Array | null> {
  const { cut, fit } = (await measuredPair({ ...recipe, noiseMm: 0 })).pair;
  if (!fit.found) return null;
  return depthsOf(cut.reference, cut.subject, { ...fit, chosen: noisy.chosen }).chosen;
}

import { makePair as makeFirst } from '../../sample-scans/generator/node.ts';
import { bit, mmPerUnit } from '../../sample-scans/generator/types.ts';
import type { Face } from '../../src/core/face/index.ts';
import { apply, columnOf, rowOf, type Vec3 } from '../../src/core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { ScanError, type Unit, writePly } from '../../src/core/scan/index.ts';
import { conditionCode, makePair, recipeAt } from '../populations/index.ts';
import { firstRecipe } from './evidence2/firstPair.ts';
import { share } from './table.ts';

/** A scan whose printed or engraved vertices are known. */
interface KnownScan {
  readonly label: string;
  readonly bytes: Uint8Array;
  readonly unit: Unit;
  readonly positions: Float32Array | Float64Array;
  /** Null of what belongs to neither, as a spike. */
  readonly isImage: (vertex: number) => boolean | null;
}

interface Bounds {
  /** Share of the image's vertices that the image found holds, and of the cells of that image that none of the true one lie in. */
  readonly held: number;
  readonly foreign: number;
}

/**
 * `npm run bench -- image-bounds FROM COUNT first|second`: the image that is found of each scan of so many recipes against what was engraved or
 * printed, vertex by vertex (docs/face.md).
 */
export async function imageBounds(from: number, count: number, generator: string, say: (line: string) => void) {
  const all: Bounds[] = [];
  for (let seed = from; seed < from + count; seed++)
    for (const scan of generator === 'second' ? ofSecond(seed) : ofFirst(seed)) {
      const bounds = await boundsOf(scan);
      say(
        `${scan.label}: ${bounds ? `held ${bounds.held.toFixed(3)}, foreign ${bounds.foreign.toFixed(3)}` : 'no face'}`,
      );
      if (bounds) all.push(bounds);
    }
  const mean = (of: (bounds: Bounds) => number): string =>
    (all.reduce((sum, one) => sum + of(one), 0) / all.length).toFixed(3);
  say(
    `| images a fifth and more of which is none | ${share(all.filter(({ foreign }) => foreign >= 0.2).length, all.length)} |`,
  );
  say(`| images that lack a tenth and more | ${share(all.filter(({ held }) => held <= 0.9).length, all.length)} |`);
  say(`| mean share that is none; mean share held | ${mean(({ foreign }) => foreign)}; ${mean(({ held }) => held)} |`);
}

function ofFirst(seed: number): KnownScan[] {
  const pair = makeFirst(firstRecipe(seed));
  return (['reference', 'subject'] as const).map((role) => {
    const { positions, triangles, unit, bits } = pair[role];
    return {
      label: `${seed} ${role} ${pair.recipe.relation}`,
      bytes: writePly(positions, triangles),
      unit,
      positions,
      isImage: (i) =>
        bits[i] & bit.spike ? null : (bits[i] & bit.face) > 0 && !(bits[i] & (bit.lip | bit.wall | bit.back)),
    };
  });
}

function ofSecond(seed: number): KnownScan[] {
  const { reference, subject, truth } = makePair(seed, recipeAt(seed));
  return Object.entries({ reference, subject }).map(([role, { bytes, positions, conditionPerVertex }]) => ({
    label: `${seed} ${role} ${truth.relation}`,
    bytes,
    unit: truth.unit,
    positions,
    isImage: (i) => conditionPerVertex[i] !== conditionCode.lip && conditionPerVertex[i] !== conditionCode.body,
  }));
}

async function boundsOf({ bytes, unit, positions, isImage }: KnownScan): Promise<Bounds | null> {
  const scan = await prepareScan({ name: 'scan.ply', bytes, unit, sha256: () => '' }).catch(noFace);
  if (!scan) return null;
  const cellOf = cellFinder(scan, mmPerUnit[unit as keyof typeof mmPerUnit] ?? 0.001);
  const { image } = scan.face;
  const [own, other] = [new Float32Array(image.mask.length), new Float32Array(image.mask.length)];
  let [all, held] = [0, 0];
  for (let i = 0; i < positions.length / 3; i++) {
    const printed = isImage(i);
    if (printed === null) continue;
    if (printed) all++;
    const cell = cellOf(positions.subarray(3 * i, 3 * i + 3));
    if (cell < 0) continue;
    (printed ? own : other)[cell]++;
    if (printed) held += image.mask[cell];
  }
  let [cells, foreign] = [0, 0];
  for (let i = 0; i < own.length; i++) {
    if (!image.mask[i] || own[i] + other[i] === 0) continue;
    cells++;
    if (other[i] > own[i]) foreign++;
  }
  return { held: held / Math.max(1, all), foreign: foreign / Math.max(1, cells) };
}

/** The cell of the relief map that a place of the file lies in; −1 beside it, or far above or below the face. */
function cellFinder({ scan, face }: PreparedScan, mm: number): (place: ArrayLike<number>) => number {
  const { relief }: Face = face;
  return (place) => {
    const [x, y, z] = apply(
      face.faceFromScan,
      Array.from(place, (v, k) => v * mm - scan.mesh.offset[k]) as unknown as Vec3,
    );
    const [column, row] = [Math.round(columnOf(relief, x)), Math.round(rowOf(relief, y))];
    if (column < 0 || row < 0 || column >= relief.width || row >= relief.height) return -1;
    const i = row * relief.width + column;
    return relief.mask[i] && Math.abs(relief.z[i] - z) < 4 * relief.pitch ? i : -1;
  };
}

function noFace(error: unknown): null {
  if (error instanceof ScanError && error.code === 'noFace') return null;
  throw error;
}

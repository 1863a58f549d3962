import type { Chance } from './chance.ts';
import type { Drawing } from './drawing.ts';
import { type Lattice, randomSurface, smooth, spread } from './lattice.ts';
import type { Made } from './made.ts';
import { distanceOutside } from './outline.ts';
import { byHand, type Stroke, sweep } from './strokes.ts';
import { conditionCode } from './types.ts';

/**
 * Cuts a matrix: tools swept along the strokes of the drawing, fine strokes into the floor of the broad ones, on a field
 * that is polished but not flat; beyond the outline a bevel falls away. `chance` is the hand's: two cuttings of one drawing differ.
 */
export function cutMatrix(
  drawing: Drawing,
  lattice: Lattice,
  chance: Chance,
  outside = distanceOutside(drawing.outline, lattice),
): Made {
  const { outline } = drawing;
  const z = new Float32Array(outside.length);
  engrave(lattice, z, [...drawing.rest, ...drawing.legend], chance);
  polishField(lattice, z, outline.halfHeight, chance.branch('field'));
  const condition = new Uint8Array(z.length);
  const piece = new Uint8Array(z.length);
  const flat = chance.range(0.2, 0.8);
  const bevel = chance.range(0.8, 2.2);
  for (let i = 0; i < z.length; i++) {
    const e = outside[i];
    if (e < flat + 1.2) piece[i] = 1;
    if (e <= 0) continue;
    condition[i] = conditionCode.body;
    z[i] += bevel * Math.max(0, e - flat * 0.5);
  }
  return {
    lattice,
    outline,
    outside,
    z: smooth(lattice, z, 0.55 * lattice.pitch),
    condition,
    negative: true,
    edgeMm: flat * 0.5,
    scale: [1, 1, 1],
    bends: [],
    marks: [],
    piece,
    thicknessMm: chance.range(3, 6),
  };
}

/** Adds the strokes to the surface as one hand cuts them. */
export function engrave(lattice: Lattice, z: Float32Array, strokes: readonly Stroke[], chance: Chance): void {
  const body = new Float32Array(z.length);
  const detail = new Float32Array(z.length);
  const unsteady = chance.range(0.004, 0.012);
  const chatter = chance.range(0.02, 0.06);
  for (const stroke of strokes)
    sweep(lattice, stroke.detail ? detail : body, byHand(stroke, chance, 0.35, unsteady, chatter));
  for (let i = 0; i < z.length; i++) z[i] += body[i] + (body[i] > 0 ? detail[i] : 0.4 * detail[i]);
}

/** Unevenness of a few µm over some millimetres, and the traces of the stone. */
function polishField(lattice: Lattice, z: Float32Array, halfHeight: number, chance: Chance): void {
  const extent = halfHeight * 1.6 + 8;
  const uneven = randomSurface(chance, chance.range(2, 6), extent);
  const amplitude = chance.range(0.003, 0.012);
  const field = spread(lattice, 0.4, uneven);
  for (let i = 0; i < z.length; i++) z[i] += amplitude * field[i];
  const scratches = new Float32Array(z.length);
  const direction = chance.range(0, Math.PI);
  for (let k = chance.whole(30); k > 0; k--) {
    const angle = direction + 0.3 * chance.gauss();
    const x = chance.range(-halfHeight, halfHeight);
    const y = chance.range(-halfHeight, halfHeight);
    const reach = chance.range(1, halfHeight);
    const ends = [-reach / 2, reach / 2];
    sweep(lattice, scratches, {
      x: ends.map((t) => x + t * Math.cos(angle)),
      y: ends.map((t) => y + t * Math.sin(angle)),
      half: [0.08, 0.08],
      depth: [0.004, chance.range(0.004, 0.012)],
      section: 'v',
      detail: false,
      group: -1,
    });
  }
  for (let i = 0; i < z.length; i++) z[i] += scratches[i];
}

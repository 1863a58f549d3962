import { apply, compose, invert, type Similarity } from '../../../src/core/geometry/index.ts';
import { type Chance, chanceOf } from '../../populations/chance.ts';
import { type Lattice, nearCells, ramp, valueAt } from '../../populations/lattice.ts';
import { type Bend, type Made, placeOf } from '../../populations/made.ts';
import { type Scanned, type Scanning, scanOf } from '../../populations/scanning.ts';
import { tell } from '../../populations/story.ts';

/**
 * What happened between two dates. `loss`: 0.5 mm³ on 2 to 10 mm²; `thin`: 30 µm on 4 mm²; `deposit`: the same, added;
 * `crack`: a new one, 0.15 to 0.3 mm wide; `grown`: an old one that became longer; `cleaned`: a third of the face lower by 40 µm.
 */
export const happenings = ['none', 'loss', 'thin', 'deposit', 'crack', 'grown', 'cleaned'] as const;
export type Happening = (typeof happenings)[number];

/** One object at two dates, scanned anew each time, and what only its maker knows. */
export interface TwoDates {
  readonly earlier: Scanned;
  readonly later: Scanned;
  /** A second scan of each, where asked for. */
  readonly repeats: { readonly earlier: Scanned; readonly later: Scanned } | null;
  readonly truth: ChangeTruth;
}

export interface ChangeTruth {
  /** Rigid: the later file to the earlier file, mm. */
  readonly earlierFromLater: Similarity;
  /** Volume of material added (positive) or taken away, mm³, and where it lies. */
  readonly volumeMm3: number;
  readonly areaMm2: number;
  /** Middle of the change in the earlier file, mm; null where nothing happened. */
  readonly place: readonly number[] | null;
  /** Farthest that the change reaches from its middle, mm. */
  readonly reachMm: number;
  readonly lengthMm: number;
  readonly spacingMm: readonly [number, number];
}

export interface Asked {
  readonly repeats?: boolean;
  readonly negative?: boolean;
  readonly noiseUm?: number;
  readonly sizeMm?: number;
  readonly maxVertices?: number;
}

/** The same for the same seed. The scanner: white noise of 10 µm, a third of it common to neighbours, scale to 0.05 %, bent by 2 µm. */
export function twoDates(seed: number, happening: Happening, asked: Asked = {}): TwoDates {
  const chance = chanceOf(`two dates ${seed}`);
  const before = objectOf(chance.branch('object'), asked.negative ?? chance.yes(0.2), asked.sizeMm);
  const { first, second, layer, path } = changed(before, happening, chance.branch('change'));
  const support = chance.choose(['trimmed', 'table', 'closed'] as const);
  const spacing = chance.range(0.07, 0.14);
  const scan = (made: Made, name: string): Scanned => {
    const own = chance.branch(name);
    const spacingMm = spacing * own.range(0.8, 1.25);
    const how: Scanning = {
      support,
      spacingMm,
      noiseUm: asked.noiseUm ?? 10,
      unit: 'mm',
      maxVertices: asked.maxVertices ?? 110_000,
      correlated: { share: 0.33, lengthMm: 3 * spacingMm },
    };
    return scanOf(seenBy(made, own.branch('scanner')), how, own);
  };
  const [earlier, later] = [scan(first, 'earlier'), scan(second, 'later')];
  const repeats = asked.repeats ? { earlier: scan(first, 'earlier again'), later: scan(second, 'later again') } : null;
  return { earlier, later, repeats, truth: truthOf(first, layer, path, earlier, later) };
}

/** A seal of wax, or its matrix, 14 to 50 mm, with whatever accidents it has. */
function objectOf(chance: Chance, negative: boolean, statedMm: number | undefined): Made {
  const drawnMm = chance.logRange(14, 50);
  const sizeMm = statedMm ?? drawnMm;
  const story = tell(
    {
      question: 'negativePositive',
      relation: 'same',
      lip: 'some',
      accidents: 'some',
      imageLeft: 1,
      spacingMm: 0.1,
      sizeMm,
    },
    chance,
  );
  return negative ? story.reference.made : story.subject.made;
}

/** The scanner's own scale and bending. */
function seenBy(made: Made, chance: Chance): Made {
  const scale = 1 + 0.0005 * chance.gauss();
  const k = Math.PI / made.outline.halfHeight;
  const waves = [0, 1].map(() => ({
    angle: chance.range(0, Math.PI),
    phase: chance.range(0, 6),
    size: 0.002 * chance.gauss(),
  }));
  const bend: Bend = (x, y, out) => {
    for (const { angle, phase, size } of waves)
      out[2] += size * Math.sin(0.6 * k * (x * Math.cos(angle) + y * Math.sin(angle)) + phase);
  };
  const [sx, sy, sz] = made.scale;
  return { ...made, scale: [sx * scale, sy * scale, sz * scale], bends: [...made.bends, bend] };
}

/** The object before and after, the heights that were added, mm, and the course of a crack. */
function changed(made: Made, happening: Happening, chance: Chance) {
  const layer = new Float32Array(made.z.length);
  const [x, y] = placeInside(made, chance);
  let first = made;
  let path: number[] = [];
  if (happening === 'loss') blob(made, layer, x, y, chance.range(2, 9), 0.5, chance);
  if (happening === 'thin' || happening === 'deposit') blob(made, layer, x, y, 4, 0.03 * 4, chance);
  if (happening === 'cleaned') wide(made, layer, chance);
  if (happening === 'crack' || happening === 'grown') {
    path = course(made, x, y, chance);
    const half = chance.range(0.075, 0.15);
    const depth = chance.range(0.1, 0.25);
    if (happening === 'crack') groove(made.lattice, layer, path, half, depth);
    else {
      const middle = 2 * Math.floor(path.length / 4);
      const old = new Float32Array(layer.length);
      groove(made.lattice, old, path.slice(0, middle + 2), half, depth);
      groove(made.lattice, layer, path, half, depth);
      for (let i = 0; i < layer.length; i++) layer[i] = Math.min(0, layer[i] - old[i]);
      first = { ...made, z: added(made, old) };
      path = path.slice(middle);
    }
  }
  // A loss lowers what faces outward: on a negative the common surface goes up.
  const sign = (happening === 'deposit' ? -1 : 1) * (made.negative ? -1 : 1);
  for (let i = 0; i < layer.length; i++) layer[i] *= sign;
  if (first !== made && made.negative) {
    const old = first.z.map((z, i) => made.z[i] - (z - made.z[i]));
    first = { ...made, z: old };
  }
  return { first, second: { ...first, z: added(first, layer) }, layer, path };
}

const added = (made: Made, layer: Float32Array): Float32Array => made.z.map((z, i) => z + layer[i]);

function placeInside({ outline, lattice, outside }: Made, chance: Chance): [number, number] {
  for (let tries = 0; tries < 200; tries++) {
    const x = outline.halfWidth * chance.range(-0.9, 0.9);
    const y = outline.halfHeight * chance.range(-0.9, 0.9);
    if (valueAt(lattice, outside, x, y) < -2.2) return [x, y];
  }
  return [0, 0];
}

/** Lowers a ragged patch of the area by the volume, mm² and mm³; its edge falls over a quarter of its radius at most. */
function blob(
  { lattice, outside }: Made,
  layer: Float32Array,
  x: number,
  y: number,
  areaMm2: number,
  volumeMm3: number,
  chance: Chance,
) {
  const radius = Math.sqrt(areaMm2 / Math.PI);
  const lobes = [2, 3, 5].map((n) => ({ n, phase: chance.range(0, 6.3), size: chance.range(0, 0.3 / n) }));
  const edge = (angle: number): number =>
    radius * (1 + lobes.reduce((sum, { n, phase, size }) => sum + size * Math.cos(n * angle + phase), 0));
  const soft = chance.range(0.1, 0.25) * radius;
  let sum = 0;
  nearCells(lattice, x, y, 2 * radius, (i, cx, cy) => {
    if (outside[i] > 0) return;
    const r = Math.hypot(cx - x, cy - y);
    layer[i] = -(1 - ramp(r, edge(Math.atan2(cy - y, cx - x)) - soft, edge(Math.atan2(cy - y, cx - x))));
    sum -= layer[i];
  });
  const height = volumeMm3 / (sum * lattice.pitch ** 2);
  for (let i = 0; i < layer.length; i++) layer[i] *= height;
}

/** A third of the face, on one side of a line. */
function wide({ lattice, outline, outside }: Made, layer: Float32Array, chance: Chance): void {
  const angle = chance.range(0, 2 * Math.PI);
  const from = 0.25 * outline.halfHeight;
  for (let row = 0, i = 0; row < lattice.height; row++)
    for (let column = 0; column < lattice.width; column++, i++) {
      if (outside[i] > 0) continue;
      const x = lattice.left + column * lattice.pitch;
      const y = lattice.bottom + row * lattice.pitch;
      layer[i] = -0.04 * ramp(x * Math.cos(angle) + y * Math.sin(angle), from, from + 0.6);
    }
}

/** A wandering course of 5 to 12 mm that stays on the image, x, y pairs. */
function course({ lattice, outside }: Made, x: number, y: number, chance: Chance): number[] {
  const path = [x, y];
  let heading = chance.range(0, 2 * Math.PI);
  const steps = Math.round(chance.range(5, 12) / 0.4);
  for (let k = 0; k < steps; k++) {
    heading += 0.2 * chance.gauss();
    const [px, py] = [path[path.length - 2] + 0.4 * Math.cos(heading), path[path.length - 1] + 0.4 * Math.sin(heading)];
    if (valueAt(lattice, outside, px, py) > -0.8) break;
    path.push(px, py);
  }
  return path.length >= 24
    ? path
    : [...path, ...Array.from({ length: 10 }, (_, k) => [x - 0.3 * (k + 1), y]).flat()].slice(0, 24);
}

/** A V along the course: −depth at its middle, 0 at `half` to either side, its ends tapering over a millimetre. */
function groove(lattice: Lattice, layer: Float32Array, path: readonly number[], half: number, depth: number): void {
  for (let k = 0; k + 3 < path.length; k += 2) {
    const [ax, ay, bx, by] = path.slice(k, k + 4);
    const length = Math.hypot(bx - ax, by - ay);
    nearCells(lattice, (ax + bx) / 2, (ay + by) / 2, length / 2 + half, (i, x, y) => {
      const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length ** 2));
      const off = Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
      layer[i] = Math.min(layer[i], -depth * Math.max(0, 1 - off / half));
    });
  }
}

function truthOf(
  made: Made,
  layer: Float32Array,
  path: readonly number[],
  earlier: Scanned,
  later: Scanned,
): ChangeTruth {
  const { lattice } = made;
  const cell = lattice.pitch ** 2;
  let [sum, touched, mx, my, weight, reach] = [0, 0, 0, 0, 0, 0];
  const at = (i: number): [number, number] => [
    lattice.left + (i % lattice.width) * lattice.pitch,
    lattice.bottom + Math.floor(i / lattice.width) * lattice.pitch,
  ];
  for (let i = 0; i < layer.length; i++) {
    if (layer[i] === 0) continue;
    const [x, y] = at(i);
    sum += layer[i];
    touched++;
    weight += Math.abs(layer[i]);
    mx += x * Math.abs(layer[i]);
    my += y * Math.abs(layer[i]);
  }
  if (weight > 0) [mx, my] = [mx / weight, my / weight];
  for (let i = 0; i < layer.length; i++)
    if (layer[i] !== 0) reach = Math.max(reach, Math.hypot(at(i)[0] - mx, at(i)[1] - my));
  const out = new Float64Array(3);
  placeOf(made, mx, my, valueAt(lattice, made.z, mx, my), out, 0);
  let length = 0;
  for (let k = 2; k + 1 < path.length; k += 2) length += Math.hypot(path[k] - path[k - 2], path[k + 1] - path[k - 1]);
  return {
    earlierFromLater: compose(earlier.fileFromObject, invert(later.fileFromObject)),
    volumeMm3: (made.negative ? -1 : 1) * sum * cell * made.scale[0] * made.scale[1] * made.scale[2],
    areaMm2: touched * cell,
    place: weight > 0 ? apply(earlier.fileFromObject, [out[0], out[1], out[2]]) : null,
    reachMm: reach,
    lengthMm: length,
    spacingMm: [earlier.spacingMm, later.spacingMm],
  };
}

import { emptyGrid, type HeightGrid, type Random, sampleGrid, xOf, yOf } from '../../../src/core/geometry/index.ts';

/** What may happen to an object, or to its scan, without another matrix. */
export const changes = ['regridded', 'cut', 'pits', 'lip', 'table', 'dirt', 'slip', 'sector'] as const;
export type Change = (typeof changes)[number];

/** The face that something happens to: its size and the root mean square of its detail, mm; 1 where its design stands up, −1 where it is sunk. */
export interface Struck {
  readonly sizeMm: number;
  readonly depthMm: number;
  readonly up: 1 | -1;
}

type Height = (x: number, y: number) => number;

/**
 * A face's relief with one thing more, sampled anew on a turned grid of another pitch. Lengths are shares of the face's size, heights multiples of
 * its detail: a cut across it 0.04 wide and 8 deep; 45 pits and bumps of 0.005 to 0.02; a lip from 0.88 of the radius on; a table under it and round
 * it; five lumps of 0.04 to 0.08; a second strike 0.01 to 0.04 off and half as deep; a sector of 45° away.
 */
export function changed(relief: HeightGrid, change: Change, face: Struck, random: Random): HeightGrid {
  const { sizeMm: size } = face;
  const turn = random.between(0, 2 * Math.PI);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const wide = size * (change === 'table' ? 0.9 : 0.75);
  const out = emptyGrid(-wide, wide, -wide, wide, relief.pitch * random.between(1.05, 1.2));
  const [cx, cy] = middleOf(relief);
  const height = heightOf(relief, change, face, random, cx, cy);
  for (let i = 0; i < out.z.length; i++) {
    const [u, v] = [xOf(out, i % out.width), yOf(out, Math.floor(i / out.width))];
    const h = height(cx + cos * u - sin * v, cy + sin * u + cos * v);
    if (Number.isNaN(h)) continue;
    out.z[i] = h;
    out.mask[i] = 1;
  }
  return out;
}

/** One half of a face, by the sign of its x, less a strip along the middle. */
export function halfOf(relief: HeightGrid, side: 1 | -1, { sizeMm }: Struck): HeightGrid {
  const [cx] = middleOf(relief);
  const mask = relief.mask.map((there, i) =>
    there && side * (xOf(relief, i % relief.width) - cx) > 0.01 * sizeMm ? 1 : 0,
  );
  return { ...relief, mask };
}

function heightOf(relief: HeightGrid, change: Change, face: Struck, random: Random, cx: number, cy: number): Height {
  const { sizeMm: size, depthMm: depth, up } = face;
  const plain: Height = (x, y) => sampleGrid(relief, x, y);
  const added =
    (more: Height): Height =>
    (x, y) =>
      plain(x, y) + more((x - cx) / size, (y - cy) / size);
  switch (change) {
    case 'regridded':
      return plain;
    case 'cut': {
      const [angle, off] = [random.between(0, Math.PI), random.between(-0.1, 0.1)];
      const from: Height = (p, q) => Math.abs(p * Math.cos(angle) + q * Math.sin(angle) - off);
      return added((p, q) => -8 * depth * Math.max(0, 1 - from(p, q) / 0.02));
    }
    case 'pits':
      return added(spots(45, [0.005, 0.02], () => (random.next() < 0.5 ? -1 : 1), depth, random));
    case 'dirt':
      return added(spots(5, [0.04, 0.08], () => 1, depth, random));
    case 'lip': {
      const from = rimOf(relief, cx, cy);
      return (x, y) => {
        const bearing = Math.atan2(y - cy, x - cx);
        const over = Math.hypot(x - cx, y - cy) / from(bearing);
        if (over > 1.15) return Number.NaN;
        const h = plain(x, y);
        const lip = 8 * depth * Math.min(1, Math.max(0, (over - 0.88) / 0.08)) + depth * Math.sin(7 * bearing);
        if (over > 1 || Number.isNaN(h)) return over > 0.88 ? lip : Number.NaN;
        return over > 0.88 ? h + lip : h;
      };
    }
    case 'table': {
      const low = Math.min(...relief.z.filter((_, i) => relief.mask[i])) - 0.15 * size;
      const from = rimOf(relief, cx, cy);
      return (x, y) => {
        const h = plain(x, y);
        const outside = Math.hypot(x - cx, y - cy) > from(Math.atan2(y - cy, x - cx));
        return outside && Number.isNaN(h) ? low : h;
      };
    }
    case 'slip': {
      const [far, angle] = [random.between(0.01, 0.04) * size, random.between(0, 2 * Math.PI)];
      return (x, y) => {
        const [h, ghost] = [
          plain(x, y),
          plain(x + far * Math.cos(angle), y + far * Math.sin(angle)) - 0.5 * up * depth,
        ];
        return Number.isNaN(ghost) ? h : up * Math.max(up * h, up * ghost);
      };
    }
    case 'sector': {
      const at = random.between(0, 2 * Math.PI);
      return (x, y) => {
        const off = Math.abs(((Math.atan2(y - cy, x - cx) - at + 5 * Math.PI) % (2 * Math.PI)) - Math.PI);
        return off < Math.PI / 8 ? Number.NaN : plain(x, y);
      };
    }
  }
}

function spots(
  count: number,
  radius: readonly [number, number],
  sign: () => number,
  depth: number,
  random: Random,
): Height {
  const all = Array.from({ length: count }, () => ({
    x: random.between(-0.45, 0.45),
    y: random.between(-0.45, 0.45),
    r: random.between(...radius),
    h: sign() * random.between(2, 8) * depth,
  }));
  return (p, q) =>
    all.reduce((s, { x, y, r, h }) => s + h * Math.max(0, 1 - ((p - x) ** 2 + (q - y) ** 2) / r ** 2), 0);
}

/** How far the face reaches from its middle, by bearing, mm. */
function rimOf(relief: HeightGrid, cx: number, cy: number): (bearing: number) => number {
  const reach = new Float64Array(180);
  for (let i = 0; i < relief.z.length; i++) {
    if (!relief.mask[i]) continue;
    const [x, y] = [xOf(relief, i % relief.width) - cx, yOf(relief, Math.floor(i / relief.width)) - cy];
    const k = Math.floor((Math.atan2(y, x) / (2 * Math.PI) + 1) * 180) % 180;
    reach[k] = Math.max(reach[k], Math.hypot(x, y));
  }
  return (bearing) => reach[Math.floor((bearing / (2 * Math.PI) + 1) * 180) % 180] || Number.NaN;
}

/** Middle of the cells with data. */
function middleOf(relief: HeightGrid): [number, number] {
  let [left, right, low, high] = [1e9, -1e9, 1e9, -1e9];
  for (let i = 0; i < relief.z.length; i++) {
    if (!relief.mask[i]) continue;
    const [x, y] = [xOf(relief, i % relief.width), yOf(relief, Math.floor(i / relief.width))];
    [left, right] = [Math.min(left, x), Math.max(right, x)];
    [low, high] = [Math.min(low, y), Math.max(high, y)];
  }
  return [(left + right) / 2, (low + high) / 2];
}

import { type HeightGrid, quantile } from '../../../geometry/index.ts';

/** Cells of one line in order along it, and how it lies. Cell coordinates, rows downward. */
export interface Chain {
  readonly cells: readonly number[];
  /** Length from end to end along its main direction, mm. */
  readonly lengthMm: number;
  /** Mean strength of its cells, mm. */
  readonly strengthMm: number;
  /** Middle and unit direction in the grid's frame (y upward). */
  readonly x: number;
  readonly y: number;
  readonly ux: number;
  readonly uy: number;
  /** Distance from the straight line that nine tenths of the cells keep within, mm. */
  readonly strayMm: number;
}

export const chainDefaults = {
  /** Cells are linked over gaps up to so far, mm, … */
  gapMm: 1.2,
  /** … when their directions differ by no more than this, and the gap runs along them within it. */
  turnDeg: 25,
  /** Two chains are one line when the gap between their ends is at most this share of the face … */
  joinShare: 0.25,
  /** … and they aim at one another within this angle and distance aside. */
  joinDeg: 9,
  joinAsideMm: 0.9,
};

/**
 * Links the crests of a line field into lines: cells above `least` that are the strongest across their own direction,
 * joined with neighbours that point the same way, and lines joined over gaps where they aim at one another (a cut scores
 * the face and passes over the hollows between).
 */
export function chainsOf(
  grid: HeightGrid,
  strength: Float32Array,
  along: Uint8Array,
  directions: number,
  least: (i: number) => number,
  sizeMm: number,
  options = chainDefaults,
): Chain[] {
  const crests = crestCells(grid, strength, along, directions, least);
  const groups = linkCells(grid, crests, along, directions, options);
  const chains = groups.filter((cells) => cells.length >= 3).map((cells) => chainOf(grid, cells, (i) => strength[i]));
  return joinAligned(grid, chains, strength, sizeMm, options);
}

/** Cells above `least` that are the strongest across their own direction among those one and two steps aside. */
export function crestCells(
  { width }: HeightGrid,
  strength: Float32Array,
  along: Uint8Array,
  directions: number,
  least: (i: number) => number,
): number[] {
  const across = stepsAcross(directions, width);
  const crests: number[] = [];
  for (let i = 2 * width + 2; i < strength.length - 2 * width - 2; i++)
    if (strength[i] > 0 && !(strength[i] < least(i)) && isCrest(strength, i, across, along[i])) crests.push(i);
  return crests;
}

/** One cell and two cells across a line of each direction, as steps from cell to cell. */
const stepsAcross = (directions: number, width: number): Int32Array =>
  Int32Array.from({ length: 2 * directions }, (_, k) => {
    const angle = ((k >> 1) * Math.PI) / directions;
    const t = 1 + (k % 2);
    return Math.round(Math.cos(angle) * t) * width + Math.round(Math.sin(angle) * t);
  });

/** None of those beside it is stronger, and none on the one side as strong. */
function isCrest(strength: Float32Array, i: number, across: Int32Array, direction: number): boolean {
  const here = strength[i];
  const one = across[2 * direction];
  const two = across[2 * direction + 1];
  if (strength[i + one] > here || strength[i + two] > here) return false;
  return !(strength[i - one] >= here || strength[i - two] >= here);
}

function linkCells(
  grid: HeightGrid,
  crests: readonly number[],
  along: Uint8Array,
  directions: number,
  options: typeof chainDefaults,
): number[][] {
  const { width, pitch } = grid;
  const reach = Math.max(2, Math.round(options.gapMm / pitch));
  // Which crest stands in a cell, from 1.
  const index = new Int32Array(grid.z.length);
  crests.forEach((cell, k) => {
    index[cell] = k + 1;
  });
  const parent = crests.map((_, k) => k);
  const root = (k: number): number => {
    let r = k;
    while (parent[r] !== r) {
      parent[r] = parent[parent[r]];
      r = parent[r];
    }
    return r;
  };
  const turn = Math.cos((options.turnDeg * Math.PI) / 180);
  const direction = (cell: number): [number, number] => {
    const angle = (along[cell] * Math.PI) / directions;
    return [Math.cos(angle), -Math.sin(angle)];
  };
  crests.forEach((cell, k) => {
    const [ux, uy] = direction(cell);
    for (let dr = 0; dr <= reach; dr++)
      for (let dc = dr === 0 ? 1 : -reach; dc <= reach; dc++) {
        const length = Math.hypot(dr, dc);
        if (length > reach) continue;
        const other = (index[cell + dr * width + dc] ?? 0) - 1;
        if (other < 0) continue;
        const [vx, vy] = direction(crests[other]);
        const near = length < 1.6;
        if (Math.abs(ux * vx + uy * vy) < turn) continue;
        if (!near && Math.abs(ux * dc + uy * dr) < turn * length) continue;
        parent[root(k)] = root(other);
      }
  });
  const groups = new Map<number, number[]>();
  crests.forEach((cell, k) => {
    const r = root(k);
    const group = groups.get(r);
    if (group) group.push(cell);
    else groups.set(r, [cell]);
  });
  return [...groups.values()];
}

/** Places of a line's cells along and aside of its direction from its middle, mm. */
export function placesAlong(
  { width, pitch, left, top }: Pick<HeightGrid, 'width' | 'pitch' | 'left' | 'top'>,
  { cells, x, y, ux, uy }: Chain,
): [along: number, aside: number][] {
  return cells.map((i) => {
    const dx = left + (i % width) * pitch - x;
    const dy = top - Math.floor(i / width) * pitch - y;
    return [dx * ux + dy * uy, dy * ux - dx * uy];
  });
}

/** The line that cells of a grid make; `strengthOf` in mm. */
export function chainOf(
  { width, pitch, left, top }: HeightGrid,
  cells: readonly number[],
  strengthOf: (cell: number) => number,
): Chain {
  let [sx, sy, sum] = [0, 0, 0];
  const points = cells.map((i): [number, number] => [left + (i % width) * pitch, top - Math.floor(i / width) * pitch]);
  cells.forEach((i, k) => {
    sx += points[k][0];
    sy += points[k][1];
    sum += strengthOf(i);
  });
  const x = sx / cells.length;
  const y = sy / cells.length;
  let [xx, xy, yy] = [0, 0, 0];
  for (const [px, py] of points) {
    xx += (px - x) ** 2;
    xy += (px - x) * (py - y);
    yy += (py - y) ** 2;
  }
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  const ux = Math.cos(angle);
  const uy = Math.sin(angle);
  const at = points.map(([px, py]) => (px - x) * ux + (py - y) * uy);
  const order = cells.map((_, k) => k).sort((p, q) => at[p] - at[q]);
  const aside = points.map(([px, py]) => Math.abs((py - y) * ux - (px - x) * uy));
  return {
    cells: order.map((k) => cells[k]),
    lengthMm: at[order[order.length - 1]] - at[order[0]] + pitch,
    strengthMm: sum / cells.length,
    x,
    y,
    ux,
    uy,
    strayMm: quantile(aside, 0.9),
  };
}

/** Joins the two chains that fit best, again and again, until none do. Longest first, so that strays join the line. */
function joinAligned(
  grid: HeightGrid,
  chains: Chain[],
  strength: Float32Array,
  sizeMm: number,
  options: typeof chainDefaults,
): Chain[] {
  const list = [...chains].sort((a, b) => b.lengthMm - a.lengthMm);
  for (let k = 0; k < list.length; k++)
    for (let j = k + 1; j < list.length; j++) {
      if (!aligned(list[k], list[j], options.joinShare * sizeMm, options)) continue;
      list[k] = chainOf(grid, [...list[k].cells, ...list[j].cells], (i) => strength[i]);
      list.splice(j, 1);
      j = k;
    }
  return list;
}

function aligned(a: Chain, b: Chain, gapMm: number, { joinDeg, joinAsideMm }: typeof chainDefaults): boolean {
  if (a.lengthMm < 1 || b.lengthMm < 0.6) return false;
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const alongA = dx * a.ux + dy * a.uy;
  const gap = Math.abs(alongA) - (a.lengthMm + b.lengthMm) / 2;
  if (gap > Math.min(gapMm, Math.max(a.lengthMm, 2))) return false;
  const aside = Math.abs(dy * a.ux - dx * a.uy);
  const turn = Math.abs(a.ux * b.ux + a.uy * b.uy);
  const tolerance = b.lengthMm < 1.5 ? 2.5 * joinDeg : joinDeg;
  return aside < Math.max(joinAsideMm, 0.09 * Math.abs(alongA)) && turn > Math.cos((tolerance * Math.PI) / 180);
}

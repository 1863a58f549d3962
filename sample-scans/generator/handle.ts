import type { Random } from '../../src/core/geometry/index.ts';
import { starOf } from './scatter.ts';
import { triangulate } from './sheet.ts';
import type { ShellBuilder } from './shell.ts';
import { bit } from './types.ts';

export type HandleKind = 'cone' | 'fin' | 'none';

/** A handle on the back of a matrix: where it covers the back, and how it is added. */
export interface Handle {
  covers(x: number, y: number): boolean;
  add(builder: ShellBuilder, spacing: number): void;
}

export const noHandle: Handle = { covers: () => false, add: () => undefined };

/**
 * A handle that rises from the back at z = −deepMm, away from the face. Handle and plate are separate surfaces whose
 * hidden parts are left out, with the small gaps in the joint that scans have there.
 */
export function makeHandle(kind: HandleKind, sizeMm: number, widthMm: number, deepMm: number, random: Random): Handle {
  if (kind === 'none') return noHandle;
  return kind === 'cone' ? cone(sizeMm, widthMm, deepMm, random) : fin(sizeMm, deepMm, random);
}

/** A faceted cone that ends in a ring. */
function cone(sizeMm: number, widthMm: number, deepMm: number, random: Random): Handle {
  const facets = random.pick([6, 8, 40]);
  const foot = widthMm * random.between(0.24, 0.42);
  const neck = random.between(1.6, 2.6);
  const tall = random.between(0.45, 0.8) * Math.min(sizeMm, 40);
  const loop = random.between(2.2, 3.8);
  const wire = random.between(0.9, 1.3);
  const swell = random.between(-0.12, 0.12);
  // Radius of a regular polygon's edge against its corner.
  const facet = (t: number): number => {
    const step = (2 * Math.PI) / facets;
    const within = ((t % step) + step) % step;
    return Math.cos(step / 2) / Math.cos(within - step / 2);
  };
  const radius = (share: number, t: number): number =>
    (foot + (neck - foot) * share) * (1 + swell * Math.sin(Math.PI * share)) * facet(t);
  return {
    covers: (x, y) => Math.hypot(x, y) < radius(0, Math.atan2(y, x)) * 0.98,
    add(builder, spacing) {
      const rows = Math.max(4, Math.round(tall / spacing));
      const columns = Math.max(12, Math.round((Math.PI * (foot + neck)) / spacing));
      const rim = tube(builder, rows, columns, false, random, (share, t) => {
        const r = radius(share, t);
        return [r * Math.cos(t), r * Math.sin(t), -deepMm - tall * share];
      });
      const middle = -deepMm - tall - loop * 0.85;
      const inCone = (x: number, y: number, z: number): boolean =>
        z > -deepMm - tall && Math.hypot(x, y) < radius((-deepMm - z) / tall, Math.atan2(y, x));
      const around = Math.max(16, Math.round((2 * Math.PI * loop) / spacing));
      const across = Math.max(8, Math.round((2 * Math.PI * wire) / spacing));
      tube(builder, around, across, true, random, (share, t) => {
        const a = 2 * Math.PI * share;
        const r = loop + wire * Math.cos(t);
        const point: [number, number, number] = [r * Math.cos(a), wire * Math.sin(t), middle + r * Math.sin(a)];
        return inCone(...point) ? null : point;
      });
      const tip = builder.vertex(0, 0, -deepMm - tall - 0.1, bit.back);
      for (let i = 0; i < columns; i++) builder.triangle(tip, rim[(i + 1) % columns], rim[i]);
    },
  };
}

/**
 * A bent sheet of rows × columns, closed around its columns, jittered; `closed` joins the last row to the first. The
 * point function gives null where the surface is hidden. Gives the last row. The winding suits a
 * cone that runs away from the face and a ring that runs round its axis.
 */
function tube(
  builder: ShellBuilder,
  rows: number,
  columns: number,
  closed: boolean,
  random: Random,
  point: (share: number, t: number) => readonly [number, number, number] | null,
): readonly number[] {
  const grid: number[][] = [];
  const count = closed ? rows : rows + 1;
  for (let j = 0; j < count; j++) {
    const edge = !closed && (j === 0 || j === rows);
    const row: number[] = [];
    for (let i = 0; i < columns; i++) {
      const share = (j + (edge ? 0 : 0.4 * (random.next() - 0.5))) / rows;
      const p = point(share, (2 * Math.PI * (i + 0.4 * (random.next() - 0.5) + (j % 2) * 0.5)) / columns);
      row.push(p ? builder.vertex(p[0], p[1], p[2], bit.back) : -1);
    }
    grid.push(row);
  }
  for (let j = 0; j < rows; j++) {
    const a = grid[j];
    const b = grid[(j + 1) % count];
    for (let i = 0; i < columns; i++) {
      const k = (i + 1) % columns;
      if (a[i] < 0 || a[k] < 0 || b[i] < 0 || b[k] < 0) continue;
      if (closed) builder.quad(a[i], a[k], b[k], b[i], random);
      else builder.quad(a[i], b[i], b[k], a[k], random);
    }
  }
  return grid[count - 1];
}

/** A flat upright plate with a rounded, pierced top, standing along the design's height. */
function fin(sizeMm: number, deepMm: number, random: Random): Handle {
  const half = sizeMm * random.between(0.18, 0.32);
  const tall = Math.min(22, sizeMm * random.between(0.3, 0.5)) + 3;
  const thick = random.between(2, 3.4);
  const top = Math.min(half * 0.8, random.between(3, 5.5));
  const hole = random.between(1.1, Math.min(2, 0.5 * top));
  const root = 0.8;
  const middle = tall - top;
  const inside = (y: number, h: number): boolean => {
    if (h < -root || h > tall) return false;
    if (Math.hypot(y, h - middle) < top) return true;
    const s = Math.max(0, h) / middle;
    return h < middle && Math.abs(y) < half + (top - half) * s * s * (3 - 2 * s);
  };
  return {
    covers: (x, y) => Math.abs(x) < 0.5 * thick && Math.abs(y) < half,
    add(builder, spacing) {
      const star = starOf(0, middle * 0.55, sizeMm, inside);
      const sheet = triangulate({ star, spacing, style: 'even', sharpEdge: true, hole: [0, middle, hole] }, random);
      const count = sheet.points.length / 2;
      const bound = sheet.ringCount + sheet.rimCount;
      const sides = [1, -1].map((side) =>
        Array.from({ length: count }, (_, i) => {
          const loose = i < bound ? 0 : 0.3 * spacing;
          const y = sheet.points[2 * i] + loose * (random.next() - 0.5);
          const h = sheet.points[2 * i + 1] + loose * (random.next() - 0.5);
          // Hidden in the plate: below the back.
          return h < -0.05 ? -1 : builder.vertex(side * thick * 0.5, y, -deepMm - h, bit.back);
        }),
      );
      const [right, left] = sides;
      const put = (a: number, b: number, c: number): void => {
        if (a >= 0 && b >= 0 && c >= 0) builder.triangle(a, b, c);
      };
      for (let i = 0; i < sheet.triangles.length; i += 3) {
        const [a, b, c] = [sheet.triangles[i], sheet.triangles[i + 1], sheet.triangles[i + 2]];
        // (y, h) with h = −z: seen from +x the sheet's own winding is clockwise.
        put(right[a], right[c], right[b]);
        put(left[a], left[b], left[c]);
      }
      strip(builder, right, left, 0, sheet.ringCount, thick, spacing, random);
      strip(builder, left, right, sheet.ringCount, sheet.rimCount, thick, spacing, random);
    },
  };
}

/** The narrow side between two equal rings of the fin. */
function strip(
  builder: ShellBuilder,
  from: readonly number[],
  to: readonly number[],
  first: number,
  count: number,
  thick: number,
  spacing: number,
  random: Random,
): void {
  const rows = Math.max(1, Math.round(thick / spacing));
  let before = Array.from({ length: count }, (_, i) => from[first + i]);
  const last = Array.from({ length: count }, (_, i) => to[first + i]);
  for (let row = 1; row <= rows; row++) {
    const now =
      row === rows
        ? last
        : before.map((_, i) => {
            if (from[first + i] < 0) return -1;
            const [x0, y, z] = builder.at(from[first + i]);
            const [x1] = builder.at(to[first + i]);
            const share = (row + 0.3 * (random.next() - 0.5)) / rows;
            return builder.vertex(x0 + (x1 - x0) * share, y, z, bit.back);
          });
    for (let i = 0; i < count; i++) {
      const k = (i + 1) % count;
      if (before[i] < 0 || before[k] < 0 || now[i] < 0 || now[k] < 0) continue;
      builder.quad(before[i], before[k], now[k], now[i], random);
    }
    before = now;
  }
}

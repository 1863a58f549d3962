import { describe, expect, it } from 'vitest';
import { wearAreas, zoneOutlines } from '../../../src/core/condition/wear/areas.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';
import type { ZoneName } from '../../../src/core/design/index.ts';

const [width, height, pitch] = [60, 50, 0.2];
const at = (i: number): [number, number] => [-6 + (i % width) * pitch, 5 - Math.floor(i / width) * pitch];
const disc = (i: number, x: number, y: number, r: number): boolean => Math.hypot(at(i)[0] - x, at(i)[1] - y) < r;

/** A sharp face with a lowered ring (its middle is sharp) and one lost cell by itself. */
function map(turned: boolean): WearMap {
  const labels = new Uint8Array(width * height);
  for (let i = 0; i < labels.length; i++) {
    if (disc(i, 0, 0, 4.8)) labels[i] = wearLabel('sharp');
    if (disc(i, 1.5, 0.5, 2) && !disc(i, 1.5, 0.5, 0.9)) labels[i] = wearLabel('lower');
  }
  labels[20 * width + 14] = wearLabel('lost');
  return { width, height, pitch, left: -6, top: 5, turned, labels };
}
const left = Uint8Array.from({ length: width * height }, (_, i) => (at(i)[0] < 1 && disc(i, 0, 0, 4.8) ? 1 : 0));
const right = Uint8Array.from({ length: width * height }, (_, i) => (at(i)[0] >= 1 && disc(i, 0, 0, 4.8) ? 1 : 0));
const whole = left.map((one, i) => one | right[i]);
const zones = new Map<ZoneName, Uint8Array>([
  ['whole', whole],
  ['legend', left],
  ['field', right],
]);

/** Even-odd rule over all the ways. */
function within(outlines: readonly Float64Array[], x: number, y: number): boolean {
  let inside = false;
  for (const way of outlines)
    for (let k = 0, j = way.length - 2; k < way.length; j = k, k += 2) {
      const crosses = way[k + 1] > y !== way[j + 1] > y;
      if (crosses && x < way[k] + ((y - way[k + 1]) / (way[j + 1] - way[k + 1])) * (way[j] - way[k])) inside = !inside;
    }
  return inside;
}

describe('areas of wear', () => {
  it.each([false, true])('hold the cells of their zone and state and no others (turned: %s)', (turned) => {
    const face = map(turned);
    const areas = wearAreas(face, zones);
    // Closing fills nothing here: the hole of the ring is wider than what is drawn over.
    expect(areas.map(({ zone, state }) => `${zone} ${state}`)).toEqual(['legend lower', 'field lower']);
    for (const { zone, outlines } of areas) {
      let wrong = 0;
      for (let i = 0; i < face.labels.length; i++) {
        const [x, y] = at(i);
        const is = Boolean(zones.get(zone)?.[i]) && face.labels[i] === wearLabel('lower');
        if (within(outlines, turned ? -x : x, y) !== is) wrong++;
      }
      // Ways are thinned by six tenths of a cell, so single cells at the edge may fall on its other side.
      expect(wrong * pitch ** 2).toBeLessThan(0.12 * outlines.length + 0.9);
    }
    const cells = face.labels.filter((label) => label === wearLabel('lower')).length;
    const sum = areas.reduce((all, { areaMm2 }) => all + areaMm2, 0);
    expect(sum).toBeCloseTo(cells * pitch ** 2, 6);
  });

  it('draw over gaps that are narrow, and count no cell for it', () => {
    const face = map(false);
    const gapped = {
      ...face,
      labels: face.labels.map((label, i) =>
        label === wearLabel('lower') && Math.abs(at(i)[1] - 0.5) < 0.25 ? wearLabel('sharp') : label,
      ),
    };
    const [area] = wearAreas(gapped, new Map([['motif', whole]]));
    expect(area.outlines).toHaveLength(2);
    expect(within(area.outlines, 3, 0.5)).toBe(true);
    const cells = gapped.labels.filter((label) => label === wearLabel('lower')).length;
    expect(area.areaMm2).toBeCloseTo(cells * pitch ** 2, 6);
  });

  it('leave the hole of a ring open, and single cells undrawn', () => {
    const areas = wearAreas(map(false), new Map([['motif', whole]]));
    expect(areas).toHaveLength(1);
    expect(areas[0].outlines).toHaveLength(2);
    expect(within(areas[0].outlines, 1.5, 0.5)).toBe(false);
    expect(within(areas[0].outlines, 1.5, 1.9)).toBe(true);
  });

  it('lie in zones that are outlined themselves, the whole aside', () => {
    const outlined = zoneOutlines(map(false), zones);
    expect(outlined.map(({ zone }) => zone)).toEqual(['legend', 'field']);
    expect(within(outlined[0].outlines, -2, 0)).toBe(true);
    expect(within(outlined[0].outlines, 2, 0)).toBe(false);
  });
});

import { describe, expect, it } from 'vitest';
import type { LossField } from '../../../src/core/condition/relief/loss.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import type { WearState } from '../../../src/core/condition/types.ts';
import {
  groundOfMarks,
  wearLabel,
  wearLabels,
  wearStates,
  withoutMarks,
} from '../../../src/core/condition/wear/labels.ts';
import { emptyGrid } from '../../../src/core/geometry/index.ts';

const pitch = 0.2;
const grid = emptyGrid(-8, 8, -8, 8, pitch);
const { width, left, top } = grid;
const all = [...grid.z.keys()];
const place = (i: number): [number, number] => [left + (i % width) * pitch, top - Math.floor(i / width) * pitch];
type At = (x: number, y: number) => number;
const disc =
  (r: number, cx = 0, cy = 0) =>
  (x: number, y: number): boolean =>
    Math.hypot(x - cx, y - cy) < r;

/** So high, and by up to a tenth of a millimetre higher every few cells, without order. */
const uneven =
  (mm: number): At =>
  (x, y) =>
    mm + 0.1 * Math.abs(Math.sin(91.7 * x + 37.3 * y));

interface Made {
  /** Heights of the reference over the ground, and the difference, mm. */
  readonly height?: At;
  readonly difference?: At;
  readonly probability?: At;
  /** What the difference is expected to be truly; as it was measured unless said. */
  readonly expected?: At;
  readonly narrow?: At;
  readonly exposure?: At;
  readonly sigma?: number;
  readonly missing?: (x: number, y: number) => boolean;
  /** The map as marks are held against it. */
  readonly asGround?: boolean;
  readonly referenceMissing?: (x: number, y: number) => boolean;
}

/** Forms about half a millimetre high all over: what lacks lies on no plane and on no ground unless the test says so. */
function label(made: Made) {
  const {
    height = uneven(0.5),
    difference = () => 0,
    exposure = height,
    narrow = () => 0,
    sigma = 0.01,
    missing = () => false,
    referenceMissing = () => false,
  } = made;
  const { probability = (x: number, y: number) => (difference(x, y) < 0 ? 1 : 0) } = made;
  const on = (at: At): Float32Array => Float32Array.from(all, (i) => at(...place(i)));
  const z = on(height);
  const mask = Uint8Array.from(all, (i) => (missing(...place(i)) ? 0 : 1));
  const own = Uint8Array.from(all, (i) => (referenceMissing(...place(i)) ? 0 : 1));
  const d = on(difference).map((value, i) => (mask[i] && own[i] ? value : Number.NaN));
  const inside = Uint8Array.from(all, (i) => (Math.hypot(...place(i)) < 7 ? 1 : 0));
  const relief = {
    reference: { ...grid, z, mask: own },
    subject: { ...grid, z: z.map((value, i) => value + (d[i] || 0)), mask },
    difference: d,
    narrow: { reference: on(narrow), subject: on(narrow) },
    inside,
    image: inside,
    fromEdge: new Float32Array(all.length),
    sizeMm: 14,
    turned: false,
  } as unknown as WearRelief;
  const loss = {
    probability: on(probability),
    expected: made.expected ? on(made.expected) : d,
    sigma: new Float32Array(all.length).fill(sigma),
    exposure: on(exposure),
    height: z,
  } as unknown as LossField;
  const told = wearLabels(relief, loss);
  const { labels } = made.asGround ? groundOfMarks(relief, loss, told) : told;
  return (x: number, y: number): WearState | null =>
    wearStates[labels[Math.round((top - y) / pitch) * width + Math.round((x - left) / pitch)] - 1] ?? null;
}

describe('the label of a cell', () => {
  it('is sharp within the face where nothing happened, and nothing outside it', () => {
    const at = label({});
    expect(at(0, 0)).toBe('sharp');
    expect(at(0, 6.8)).toBe('sharp');
    expect(at(0, 7.2)).toBeNull();
  });

  it('is lower where 0.02 mm less is expected, by its own height or by its neighbourhood', () => {
    const at = (expected: number, own = -0.06) =>
      label({ difference: (x, y) => (disc(2)(x, y) ? own : 0), expected: (x, y) => (disc(2)(x, y) ? expected : 0) })(
        0,
        0,
      );
    expect(at(-0.0201)).toBe('lower');
    expect(at(-0.0199)).toBe('sharp');
    expect(at(-0.0201, -0.002)).toBe('lower');
    // Low ground that is lower hides no mark: 0.15 of what nearly all of the face stays under.
    const low = (e: number, asGround: boolean) =>
      label({
        difference: (x, y) => (disc(2)(x, y) ? -0.06 : 0),
        exposure: (x, y) => (disc(2)(x, y) ? e : 0.4),
        asGround,
      });
    expect(low(0.061, true)(0, 0)).toBe('lower');
    expect(low(0.059, true)(0, 0)).toBe('sharp');
    expect(low(0.059, false)(0, 0)).toBe('lower');
    // A cell's own difference counts once, in what is expected of it: what noise lifts a little is lower with its neighbourhood, what stands clearly higher is not.
    expect(label({ expected: () => -0.05, difference: () => 0.001 })(0, 0)).toBe('lower');
    expect(label({ expected: () => -0.05, difference: (x, y) => (disc(2)(x, y) ? 0.3 : 0) })(0, 0)).toBe('added');
  });

  it('is lost where the subject lies 0.08 mm below the ground, or four standard deviations', () => {
    const at = (deep: number, sigma = 0.01) =>
      label({
        height: (x, y) => (disc(2)(x, y) ? uneven(0.3)(x, y) : 0.5),
        difference: (x, y) =>
          disc(2)(x, y) ? -uneven(0.3)(x, y) - deep + 0.25 * Math.abs(Math.sin(53 * x + 71 * y)) : 0,
        sigma,
      })(0, 0);
    expect(at(0.085)).toBe('lost');
    expect(at(0.075)).toBe('lower');
    expect(at(0.21, 0.05)).toBe('lost');
    expect(at(0.19, 0.05)).toBe('lower');
  });

  it('is lost where the ground itself lacks: cells that stood no higher than a tenth of the design', () => {
    const at = (height: number, deep = 0.09) =>
      label({
        height: (x, y) => (disc(1)(x, y) ? height : 0.5),
        exposure: () => 0.5,
        difference: (x, y) => (disc(1)(x, y) ? -deep : 0),
      })(0, 0);
    expect(at(0.049)).toBe('lost');
    expect(at(0.051)).toBe('lower');
    expect(at(0.049, 0.075)).toBe('lower');
  });

  it('is lost beside a break, two cells and two more of what lacks clearly', () => {
    // On every side of the face alike.
    for (const [ux, uy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ]) {
      const along = (x: number, y: number): number => x * ux + y * uy;
      const at = label({
        missing: (x, y) => along(x, y) > 3.1,
        difference: (x, y) => (along(x, y) > 0 ? -0.12 : 0),
      });
      expect(at(4 * ux, 4 * uy)).toBe('lost');
      expect(at(3 * ux, 3 * uy)).toBe('lost');
      expect(at(2.4 * ux, 2.4 * uy)).toBe('lost');
      expect(at(2 * ux, 2 * uy)).toBe('lower');
    }
    const clear = (mm: number) => label({ missing: (x) => x > 3.1, difference: (x) => (x > 0 ? -mm : 0) })(3, 0);
    expect(clear(0.085)).toBe('lost');
    expect(clear(0.075)).toBe('lower');
  });

  it('is lost where a gap of two square millimetres reaches the rim, else cannot be judged', () => {
    expect(label({ missing: (x) => x > 5 })(5.6, 0)).toBe('lost');
    expect(label({ missing: disc(1) })(0, 0)).toBe('cannotJudge');
    // 7 × 7 cells and 8 × 8 are 1.96 and 2.56 mm², from the rim inward.
    const bite = (cells: number) =>
      label({ missing: (x, y) => Math.abs(x) < (cells / 2) * pitch && y > 7 - cells * pitch })(0, 6.4);
    expect(bite(5)).toBe('cannotJudge');
    expect(bite(9)).toBe('lost');
    // Where the reference itself has nothing, nobody lost anything.
    expect(label({ missing: (x) => x > 5, referenceMissing: (x) => x > 5 })(5.6, 0)).toBe('cannotJudge');
  });

  it('is added where four cells or more stand 0.08 mm up, or four standard deviations', () => {
    const at = (mm: number, sigma = 0.01, r = 1) =>
      label({ difference: (x, y) => (disc(r)(x, y) ? mm : 0), sigma })(0, 0);
    expect(at(0.085)).toBe('added');
    expect(at(0.075)).toBe('sharp');
    expect(at(0.21, 0.05)).toBe('added');
    expect(at(0.19, 0.05)).toBe('sharp');
    expect(at(0.2, 0.01, 0.1)).toBe('sharp');
    expect(at(0.2, 0.01, 0.25)).toBe('added');
  });

  it('is clogged where the excess follows what the reference still shows of narrow forms, 0.15 of them', () => {
    const at = (share: number) =>
      label({
        narrow: (x, y) => (disc(1)(x, y) ? (0.3 * share) / (1 - share) : 0),
        difference: (x, y) => (disc(1)(x, y) ? 0.3 : 0),
      })(0, 0);
    expect(at(0.16)).toBe('clogged');
    expect(at(0.14)).toBe('added');
  });
});

describe('marks that the reference alone carries', () => {
  it('leave their cells unjudged, but for what is lost', () => {
    const labels = Uint8Array.of(0, wearLabel('sharp'), wearLabel('lower'), wearLabel('lost'), wearLabel('added'));
    const map = { labels } as Parameters<typeof withoutMarks>[0];
    const judged = [0, wearLabel('cannotJudge'), wearLabel('cannotJudge'), wearLabel('lost'), wearLabel('added')];
    expect([
      ...withoutMarks(map, [
        [0, 1],
        [2, 3],
      ]).labels,
    ]).toEqual(judged);
    expect(labels[1]).toBe(wearLabel('sharp'));
  });
});

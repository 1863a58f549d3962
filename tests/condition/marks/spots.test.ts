import { describe, expect, it } from 'vitest';
import { spotMarks } from '../../../src/core/condition/marks/spots.ts';
import type { LossField } from '../../../src/core/condition/relief/loss.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';
import { emptyGrid } from '../../../src/core/geometry/index.ts';

const pitch = 0.2;
const grid = emptyGrid(-10, 10, -10, 10, pitch);
const { width, left, top } = grid;
const all = [...grid.z.keys()];
const place = (i: number): [number, number] => [left + (i % width) * pitch, top - Math.floor(i / width) * pitch];

interface Spot {
  readonly at: (x: number, y: number) => boolean;
  readonly reference?: number;
  readonly subject?: number;
  readonly state?: 'lost' | 'added';
  readonly sigma?: number;
  readonly gap?: (x: number, y: number) => boolean;
  readonly within?: number;
  readonly taken?: Uint8Array;
  readonly senses?: Parameters<typeof spotMarks>[4];
}

/** Level faces but for the spot, where either departs by so much, mm; judged within `within` mm of the middle. */
function marks({
  at,
  reference = 0,
  subject = 0,
  state = subject - reference < 0 ? 'lost' : 'added',
  sigma = 0.01,
  gap = () => false,
  within = 9,
  taken = new Uint8Array(grid.z.length),
  senses = { referenceSense: 'intaglio', subjectSense: 'relief' },
}: Spot) {
  const spot = Uint8Array.from(all, (i) => (at(...place(i)) ? 1 : 0));
  const inside = Uint8Array.from(all, (i) => (Math.hypot(...place(i)) < within ? 1 : 0));
  const mask = Uint8Array.from(all, (i) => (gap(...place(i)) ? 0 : 1));
  const a = Float32Array.from(all, (i) => 0.3 + spot[i] * reference);
  const b = Float32Array.from(all, (i) => 0.3 + spot[i] * subject);
  const relief = {
    reference: { ...grid, z: a, mask: mask.map(() => 1) },
    subject: { ...grid, z: b, mask },
    difference: a.map((value, i) => (mask[i] ? b[i] - value : Number.NaN)),
    inside,
    image: inside,
    fromEdge: Float32Array.from(all, (i) => Math.max(0, within - Math.hypot(...place(i))) / pitch),
  } as unknown as WearRelief;
  const map = { labels: spot.map((value) => (value ? wearLabel(state) : wearLabel('sharp'))) } as unknown as WearMap;
  const loss = { sigma: new Float32Array(grid.z.length).fill(sigma) } as unknown as LossField;
  return spotMarks(relief, loss, map, taken, senses);
}

const disc =
  (r: number, cx = 0, cy = 0) =>
  (x: number, y: number): boolean =>
    Math.hypot(x - cx, y - cy) < r;

describe('spots', () => {
  it.each([
    ['subject', -0.3, 0, 'pit'],
    ['subject', 0.3, 0, 'bubble'],
    ['reference', 0, 0.3, 'pit'],
    ['reference', 0, -0.3, 'smear'],
  ] as const)(
    'are carried by the %s that departs from its surroundings (%s and %s mm): a %s',
    (carriedBy, subject, reference, shape) => {
      const [spot, ...rest] = marks({ at: disc(0.9), subject, reference });
      expect(rest).toEqual([]);
      expect(spot).toMatchObject({ carriedBy, shape });
      expect(spot.departureMm).toBeCloseTo(carriedBy === 'subject' ? subject : reference, 5);
      expect([...spot.cells].sort((a, b) => a - b)).toEqual(all.filter((i) => disc(0.9)(...place(i))));
    },
  );

  it('are told only where one departs 1.6 times as far as the other', () => {
    expect(marks({ at: disc(0.9), subject: -0.33, reference: -0.2, state: 'lost' })).toHaveLength(1);
    expect(marks({ at: disc(0.9), subject: -0.31, reference: -0.2, state: 'lost' })).toEqual([]);
    expect(marks({ at: disc(0.9), subject: 0.2, reference: 0.33, state: 'lost' })[0]?.carriedBy).toBe('reference');
    expect(marks({ at: disc(0.9), subject: 0.2, reference: 0.31, state: 'lost' })).toEqual([]);
    // Of opposite signs, both are there.
    expect(marks({ at: disc(0.9), subject: -0.33, reference: 0.2, state: 'lost' })[0]?.carriedBy).toBe('subject');
  });

  it('want 0.12 mm, a quarter at the rim, and five standard deviations', () => {
    const deep = (mm: number, sigma = 0.01, within = 9) => marks({ at: disc(0.9), subject: -mm, sigma, within }).length;
    expect(deep(0.125)).toBe(1);
    expect(deep(0.115)).toBe(0);
    expect(deep(0.26, 0.05)).toBe(1);
    expect(deep(0.24, 0.05)).toBe(0);
    // The rim 1.5 mm off the spot's middle: within 0.8 mm of its edge.
    expect(deep(0.26, 0.01, 1.5)).toBe(1);
    expect(deep(0.24, 0.01, 1.5)).toBe(0);
    expect(deep(0.24, 0.01, 2.2)).toBe(1);
  });

  it('measure by the quarter that departs most', () => {
    // Three tenths of the spot 0.2 mm deep, the rest 0.05 mm: the surroundings hold.
    const relief = (share: number) => {
      const cells = all.filter((i) => disc(1.5)(...place(i)));
      const deep = new Set(cells.slice(0, Math.round(share * cells.length)));
      return marks({
        at: (x, y) =>
          disc(1.5)(x, y) && deep.has(Math.round((top - y) / pitch) * width + Math.round((x - left) / pitch)),
        subject: -0.2,
      }).length;
    };
    expect(relief(0.6)).toBe(1);
  });

  it('want half a square millimetre and hang together', () => {
    const square = (mm: number) => (x: number, y: number) => Math.abs(x) < mm / 2 && Math.abs(y) < mm / 2;
    // 3 × 3 cells are 0.36 mm², 4 × 4 are 0.64 mm².
    expect(marks({ at: square(0.5), subject: -0.3 })).toEqual([]);
    expect(marks({ at: (x, y) => x > -0.5 && x < 0.3 && y > -0.5 && y < 0.3, subject: -0.3 })).toHaveLength(1);
    expect(marks({ at: (x, y) => disc(0.9, -4)(x, y) || disc(0.9, 4)(x, y), subject: -0.3 })).toHaveLength(2);
  });

  it('are no edge of a break: a third of them at most within two cells of missing data', () => {
    const beside = (x0: number) => marks({ at: disc(1.5), subject: -0.3, gap: (x) => x > x0 }).length;
    expect(beside(1.7)).toBe(1);
    expect(beside(-0.5)).toBe(0);
    expect(beside(1.05)).toBe(1);
    const taken = Uint8Array.from(all, (i) => (disc(2)(...place(i)) ? 1 : 0));
    expect(marks({ at: disc(0.9), subject: -0.3, taken })).toEqual([]);
  });

  it('are round and small, or ragged, or a region, by their cells', () => {
    const shape = (spot: Spot) => marks(spot)[0]?.shape;
    expect(shape({ at: disc(1.35), subject: -0.3 })).toBe('pit');
    expect(shape({ at: disc(1.45), subject: -0.3 })).toBe('chip');
    expect(shape({ at: disc(1.2), subject: 0.3 })).toBe('bubble');
    expect(shape({ at: disc(1.35), subject: 0.3 })).toBe('smear');
    const ellipse = (ratio: number) => (x: number, y: number) => Math.hypot(x, y / ratio) < 1;
    // The share of the round about that an ellipse fills is its ratio, less what the half cell adds.
    expect(shape({ at: ellipse(0.75), subject: -0.3 })).toBe('pit');
    expect(shape({ at: ellipse(0.42), subject: -0.3 })).toBe('chip');
    expect(shape({ at: disc(0.9, 0, 7.2), subject: -0.3, within: 8.6 })).toBe('chip');
    expect(shape({ at: disc(0.9, 0, 6.4), subject: -0.3, within: 8.6 })).toBe('pit');
    expect(shape({ at: disc(3.5), subject: -0.3 })).toBe('chip');
    expect(shape({ at: disc(3.65), subject: -0.3 })).toBe('region');
    expect(shape({ at: disc(3.65), reference: 0.3 })).toBe('region');
    expect(shape({ at: disc(3.5), reference: 0.3 })).toBe('pit');
  });

  it('have the name of what they are on their carrier, whichever of the two that is', () => {
    const named = (departs: number, sense: 'intaglio' | 'relief', r: number) =>
      (['reference', 'subject'] as const).map(
        (carrier) =>
          marks({ at: disc(r), [carrier]: departs, senses: { referenceSense: sense, subjectSense: sense } })[0]?.shape,
      );
    expect(named(-0.3, 'relief', 0.9)).toEqual(['pit', 'pit']);
    expect(named(-0.3, 'relief', 2)).toEqual(['chip', 'chip']);
    expect(named(0.3, 'relief', 0.9)).toEqual(['bubble', 'bubble']);
    expect(named(0.3, 'relief', 2)).toEqual(['smear', 'smear']);
    expect(named(0.3, 'intaglio', 0.9)).toEqual(['pit', 'pit']);
    expect(named(-0.3, 'intaglio', 0.9)).toEqual(['smear', 'smear']);
  });
});

import { describe, expect, it } from 'vitest';
import { curveOf, idealOutline } from '../../src/core/design/legend/baseCurve.ts';
import { chosenRing, type Ring } from '../../src/core/design/legend/chosenRing.ts';
import { bandDefaults } from '../../src/core/design/legend/findBands.ts';
import { ringMargin, ringRows } from '../../src/core/design/legend/ringPicture.ts';
import type { RingSigns } from '../../src/core/design/legend/ringSigns.ts';
import type { HeightGrid } from '../../src/core/geometry/index.ts';

const place = { cx: 0, cy: 0, turnDeg: 0, a: 15, b: 15 };
const curve = curveOf(idealOutline('round', place, 720));

interface Edges {
  readonly outer?: number;
  readonly inner?: number;
}

/** Letters between two depths, a gap of 0.3 mm beside them on both sides, behind it a border line or none; on an `arc` strokes run on over both. */
const ring = (from: number, to: number, worth: number, lines: Edges = {}, arc = 0): Ring => ({
  aligned: { shape: 'round', place, curve, explained: 0.2 },
  band: {
    outerMm: from - 0.3,
    innerMm: to + 0.3,
    insideMm: to + 0.3,
    lettersOuterMm: from,
    lettersInnerMm: to,
    outerLine: lines.outer ?? 0,
    innerLine: lines.inner ?? 0,
    edges: 0,
    score: 0,
  },
  picture: strokes(arc),
  signs: {} as RingSigns,
  worth,
});

/** Strokes all round, every fourth column; over the edges of the letters along a share of it. */
function strokes(share: number): HeightGrid {
  const [width, height] = [40 * ringRows, ringRows + 2 * ringMargin];
  const z = new Float32Array(width * height);
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const stroke = c % 4 === 0 ? 1 : -0.3;
      const letters = r >= ringMargin && r < ringMargin + ringRows;
      z[r * width + c] = letters || c < share * width ? stroke : c % 3 === 0 ? 0.2 : -0.1;
    }
  return { width, height, pitch: 0.2, left: 0, top: 0, z, mask: new Uint8Array(z.length).fill(1) };
}

const chosen = (...rings: Ring[]): Ring => chosenRing(rings, bandDefaults);

describe('the ring that is chosen', () => {
  it('is the one of the greatest worth, in whichever order they come', () => {
    const rings = [ring(2, 5, 9), ring(7, 9, 11), ring(3, 4, 10)];
    expect(chosen(...rings)).toBe(rings[1]);
    expect(chosen(...rings.reverse())).toBe(rings[1]);
  });

  it('ends at a border line where another nearly as worthy does, inside or outside', () => {
    for (const line of [{ inner: 0.7 }, { outer: 0.7 }]) {
      const bounded = ring(3, 5.5, 10.2, line);
      const over = line.inner ? ring(3, 6.4, 11) : ring(2.1, 5.5, 11);
      expect(chosen(over, bounded)).toBe(bounded);
      expect(chosen(over, { ...bounded, worth: 9.9 })).toBe(over);
      const other = line.inner ? ring(2.1, 5.5, 11) : ring(3, 6.4, 11);
      expect(chosen(other, bounded)).toBe(other);
    }
  });

  it('takes tall letters whole, where an arc of them runs on over the edge, but no border line along', () => {
    const tall = ring(3, 6.4, 10.2);
    for (const arc of [0.3, 0.5, 1]) {
      const low = ring(3, 5.5, 11, {}, arc);
      expect(chosen(low, tall)).toBe(tall);
      const bounded = ring(3, 5.5, 11, { inner: 0.7 }, arc);
      expect(chosen(bounded, tall)).toBe(bounded);
    }
    const whole = ring(3, 5.5, 11, {}, 0.1);
    expect(chosen(whole, tall)).toBe(whole);
  });
});

import { schemePuOr } from 'd3-scale-chromatic';
import { describe, expect, it } from 'vitest';
import {
  differenceColour,
  differenceScale,
  endOfScale,
  hex,
  levelGrey,
  type Rgb,
} from '../../src/core/compare/index.ts';

/** CIE L*a*b* of an sRGB colour under D65 (definition of IEC 61966-2-1 and CIE 15). */
function lab(colour: readonly number[]): { L: number; a: number; b: number } {
  const [r, g, b] = colour.map((byte) => {
    const c = byte / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
  return { L: 116 * y - 16, a: 500 * (x - y), b: 200 * (y - z) };
}

const shares = [0.01, 0.1, 0.25, 0.4, 0.5, 0.6, 0.75, 0.9, 1];

describe('the colours of depth differences', () => {
  it('are those that ColorBrewer publishes for PuOr, 11 classes, at the ends and between', () => {
    expect(hex(differenceColour(-1, 1))).toBe('#7f3b08');
    expect(hex(differenceColour(-0.5, 1))).toBe('#e08214');
    expect(hex(differenceColour(1 / 3, 1))).toBe('#b2abd2');
    expect(hex(differenceColour(1, 1))).toBe('#542788');
  });

  it('stand class by class in PuOr as a general library of colour schemes has it (d3-scale-chromatic)', () => {
    const published = schemePuOr[11];
    for (let k = 0; k <= 4; k++) expect(hex(differenceColour(-Math.max(1e-9, k / 4), 1))).toBe(published[6 + k]);
    for (let k = 0; k <= 3; k++) expect(hex(differenceColour(k / 3, 1))).toBe(published[4 - k]);
  });

  it('are symmetric about zero: equal differences either way are about equally dark', () => {
    for (const share of shares) {
      const apart = lab(differenceColour(share, 1)).L - lab(differenceColour(-share, 1)).L;
      expect(Math.abs(apart)).toBeLessThan(7);
    }
  });

  it('grow darker with the difference, steadily, on both sides', () => {
    for (const side of [-1, 1]) {
      const lightness = shares.map((share) => lab(differenceColour(side * share, 1)).L);
      for (let i = 1; i < lightness.length; i++) expect(lightness[i]).toBeLessThan(lightness[i - 1]);
    }
  });

  it('differ between the sides along yellow and blue, which red-green blindness leaves', () => {
    for (const share of shares) {
      expect(lab(differenceColour(-share, 1)).b).toBeGreaterThan(10);
      expect(lab(differenceColour(share, 1)).b).toBeLessThan(-5);
    }
  });

  it('stay apart from the grey of no measurable difference, however small the difference', () => {
    const grey = lab(levelGrey);
    const apart = (colour: Rgb): number => {
      const { L, a, b } = lab(colour);
      return Math.hypot(L - grey.L, a - grey.a, b - grey.b);
    };
    for (const share of [-1e-9, 1e-9]) expect(apart(differenceColour(share, 1))).toBeGreaterThan(15);
    expect(Math.hypot(grey.a, grey.b)).toBeLessThan(6);
  });

  it('are given as one list for a card or a gradient, from which the card’s own rule gives the same colours', () => {
    const scale = differenceScale();
    expect(scale).toHaveLength(26);
    // The rule of the app's shader: 12 intervals a side, linear between.
    const drawn = (part: number): number[] => {
      const at = Math.min(1, Math.abs(part)) * 12;
      const low = Math.min(11, Math.floor(at));
      const [first, side] = part < 0 ? [12, -1] : [13, 1];
      const [p, q] = [scale[first + side * low], scale[first + side * (low + 1)]];
      return p.map((value, c) => value + (at - low) * (q[c] - value));
    };
    for (let part = -1.2; part <= 1.2; part += 0.037)
      for (const c of [0, 1, 2])
        expect(Math.abs(drawn(part)[c] - differenceColour(part, 1)[c])).toBeLessThanOrEqual(1.1);
  });

  it('depend on the share of the scale alone, and stop at its ends', () => {
    expect(differenceColour(0.06, 0.2)).toEqual(differenceColour(0.3, 1));
    expect(differenceColour(7, 0.2)).toEqual(differenceColour(0.2, 0.2));
  });

  it('have a scale that ends at an easy number above most differences and well above the level of detection', () => {
    expect(endOfScale(0.17, 0.03)).toBe(0.2);
    expect(endOfScale(0.01, 0.1)).toBe(0.3);
    expect(endOfScale(99, 0.1)).toBe(5);
    expect(endOfScale(0.17, Number.NaN)).toBe(0.2);
  });
});

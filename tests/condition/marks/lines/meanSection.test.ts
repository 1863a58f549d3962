import { describe, expect, it } from 'vitest';
import type { LineProfiles } from '../../../../src/core/condition/marks/lines/lineProfiles.ts';
import { meanSection } from '../../../../src/core/condition/marks/lines/meanSection.ts';

const stepMm = 0.02;
const half = 60;
const aside = Float64Array.from({ length: 2 * half + 1 }, (_, k) => (k - half) * stepMm);

/** Rows of a line `lengthMm` long, eight steps a millimetre; `section` by place across and along, mm. */
function profiles(section: (t: number, along: number) => number, lengthMm = 10): LineProfiles {
  const along = Float64Array.from({ length: 8 * lengthMm }, (_, k) => 5 + k / 8);
  const rows = Array.from(along, (u) => Float32Array.from(aside, (t) => section(t, u - 5)));
  const crest = Float64Array.from(rows, (row) => row[half]);
  return {
    aside,
    along,
    rows,
    crest,
    ground: new Float64Array(along.length),
    tallMm: Math.max(...crest),
    overDesign: true,
  };
}

const triangle = (t: number, high = 0.3, foot = 0.4): number => high * Math.max(0, 1 - Math.abs(t) / foot);
const of = (section: (t: number, along: number) => number, pitchMm = 0.05, lengthMm = 10) =>
  meanSection(profiles(section, lengthMm), pitchMm);

describe('the mean section', () => {
  it('gives a triangle back: depth, width, area, flanks, fullness, no spread', () => {
    const section = of((t) => triangle(t));
    expect(section?.depthMm).toBeCloseTo(0.3, 6);
    expect(section?.mostMm).toBeCloseTo(0.3, 6);
    expect(section?.widthMm).toBeCloseTo(0.4, 5);
    // Between the feet, at a tenth of the depth: a hundredth is left out at the two ends.
    expect(Math.abs((section?.areaMm2 ?? 0) - 0.99 * 0.12)).toBeLessThan(0.001);
    expect(section?.flankDeg[0]).toBeCloseTo((Math.atan2(0.3, 0.4) * 180) / Math.PI, 4);
    expect(section?.flankDeg[1]).toBeCloseTo((Math.atan2(0.3, 0.4) * 180) / Math.PI, 4);
    expect(section?.fullness).toBeCloseTo(1 / 3, 5);
    expect(section?.bottom).toBe('vee');
    expect(section?.depthSdMm).toBe(0);
    expect(section?.widthSdMm).toBe(0);
    expect(section?.areaSdMm2).toBe(0);
    expect(section?.widthSpread).toBe(0);
    expect(section?.pieces).toBe(10);
    expect(section?.asideMm).toEqual(aside);
    aside.forEach((t, k) => {
      expect(section?.heightMm[k]).toBeCloseTo(triangle(t), 6);
    });
  });

  it('keeps right and left of the way apart', () => {
    const steep = (t: number): number => 0.3 * Math.max(0, 1 - (t < 0 ? -t / 0.2 : t / 0.6));
    const [a, b] = [of(steep), of((t) => steep(-t))];
    expect(a?.flankDeg[0]).toBeCloseTo((Math.atan2(0.3, 0.2) * 180) / Math.PI, 3);
    expect(a?.flankDeg[1]).toBeCloseTo((Math.atan2(0.3, 0.6) * 180) / Math.PI, 3);
    expect(b?.flankDeg[0]).toBeCloseTo(a?.flankDeg[1] ?? 0, 6);
    expect(a?.widthMm).toBeCloseTo(0.4, 5);
    expect(b?.areaMm2).toBeCloseTo(a?.areaMm2 ?? 0, 6);
    expect(Math.abs((a?.areaMm2 ?? 0) - 0.99 * 0.12)).toBeLessThan(0.001);
  });

  it.each([
    ['vee', 0.45],
    ['unresolved', 0.47],
    ['unresolved', 0.51],
    ['round', 0.53],
    ['round', 0.76],
    ['flat', 0.81],
  ])('reads the bottom as %s at a fullness of %s', (bottom, fullness) => {
    // Straight from the middle to three quarters at half the width, then to one quarter: full by choice.
    const [inner, outer] = [0.3 * fullness, 0.3];
    const form = (t: number): number => {
      const a = Math.abs(t);
      if (a <= inner) return 0.3 * (1 - (0.25 * a) / inner);
      return Math.max(0, 0.3 * (0.75 - (0.5 * (a - inner)) / (outer - inner)));
    };
    const section = of(form);
    expect(section?.fullness).toBeCloseTo(fullness, 1);
    expect(section?.bottom).toBe(bottom);
  });

  it('reads no bottom from fewer than four cells of width', () => {
    expect(of((t) => triangle(t), 0.4 / 4.05)?.bottom).toBe('vee');
    expect(of((t) => triangle(t), 0.4 / 3.95)?.bottom).toBe('unresolved');
  });

  it('finds what was thrown up beside the feet, against the line’s own sense', () => {
    // Lips of 0.05 and 0.03 mm from the foot (0.4 mm) outward.
    const lips = of((t) => triangle(t) - (t < -0.4 ? 0.05 : t > 0.4 ? 0.03 : 0));
    expect(lips?.lipMm[0]).toBeCloseTo(0.05, 2);
    expect(lips?.lipMm[1]).toBeCloseTo(0.03, 2);
    // Over six tenths of the width, 0.24 mm, or two cells; what lies farther off is none of it.
    const far = of((t) => triangle(t) - (t > 0.68 ? 0.5 : 0));
    expect(far?.lipMm[1]).toBeCloseTo(0, 2);
    expect(of((t) => triangle(t) - (t > 0.68 ? 0.5 : 0), 0.16)?.lipMm[1]).toBeGreaterThan(0.02);
    const falling = of((t) => triangle(t) + (Math.abs(t) > 0.44 ? 0.02 : 0));
    expect(falling?.lipMm[0]).toBeLessThan(0);
  });

  it('averages pieces of a millimetre, the extreme fifths left out', () => {
    const mild = [0.3, 0.33, 0.27, 0.3, 0.5, 0.3, 0.34, 0.26, 0.3, 0.15];
    const kept = of((t, along) => triangle(t, mild[Math.floor(along)]));
    const inner = [...mild].sort((a, b) => a - b).slice(2, 8);
    expect(kept?.depthMm).toBeCloseTo(inner.reduce((sum, value) => sum + value, 0) / 6, 5);
    // Median absolute deviation about 0.3: 0.03; σ = 1.4826 of it, ×1.06/√10.
    const mad = [...mild.map((value) => Math.abs(value - 0.3))].sort((a, b) => a - b);
    expect(kept?.depthSdMm).toBeCloseTo((1.06 * 1.4826 * ((mad[4] + mad[5]) / 2)) / Math.sqrt(10), 5);
    expect(kept?.pieces).toBe(10);
  });

  it('spreads as its width does along the line', () => {
    const feet = [0.4, 0.44, 0.36, 0.4, 0.42, 0.38, 0.4, 0.46, 0.34, 0.4];
    const section = of((t, along) => triangle(t, 0.3, feet[Math.floor(along)]));
    const mad = [...feet.map((foot) => Math.abs(foot - 0.4))].sort((a, b) => a - b);
    const sd = 1.4826 * ((mad[4] + mad[5]) / 2);
    expect(section?.widthSpread).toBeCloseTo(sd / 0.4, 2);
    expect(section?.widthSdMm).toBeCloseTo(sd / Math.sqrt(10), 3);
    // A foot at a tenth of the depth; area of a triangle less its two ends.
    expect(section?.areaSdMm2).toBeGreaterThan(0);
  });

  it('leaves out steps that stand less than a quarter of the tallest, and pieces with less than a third of their steps', () => {
    const low = (share: number) => of((t, along) => triangle(t, along < 5 ? 0.3 : 0.3 * share));
    expect(low(0.26)?.pieces).toBe(10);
    expect(low(0.24)?.pieces).toBe(5);
    expect(low(0.24)?.depthMm).toBeCloseTo(0.3, 6);
    const few = (steps: number) => of((t, along) => triangle(t, along % 1 < steps / 8 || along < 3 ? 0.3 : 0));
    expect(few(3)?.pieces).toBe(10);
    expect(few(2)?.pieces).toBe(3);
  });

  it('wants four steps, two pieces, and a middle that stands', () => {
    expect(of((t) => triangle(t), 0.05, 2)).not.toBeNull();
    expect(of((t) => triangle(t), 0.05, 1)).toBeNull();
    expect(of((t, along) => (along < 0.35 ? triangle(t) : 0))).toBeNull();
    expect(of(() => 0)).toBeNull();
  });

  it('says what stands higher beside it, and passes over missing cells', () => {
    const section = of((t, along) => (along < 4 && t > 0.9 ? Number.NaN : t > 0.8 ? 0.7 : triangle(t)));
    expect(section?.mostMm).toBeCloseTo(0.7, 6);
    expect(section?.heightMm.at(-1)).toBeCloseTo(0.7, 6);
    expect(section?.depthMm).toBeCloseTo(0.3, 6);
  });
});

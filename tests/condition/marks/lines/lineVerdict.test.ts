import { describe, expect, it } from 'vitest';
import type { LineNumbers, MeanSection } from '../../../../src/core/condition/marks/lines/lineTypes.ts';
import { lineVerdict, lipsOf } from '../../../../src/core/condition/marks/lines/lineVerdict.ts';

/** A line of the numbers of a typical cut, every one of them in the middle of what cuts have. */
const section = {
  pieces: 12,
  depthMm: 0.3,
  depthSdMm: 0.01,
  mostMm: 0.3,
  widthMm: 0.53,
  widthSpread: 0.1,
  areaMm2: 10 ** -0.72,
  lipMm: [0, 0],
  lipSdMm: [0.001, 0.001],
} as unknown as MeanSection;

const numbers = (ofSection: Partial<MeanSection> = {}, more: Partial<LineNumbers> = {}): LineNumbers => ({
  section: { ...section, ...ofSection },
  level: null,
  lengthMm: 20,
  strayMm: 0.02,
  wanderMm: 20 * 10 ** -2.75,
  seen: 1,
  pitchMm: 0.01,
  ...more,
});

const groundOf = (name: string, of: LineNumbers) => lineVerdict(of).grounds.find((ground) => ground.name === name);

describe('whether a line was measured well enough', () => {
  // docs/condition.md: at least three pieces, deeper than four standard deviations, at least three quarters of what
  // stands beside it, seen over half of its way, its width within 45 %.
  it.each([
    ['pieces', numbers({ pieces: 3 }), numbers({ pieces: 2 })],
    ['depth over its sd', numbers({ depthSdMm: 0.0749 }), numbers({ depthSdMm: 0.0751 })],
    ['what stands beside', numbers({ mostMm: 0.399 }), numbers({ mostMm: 0.401 })],
    ['share seen', numbers({}, { seen: 0.5 }), numbers({}, { seen: 0.499 })],
    ['spread of the width', numbers({ widthSpread: 0.449 }), numbers({ widthSpread: 0.451 })],
  ])('turns at its limit of %s', (_, well, badly) => {
    expect(lineVerdict(well).order).toHaveLength(3);
    expect(lineVerdict(badly)).toEqual({ verdict: 'cannotTell', fits: false, order: [], lead: 0, grounds: [] });
  });

  it('says nothing of a line without numbers', () => {
    expect(lineVerdict(null).verdict).toBe('cannotTell');
  });
});

describe('the grounds of a verdict', () => {
  /** Log to the base of ten of a normal density over its greatest value. */
  const normal = (off: number, spread: number): number => Math.log10(Math.exp(-(off ** 2) / (2 * spread ** 2)));

  it('weighs the section area by normal densities of the logarithm, capped, best kind at 0', () => {
    const at = (log: number) => groundOf('size', numbers({ areaMm2: 10 ** log }));
    expect(at(-0.72)?.cut).toBeCloseTo(0, 9);
    expect(at(-0.72)?.crack).toBeCloseTo(normal(0.63, 0.27), 6);
    expect(at(-0.72)?.scratch).toBe(-2.5);
    expect(at(-1.35)?.crack).toBeCloseTo(0, 9);
    expect(at(-1.35)?.cut).toBeCloseTo(normal(0.63, 0.27), 6);
    expect(at(-1.35)?.scratch).toBeCloseTo(normal(0.45, 0.27), 6);
    expect(at(-1.8)?.scratch).toBeCloseTo(0, 9);
    // Beyond the outermost middles nothing more is said.
    expect(at(-2.6)).toEqual(at(-1.8));
    expect(at(0.4)).toEqual(at(-0.72));
  });

  it('weighs wander over length, known to a tenth of a cell', () => {
    const at = (log: number, lengthMm = 20) =>
      groundOf('wander', numbers({}, { wanderMm: lengthMm * 10 ** log, lengthMm, pitchMm: 1e-6 }));
    expect(at(-2.2)?.crack).toBeCloseTo(0, 9);
    expect(at(-2.2)?.cut).toBeCloseTo(Math.max(-1, normal(0.55, 0.3)), 6);
    expect(at(-2.2)?.scratch).toBeCloseTo(normal(0.15, 0.3), 6);
    expect(at(-2.75)?.scratch).toBeCloseTo(normal(0.4, 0.3), 6);
    expect(at(-2.5, 7)?.cut).toBeCloseTo(at(-2.5, 20)?.cut ?? 9, 9);
    // 3 and 4 make 5: a wander of 0.03 mm on cells of 0.4 mm.
    const blurred = groundOf('wander', numbers({}, { wanderMm: 0.03, pitchMm: 0.4 }));
    expect(blurred?.cut).toBeCloseTo(groundOf('wander', numbers({}, { wanderMm: 0.05, pitchMm: 1e-6 }))?.cut ?? 9, 6);
  });

  it('weighs depth over width where the line is resolved, or steeper than a crack mostly is', () => {
    const at = (log: number, pitchMm = 0.01) =>
      groundOf('steepness', numbers({ widthMm: 0.3 / 10 ** log }, { pitchMm }));
    expect(at(-0.6)?.scratch).toBeCloseTo(0, 9);
    expect(at(-0.6)?.cut).toBeCloseTo(normal(0.35, 0.2) - 0, 6);
    expect(at(-0.6)?.crack).toBeCloseTo(normal(0.3, 0.2), 6);
    expect(at(-0.25)?.cut).toBeCloseTo(0, 9);
    expect(at(-0.25)?.scratch).toBeCloseTo(Math.max(-1, normal(0.35, 0.2)), 6);
    const width = 0.3 / 10 ** -0.5;
    expect(at(-0.5, width / 2.61)).toBeDefined();
    expect(at(-0.5, width / 2.59)).toBeUndefined();
    expect(at(-0.29, 1)).toBeDefined();
    expect(at(-0.31, 1)).toBeUndefined();
  });

  it('weighs one level for a cut and against a crack, one height for a crack no more than against a cut', () => {
    const at = (forLevel: number, ground: 'design' | 'sides' = 'design') =>
      groundOf('level', numbers({}, { level: { forLevel, ground } as LineNumbers['level'] }));
    expect(at(5)).toMatchObject({ cut: 1.5, crack: -1.5, scratch: 0 });
    expect(at(50)).toEqual(at(5));
    expect(at(2)?.cut).toBeCloseTo(0.6, 12);
    expect(at(2)?.crack).toBeCloseTo(-0.6, 12);
    expect(at(-2)?.cut).toBeCloseTo(-0.6, 12);
    expect(at(-2)?.crack).toBeCloseTo(0, 12);
    expect(at(-50)?.cut).toBe(-1.5);
    expect(at(5, 'sides')?.cut).toBe(0.75);
    expect(groundOf('level', numbers())).toBeUndefined();
  });

  it('counts a lip from three standard deviations, four hundredths of the depth and 0.015 mm on', () => {
    const on = (right: number, left: number, sd = 0.001, depthMm = 0.3): number[] =>
      lipsOf({ ...section, lipMm: [right, left], lipSdMm: [sd, sd], depthMm });
    expect(on(0.016, 0.014)).toEqual([0]);
    expect(on(0.014, 0.016)).toEqual([1]);
    expect(on(0.041, 0.039, 0.001, 1)).toEqual([0]);
    expect(on(0.031, 0.029, 0.01)).toEqual([0]);
    expect(on(0.05, 0.05)).toEqual([0, 1]);
    expect(groundOf('lips', numbers({ lipMm: [0.05, 0.05] }))).toMatchObject({ cut: 0, crack: -1, scratch: 0 });
    expect(groundOf('lips', numbers({ lipMm: [0.05, 0] }))).toMatchObject({ crack: -0.5 });
    expect(groundOf('lips', numbers())).toBeUndefined();
  });
});

describe('the verdict', () => {
  const total = (of: LineNumbers, kind: 'cut' | 'crack' | 'scratch'): number =>
    lineVerdict(of).grounds.reduce((sum, ground) => sum + ground[kind], 0);

  it('orders the kinds by the sums of their grounds and leads by the difference of the first two', () => {
    for (const log of [-0.5, -0.9, -1.2, -1.5, -1.9]) {
      const of = numbers({ areaMm2: 10 ** log });
      const { order, lead } = lineVerdict(of);
      const sums = order.map((kind) => total(of, kind));
      expect([...sums].sort((a, b) => b - a)).toEqual(sums);
      expect(lead).toBeCloseTo(sums[0] - sums[1], 9);
    }
  });

  it('says a kind from a lead of 0.4 on', () => {
    // One ground alone moves between cut and crack; their leads lie to either side of the limit.
    const leads = Array.from({ length: 81 }, (_, k) =>
      numbers({ areaMm2: 10 ** (-0.7 - k / 100), widthMm: 1.1 }, { wanderMm: 20 * 10 ** -2.3, pitchMm: 1 }),
    );
    const said = leads.map((of) => lineVerdict(of));
    for (const { lead, verdict, order, fits } of said) {
      expect(fits).toBe(true);
      expect(verdict).toBe(lead >= 0.4 ? order[0] : 'cannotTell');
    }
    expect(new Set(said.map(({ verdict }) => verdict)).size).toBeGreaterThan(1);
  });

  it('says none where even the best sums to less than −0.9', () => {
    // One height speaks against a cut, lips against a crack, steep flanks against a scratch: every kind loses by something.
    const level = { forLevel: -5, ground: 'design' } as LineNumbers['level'];
    const tried = Array.from({ length: 61 }, (_, k) => {
      const of = numbers(
        { areaMm2: 10 ** (-1.35 - k / 100), lipMm: [0.1, 0.1], widthMm: 0.3 / 10 ** -0.25 },
        { level, wanderMm: 20 * 10 ** -2.2, pitchMm: 0.001 },
      );
      return { ...lineVerdict(of), best: total(of, lineVerdict(of).order[0]) };
    });
    for (const { fits, best, verdict } of tried) {
      expect(fits).toBe(best >= -0.9);
      if (!fits) expect(verdict).toBe('cannotTell');
    }
    // Some lie just beyond the limit, some just within it.
    expect(tried.some(({ best }) => best < -0.9 && best > -1.1)).toBe(true);
    expect(tried.some(({ best }) => best > -0.9 && best < -0.7)).toBe(true);
  });
});

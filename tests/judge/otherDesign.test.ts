import { describe, expect, it } from 'vitest';
import type { Face } from '../../src/core/face/index.ts';
import type { Chance } from '../../src/core/fit/chance.ts';
import { clearSignificance } from '../../src/core/judge/clear.ts';
import { pairEvidence } from '../../src/core/judge/gates.ts';
import { bumps } from '../fit/relief.ts';
import { analyticFace, disc, ringWithGap, waves } from './analyticFace.ts';
import { fitWith } from './fitWith.ts';

const [one, other] = [bumps(5, 10), bumps(6, 10)];
const reference = analyticFace(one.height, disc());
const subject = analyticFace(other.height, disc());
const clear = clearSignificance(reference, subject, 20);

interface Seen {
  readonly a: Face;
  readonly b: Face;
  readonly significance: number;
  readonly chance: Chance;
}

/** Nothing corresponds, chance reaches little. */
const apart: Seen = {
  ...{ a: reference, b: subject },
  significance: 0.3 * clear,
  chance: { location: 0.2 * clear, spread: 0.5, log10P: -1, mirror: 0.2 * clear },
};

const finding = (changes: Partial<Seen> = {}): string => {
  const { a, b, significance, chance } = { ...apart, ...changes };
  return pairEvidence(a, b, fitWith({ found: false, significance, chance })).finding;
};

/** What must stand below the clearness: a chance of 10⁻⁴ under a Gumbel law, 4 ln 10 spreads above its location. */
const chanceAt = (need: number): Chance => ({ ...apart.chance, location: need - 0.5 * 4 * Math.LN10 });

describe('another design is said', () => {
  it('of two whole faces that are clear and of which nothing corresponds, in either order', () => {
    expect(finding()).toBe('otherDesign');
    expect(finding({ a: subject, b: reference })).toBe('otherDesign');
  });

  it('where the best place reaches at most 0.65 of what one matrix would', () => {
    expect(finding({ significance: 0.649 * clear })).toBe('otherDesign');
    expect(finding({ significance: 0.651 * clear })).toBe('undecided');
  });

  it('never of a piece that is far longer than the whole image beside it', () => {
    const piece = analyticFace(waves(1), (x, y) => Math.hypot(x, y) < 11.9 && x < 2);
    const beside = (radiusMm: number) => {
      const whole = analyticFace(waves(2), disc(radiusMm));
      const need = clearSignificance(whole, piece, 20);
      const chance = { ...apart.chance, location: 0.2 * need, mirror: 0.2 * need };
      return pairEvidence(whole, piece, fitWith({ found: false, significance: 0.3 * need, chance }));
    };
    expect(beside(9).finding).toBe('otherDesign');
    const { finding, gates } = beside(8.2);
    expect(finding).toBe('undecided');
    expect(gates.filter(({ passed }) => !passed).map(({ code }) => code)).toEqual(['pieceLength']);
  });

  it('never where the deep motif corresponds, though the fainter rest does not', () => {
    const { height: motif } = bumps(7, 5);
    const seal = (rest: number, deep: (x: number, y: number) => number) =>
      analyticFace((x, y) => 0.3 * waves(rest)(x, y) + deep(x, y), disc());
    const pair = (a: Face, b: Face) => {
      const need = clearSignificance(a, b, 20);
      const chance = { ...apart.chance, location: 0.2 * need, mirror: 0.2 * need };
      return pairEvidence(a, b, fitWith({ found: false, significance: 0.3 * need, chance }));
    };
    const common = pair(seal(1, motif), seal(2, motif));
    expect(common.gates.filter(({ passed }) => !passed).map(({ code }) => code)).toEqual(['nothingByHeight']);
    expect(pair(seal(1, motif), seal(2, bumps(8, 5).height)).finding).toBe('otherDesign');
  });

  it('where one matrix would reach what chance reaches once in ten thousand', () => {
    expect(finding({ chance: chanceAt(0.999 * clear) })).toBe('otherDesign');
    expect(finding({ chance: chanceAt(1.001 * clear) })).toBe('undecided');
  });

  it('where one matrix would reach 1.15 times what a reflection reaches', () => {
    const mirrored = (share: number) => finding({ chance: { ...apart.chance, mirror: (share * clear) / 1.15 } });
    expect([mirrored(0.999), mirrored(1.001)]).toEqual(['otherDesign', 'undecided']);
  });

  const areaPassed = (b: Face): boolean | undefined =>
    pairEvidence(reference, b, fitWith({ found: false, significance: 0, chance: apart.chance })).gates.find(
      ({ code }) => code === 'areaShare',
    )?.passed;

  it('where the smaller image, being whole, is 0.15 of the greater', () => {
    const small = (share: number) => analyticFace(other.height, disc(10 * Math.sqrt(share)));
    expect([areaPassed(small(0.17)), areaPassed(small(0.13))]).toEqual([true, false]);
  });

  it('where the smaller image, being a piece, is half of the greater: it might bear nothing but a legend cut anew', () => {
    const half = (share: number) =>
      analyticFace(other.height, (x, y) => disc(10 * Math.sqrt(2 * share))(x, y) && x > 0);
    expect([areaPassed(half(0.52)), areaPassed(half(0.48))]).toEqual([true, false]);
  });

  it('where one of the two is whole', () => {
    const cut = (x: number, y: number): boolean => disc()(x, y) && x + 0.3 * y < 3;
    const [a, b] = [analyticFace(one.height, cut), analyticFace(other.height, cut)];
    const passed = (p: Face, q: Face) =>
      pairEvidence(p, q, fitWith({ found: false, significance: 0, chance: apart.chance })).gates.find(
        ({ code }) => code === 'oneWhole',
      )?.passed;
    expect([passed(reference, b), passed(a, subject), passed(a, b)]).toEqual([true, true, false]);
  });

  it('never of a face that was looked at beside the likelier one of its object and taken because it agreed better', () => {
    expect(finding({ a: { ...reference, tried: true } })).toBe('undecided');
    expect(finding({ b: { ...subject, tried: true } })).toBe('undecided');
  });

  it('where there is relief all over both: not of a table', () => {
    const table = analyticFace((x, y) => (Math.hypot(x, y) < 3 ? one.height(x, y) : 0), disc());
    expect([finding({ a: table }), finding({ b: table })]).toEqual(['undecided', 'undecided']);
  });

  it('of faces that are a little emptier where next to nothing corresponds', () => {
    const least = (reached: number) =>
      pairEvidence(reference, subject, fitWith({ found: false, significance: reached * clear, chance: apart.chance }))
        .gates.filter(({ code }) => code === 'reliefEverywhere')
        .map(({ limit }) => limit);
    expect([least(0.33), least(0.34)]).toEqual([[0.1], [0.13]]);
  });

  it('never of a face whose relief a few deep spots carry: the end of what lies on a table', () => {
    const rough = bumps(7, 10);
    const edge = analyticFace((x, y) => 0.01 * rough.height(x, y) + (Math.hypot(x, y - 6) < 0.7 ? 3 : 0), disc());
    const passed = (a: Face, b: Face) =>
      pairEvidence(a, b, fitWith({ found: false, significance: 0, chance: apart.chance })).gates.find(
        ({ code }) => code === 'carriedShare',
      )?.passed;
    expect([passed(reference, subject), passed(edge, subject), passed(reference, edge)]).toEqual([true, false, false]);
  });

  it('never of a face of which nothing stands out of its noise', () => {
    const bare = { ...analyticFace(other.height, disc(), { noiseMm: 1 }), noiseLengthMm: 0.1 };
    const passed = (a: Face, b: Face) =>
      pairEvidence(a, b, fitWith({ found: false, significance: 0, chance: apart.chance })).gates.find(
        ({ code }) => code === 'onlyNoise',
      )?.passed;
    expect([passed(reference, subject), passed(bare, subject), passed(reference, bare)]).toEqual([true, false, false]);
  });
});

describe('another design is never said of a face whose relief runs one way only', () => {
  it('as the side of a break does', () => {
    const side = analyticFace((x, y) => 0.2 * Math.sin(4 * y + 0.3 * Math.sin(x)), disc());
    const passed = (a: Face, b: Face) =>
      pairEvidence(a, b, fitWith({ found: false, significance: 0, chance: apart.chance })).gates.find(
        ({ code }) => code === 'oneWay',
      )?.passed;
    expect([passed(reference, subject), passed(side, subject), passed(reference, side)]).toEqual([true, false, false]);
  });
});

describe('another design is said of two whole seals of unlike size, searched at the scale of the smaller', () => {
  const large = analyticFace(waves(1), disc());
  const small = (seed: number, radius = 3.5): Face => analyticFace(waves(seed), disc(radius));
  const evidence = (a: Face, b: Face) =>
    pairEvidence(a, b, fitWith({ found: false, significance: 2, chance: apart.chance }));

  it('where nothing in the greater one corresponds, in either order', () => {
    for (const [a, b] of [
      [large, small(2)],
      [small(2), large],
    ]) {
      const { finding: said, gates } = evidence(a, b);
      expect(said).toBe('otherDesign');
      expect(gates.find(({ code }) => code === 'areaShare')?.limit).toBe(0.04);
    }
  });

  it('never of a round crumb of the same design, though the search at the scale of both missed it', () => {
    expect(evidence(large, small(1)).finding).toBe('undecided');
  });

  it('never of a piece, nor of one that is less than 0.04 of the greater', () => {
    const piece = analyticFace(waves(2), (x, y) => disc(5)(x, y) && x > 0);
    expect(evidence(large, piece).finding).toBe('undecided');
    expect(evidence(large, small(2, 1.9)).finding).toBe('undecided');
  });
});

describe('another design is said of faces that have little in common at some turns', () => {
  const ring = (seed: number, heightsBy = 1): Face => {
    const height = waves(seed);
    return analyticFace((x, y) => heightsBy * height(x, y), ringWithGap(7));
  };
  const [a, b] = [ring(1), ring(2)];
  /** Not clear at the least favourable turn: chance reaches 8.6 once in ten thousand. */
  const chance: Chance = { location: 4, spread: 0.5, log10P: -1, mirror: 3 };
  const evidence = (p: Face, q: Face, significance = 3) =>
    pairEvidence(p, q, fitWith({ found: false, significance, chance }));

  it('where no turn reaches anything, and not where one does', () => {
    expect(clearSignificance(a, b, 20)).toBeLessThan(8);
    expect(evidence(a, b).finding).toBe('otherDesign');
    const codes = evidence(a, b).gates.map(({ code }) => code);
    expect(codes).toContain('oneDesign');
    expect(codes).not.toContain('clear');
    expect(evidence(a, a).finding).toBe('undecided');
  });

  it('never on relief that is bare for the most part, nor on a scan of fewer than 100 points across', () => {
    const bare = analyticFace((x, y) => (y > 0 ? waves(1)(x, y) : 0), ringWithGap(7));
    expect(evidence(bare, b).finding).toBe('undecided');
    const coarse = analyticFace(waves(1), ringWithGap(7), { pitch: 0.21 });
    expect(evidence(coarse, b).finding).toBe('undecided');
  });

  it('never of a face whose relief a few deep pits carry', () => {
    const offMiddle = (v: number): number => ((v + 30) % 3) - 1.5;
    const pit = (x: number, y: number): number => Math.max(0, 1 - (offMiddle(x) ** 2 + offMiddle(y) ** 2) / 0.16);
    const pitted = (deepMm: number): Face =>
      analyticFace((x, y) => waves(2)(x, y) - deepMm * pit(x, y), ringWithGap(7));
    expect([0, 0.8].map((deepMm) => evidence(a, pitted(deepMm)).finding)).toEqual(['otherDesign', 'undecided']);
  });

  it('never where the search reached more than independent cells do', () => {
    expect(evidence(a, b, 5.01).finding).toBe('undecided');
  });

  it('never of a piece that is less than half of the other: it might lie in its gap', () => {
    const piece = analyticFace(waves(2), (x, y) => ringWithGap(7)(x, y) && x > 2);
    expect(evidence(a, piece).finding).toBe('undecided');
  });
});

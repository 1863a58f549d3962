import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import {
  bit,
  type GeneratedPair,
  type GeneratedScan,
  motifNames,
  randomRecipe,
  relations,
  shapes,
} from '../../sample-scans/generator/index.ts';
import {
  apply,
  compose,
  determinant3,
  identity,
  invert,
  median,
  rootMeanSquare,
} from '../../src/core/geometry/index.ts';
import { distanceByBruteForce, isSoundFace, pairOf, plain, pointMm } from './helpers.ts';

/** Of what holds for a seal of any size: the generator's work grows with its square. */
const sizeMm = 20;

const hashOf = (scan: GeneratedScan): string =>
  createHash('sha256')
    .update(new Uint8Array(scan.positions.buffer))
    .update(new Uint8Array(scan.triangles.buffer))
    .digest('hex');

/** Face frame of one of the pair's scans, mm. */
const onFace = (scan: GeneratedScan, i: number) => apply(scan.faceFromScan, pointMm(scan, i));

describe('a generated pair', () => {
  it('is the same for the same recipe and another for another seed', () => {
    const [a, again, other] = [pairOf(3, { sizeMm }), pairOf(3, { sizeMm }), pairOf(4, { sizeMm })];
    expect(hashOf(again.reference)).toBe(hashOf(a.reference));
    expect(hashOf(again.subject)).toBe(hashOf(a.subject));
    expect(again.truth).toEqual(a.truth);
    expect(hashOf(other.subject)).not.toBe(hashOf(a.subject));
  });

  it('has about as many vertices as asked, all finite, all used, no triangle twice over a vertex', () => {
    for (const seed of [11, 12, 13, 14]) {
      const pair = pairOf(seed, { whole: seed % 2 === 0, coverage: 1, clutter: 0.7, sizeMm });
      for (const scan of [pair.reference, pair.subject]) {
        const n = scan.positions.length / 3;
        expect(n).toBeGreaterThan(7_000);
        expect(n).toBeLessThan(20_000);
        expect(scan.bits).toHaveLength(n);
        expect(scan.positions.every(Number.isFinite)).toBe(true);
        expect(new Set(scan.triangles).size).toBe(n);
        let collapsed = 0;
        for (let i = 0; i < scan.triangles.length; i += 3) {
          const [a, b, c] = scan.triangles.subarray(i, i + 3);
          if (a === b || b === c || c === a) collapsed++;
        }
        expect(collapsed).toBe(0);
      }
    }
  });

  it('gives a subject that is the reference turned over, shrunk and moved, where nothing else happened', () => {
    const pair = pairOf(21, { ...plain, shrink: 0.02, shape: 'round', sizeMm: 30, motif: 'fleur' });
    const similarity = pair.truth.referenceFromSubject ?? identity;
    expect(determinant3(similarity.rotation)).toBeCloseTo(1, 9);
    expect(similarity.scale).toBeCloseTo(1 / 0.98, 6);
    // Reference face ← reference file ← subject file ← subject face is the turn (x, y, z) → (−x, y, −z), scaled.
    const between = compose(pair.reference.faceFromScan, compose(similarity, invert(pair.subject.faceFromScan)));
    const expected = [-1, 0, 0, 0, 1, 0, 0, 0, -1];
    between.rotation.forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i], 6);
    });
    expect(Math.hypot(...between.translation)).toBeLessThan(1e-4);
    const differences = pair.subject.trueDifference ?? new Float32Array();
    expect(rootMeanSquare(differences)).toBeLessThan(1e-4);
  });

  it('carries a reflection only when the file is mirrored', () => {
    const pair = pairOf(22, { ...plain, mirrored: true, sizeMm });
    expect(pair.truth.mirrored).toBe(true);
    expect(determinant3(pair.truth.referenceFromSubject?.rotation ?? [])).toBeCloseTo(-1, 9);
  });

  it('writes coordinates in the unit that the recipe names', () => {
    const recipe = { ...plain, shape: 'round', sizeMm, whole: false, lipMm: 0 } as const;
    const inMm = pairOf(23, recipe);
    const inInch = pairOf(23, { ...recipe, subjectUnit: 'inch', referenceUnit: 'm' });
    expect(inInch.subject.positions[0] * 25.4).toBeCloseTo(inMm.subject.positions[0], 6);
    expect(inInch.reference.positions[0] * 1000).toBeCloseTo(inMm.reference.positions[0], 6);
    expect(inInch.truth.referenceFromSubject).toEqual(inMm.truth.referenceFromSubject);
  });
});

describe('the truth of a pair', () => {
  /** Distances by brute force of noisy sound subject points against true differences, mm. */
  function errors(pair: GeneratedPair, count: number): number[] {
    const similarity = pair.truth.referenceFromSubject ?? identity;
    const truth = pair.subject.trueDifference ?? new Float32Array();
    const sound: number[] = [];
    pair.subject.bits.forEach((bits, i) => {
      const [x, y] = onFace(pair.subject, i);
      if (isSoundFace(bits) && Math.hypot(x, y) < 0.33 * pair.recipe.sizeMm && Math.abs(truth[i]) < 0.2) sound.push(i);
    });
    const step = Math.max(1, Math.floor(sound.length / count));
    const sign = pair.truth.turnedOver ? -1 : 1;
    return sound
      .filter((_, k) => k % step === 0)
      .map((i) => sign * distanceByBruteForce(pair.reference, apply(similarity, pointMm(pair.subject, i))) - truth[i]);
  }

  it.each(['same', 'castOfImpression', 'sisterImpressions', 'recastMatrix'] as const)(
    'tells the distance from every sound point to the reference, up to noise (%s)',
    (relation) => {
      const noiseMm = 0.008;
      const pair = pairOf(31, {
        relation,
        noiseMm,
        vertices: 24_000,
        shape: 'round',
        sizeMm,
        clutter: 0,
        wear: 0.2,
        whole: false,
      });
      const found = errors(pair, 120);
      expect(found.length).toBeGreaterThan(80);
      expect(Math.abs(median(found))).toBeLessThan(0.006);
      // Both scans' noise, and the reference's chords over curved relief.
      expect(rootMeanSquare(found)).toBeLessThan(1.25 * noiseMm * Math.SQRT2 + 0.016);
    },
  );

  it('says subject minus reference: rubbed tops and dirt have their sign', () => {
    const pairs = [32, 33, 34, 35, 36, 37].map((seed) =>
      pairOf(seed, { noiseMm: 0, warpMm: 0, wear: 0.9, clutter: 1, shape: 'round', sizeMm, coverage: 1 }),
    );
    const of = (flag: number): number[] =>
      pairs.flatMap(({ subject }) =>
        Array.from(subject.trueDifference ?? []).filter((_, i) => subject.bits[i] === (bit.face | flag)),
      );
    expect(median(of(bit.worn))).toBeLessThan(-0.02);
    expect(median(of(bit.pit))).toBeLessThan(-0.02);
    expect(median(of(bit.debris))).toBeGreaterThan(0.02);
  });

  it('gives the die cut after the impression as lacking, and the later impression its ridge', () => {
    const recipe = { ...plain, shape: 'round', sizeMm } as const;
    const earlier = pairOf(35, { ...recipe, relation: 'earlierState' });
    const later = pairOf(35, { ...recipe, relation: 'laterState' });
    const extreme = (pair: GeneratedPair): number[] => {
      const truth = Array.from(pair.subject.trueDifference ?? []).filter((_, i) => pair.subject.bits[i] & bit.damage);
      return [Math.min(...truth), Math.max(...truth)];
    };
    expect(earlier.truth.damage.filter(({ carriedBy }) => carriedBy === 'reference').length).toBeGreaterThan(0);
    expect(later.truth.damage.some(({ carriedBy, inSubject }) => carriedBy === 'subject' && inSubject)).toBe(true);
    expect(extreme(earlier)[0]).toBeLessThan(-0.03);
    expect(extreme(later)[1]).toBeGreaterThan(0.03);
  });

  it('knows whether both descend from one die', () => {
    const verdicts = relations.map((relation) => {
      const { truth } = pairOf(36, { relation, vertices: 6_000, sizeMm });
      return [relation, truth.sameMatrix, truth.referenceFromSubject !== null, truth.turnedOver];
    });
    expect(verdicts).toEqual([
      ['same', true, true, true],
      ['handCopy', false, false, true],
      ['stockMotif', false, false, true],
      ['unrelated', false, false, true],
      ['castOfImpression', true, true, true],
      ['recastMatrix', false, true, true],
      ['sisterImpressions', true, true, false],
      ['laterState', true, true, true],
      ['earlierState', true, true, true],
    ]);
  });

  it('makes a recast matrix smaller than the impression that it should have made', () => {
    for (const seed of [41, 42, 43])
      expect(pairOf(seed, { relation: 'recastMatrix', shrink: 0.01, sizeMm }).truth.sizeRatio).toBeGreaterThan(1.005);
  });
});

describe('the legend', () => {
  it('stands in the impression where the truth says: wax is high under a letter’s stroke, clockwise from the top', () => {
    const pair = pairOf(51, {
      ...plain,
      shape: 'round',
      sizeMm: 44,
      motif: 'ship',
      vertices: 60_000,
      relation: 'sisterImpressions',
    });
    const { letters, bandInnerOuterMm, referenceLegend } = pair.truth;
    expect(letters.map(({ char }) => char).join('')).toBe(referenceLegend.replaceAll(/[ ']/g, ''));
    const points = Array.from({ length: pair.reference.bits.length }, (_, i) => onFace(pair.reference, i));
    const field = median(points.map(([, , z]) => z));
    let clockwise = 0;
    letters.forEach((letter, k) => {
      const inBox = points.filter(([x, y]) => Math.hypot(x - letter.x, y - letter.y) < letter.heightMm * 0.5);
      expect(Math.max(...inBox.map(([, , z]) => z)) - field).toBeGreaterThan(0.1);
      expect((Math.atan2(letter.x, letter.y) * 180) / Math.PI).toBeCloseTo(
        letter.angleDeg > 180 ? letter.angleDeg - 360 : letter.angleDeg,
        0,
      );
      const inset = 22 * pair.subject.positions.length ** 0 - Math.hypot(letter.x, letter.y);
      expect(inset).toBeGreaterThan(bandInnerOuterMm[1] - 0.4);
      expect(inset).toBeLessThan(bandInnerOuterMm[0] + 0.4);
      if (k > 0 && letter.angleDeg > letters[k - 1].angleDeg) clockwise++;
    });
    expect(clockwise).toBeGreaterThan(0.9 * (letters.length - 1));
  });

  it('is retrograde on the matrix: letters lie at −x of the impression’s', () => {
    const sisters = pairOf(52, { ...plain, sizeMm, relation: 'sisterImpressions' }).truth.letters;
    const matrix = pairOf(52, { ...plain, sizeMm, relation: 'same' }).truth.letters;
    expect(matrix.length).toBe(sisters.length);
    matrix.forEach((letter, i) => {
      expect(letter.angleDeg).toBeCloseTo(sisters[i].angleDeg, 6);
      expect(Math.sign(letter.x)).toBe(-Math.sign(sisters[i].x));
    });
  });

  it('keeps to the trade’s sizes: letters 1.5 to 5 mm high, figures at most 3.9 mm deep', () => {
    // Letter height and figure depth: physical facts of seals as listed in docs/samples.md.
    for (let seed = 61; seed < 73; seed++) {
      const pair = pairOf(seed, { ...plain, vertices: 6_000 });
      for (const { heightMm } of pair.truth.letters) {
        expect(heightMm).toBeGreaterThanOrEqual(1.49);
        expect(heightMm).toBeLessThanOrEqual(5.01);
      }
      const z = Array.from({ length: pair.reference.bits.length }, (_, i) => onFace(pair.reference, i)[2]);
      expect(Math.min(...z)).toBeGreaterThan(-3.9);
      expect(Math.min(...z)).toBeLessThan(-0.3);
      expect(pair.recipe.sizeMm).toBeGreaterThanOrEqual(12);
      expect(pair.recipe.sizeMm).toBeLessThanOrEqual(75);
    }
  });
});

describe('the mesh', () => {
  it('is irregular: side lengths spread as in scans, not as on a grid', () => {
    for (const seed of [71, 72, 73]) {
      const { subject } = pairOf(seed, { ...plain, sizeMm });
      const p = subject.positions;
      const lengths: number[] = [];
      for (let i = 0; i < subject.triangles.length; i += 3) {
        const [a, b] = [3 * subject.triangles[i], 3 * subject.triangles[i + 1]];
        lengths.push(Math.hypot(p[a] - p[b], p[a + 1] - p[b + 1], p[a + 2] - p[b + 2]));
      }
      const mean = lengths.reduce((s, v) => s + v, 0) / lengths.length;
      const spread = Math.sqrt(lengths.reduce((s, v) => s + (v - mean) ** 2, 0) / lengths.length) / mean;
      expect(spread).toBeGreaterThan(0.15);
      expect(spread).toBeLessThan(0.7);
      expect(new Set(lengths.map((v) => v.toFixed(6))).size).toBeGreaterThan((0.9 * lengths.length) / 2);
    }
  });

  it('looks outward: the body of a whole object encloses a positive volume', () => {
    for (const seed of [81, 82, 83, 84]) {
      const pair = pairOf(seed, { ...plain, whole: true, sizeMm });
      for (const scan of [pair.reference, pair.subject]) {
        let volume = 0;
        for (let i = 0; i < scan.triangles.length; i += 3) {
          const corners = [0, 1, 2].map((k) => onFace(scan, scan.triangles[i + k]));
          volume += determinant3(corners.flat()) / 6;
        }
        const disc = 0.6 * pair.recipe.sizeMm ** 2;
        expect(volume).toBeGreaterThan(0.5 * disc);
        expect(volume).toBeLessThan(60 * disc);
      }
    }
  });

  it('has its back, wall and lip where the bits say', () => {
    const { subject } = pairOf(85, { ...plain, whole: true, lipMm: 2, sizeMm });
    const heights = (flag: number): number[] =>
      Array.from(subject.bits).flatMap((bits, i) => (bits & flag ? [onFace(subject, i)[2]] : []));
    expect(Math.max(...heights(bit.back))).toBeLessThan(-1);
    expect(median(heights(bit.wall))).toBeLessThan(median(heights(bit.face)));
    expect(heights(bit.lip).length).toBeGreaterThan(50);
  });
});

describe('a random recipe', () => {
  it('reaches every motif and shape and keeps its ranges', () => {
    const recipes = Array.from({ length: 400 }, (_, seed) =>
      randomRecipe(seed, 'same', { coverage: [0.55, 1], warpMm: [0, 0.3] }),
    );
    expect(new Set(recipes.map(({ motif }) => motif))).toEqual(new Set(motifNames));
    expect(new Set(recipes.map(({ shape }) => shape))).toEqual(new Set(shapes));
    for (const recipe of recipes) {
      expect(recipe.coverage).toBeGreaterThanOrEqual(0.55);
      expect(recipe.warpMm).toBeLessThanOrEqual(0.3);
    }
  });

  it('leaves as much of the face as it says', () => {
    for (const coverage of [0.35, 0.7]) {
      const whole = pairOf(91, { ...plain, sizeMm, coverage: 1, lipMm: 0, shape: 'oval' });
      const part = pairOf(91, { ...plain, sizeMm, coverage, lipMm: 0, shape: 'oval' });
      expect(faceArea(part.subject) / faceArea(whole.subject)).toBeCloseTo(coverage, 1);
    }
  });
});

/** Area of the triangles on the face, projected on its plane, mm². */
function faceArea(scan: GeneratedScan): number {
  let area = 0;
  for (let i = 0; i < scan.triangles.length; i += 3) {
    const corner = [0, 1, 2].map((k) => scan.triangles[i + k]);
    if (!corner.every((k) => scan.bits[k] & bit.face)) continue;
    const [a, b, c] = corner.map((k) => onFace(scan, k));
    area += Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
  }
  return area;
}

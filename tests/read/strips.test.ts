import { describe, expect, it } from 'vitest';
import { type Band, findLegendBand } from '../../src/core/design/index.ts';
import {
  compose,
  emptyGrid,
  type HeightGrid,
  identity,
  invert,
  rotationAbout,
  type Similarity,
  seededRandom,
  turnOver,
  xOf,
  yOf,
} from '../../src/core/geometry/index.ts';
import {
  compositeStrips,
  heightThrough,
  pairsAmong,
  readableStrip,
  type StackedStrip,
  senseOfLetters,
  stackStrips,
  unroll,
  type WitnessStanding,
} from '../../src/core/read/index.ts';
import { compositeWords, standingWords } from '../../src/core/report/words/index.ts';
import { engravedFace } from './engravedFace.ts';
import { gridOf } from './grids.ts';

const { face } = engravedFace(29, { shape: 'round', sense: 'relief', sizeMm: 40 });
const band = findLegendBand(face) as Band;

/** The same surface seen in a mirror: what a truly retrograde legend looks like. */
function mirroredGrid(grid: HeightGrid): HeightGrid {
  const { width } = grid;
  const from = (i: number): number => i - (i % width) + width - 1 - (i % width);
  return {
    ...grid,
    left: -xOf(grid, width - 1),
    z: grid.z.map((_, i) => grid.z[from(i)]),
    mask: grid.mask.map((_, i) => grid.mask[from(i)]),
  };
}

describe('senseOfLetters', () => {
  const upright = readableStrip(face.relief, band);

  it('tells letters that stand upright, and does not care how they are unrolled', () => {
    const { sense, decided } = upright.letters;
    expect(decided).toBe(true);
    expect(['upright', 'upsideDown']).toContain(sense);
    const other = senseOfLetters(unroll(face.relief, band, { facing: sense === 'upright' ? 'outward' : 'inward' }));
    expect(other.sense).toBe('upsideDown');
  });

  it('lays the strip so that it reads', () => {
    expect(senseOfLetters(upright.strip).sense).toBe('upright');
  });

  it('flags a truly retrograde legend and does not flip it', () => {
    const relief = mirroredGrid(face.relief);
    const base = band.base.map((value, i) => (i % 2 === 0 ? -value : value));
    const clockwise = new Float64Array(base.length);
    for (let i = 0; i < base.length; i += 2) clockwise.set([base[base.length - 2 - i], base[base.length - 1 - i]], i);
    const { strip, letters } = readableStrip(relief, { ...band, base: clockwise, cx: -band.cx });
    expect(letters.decided).toBe(true);
    expect(letters.sense.startsWith('mirrored')).toBe(true);
    expect(senseOfLetters(strip).sense).toBe('mirrored');
  });

  it('leaves a bare ring undecided', () => {
    const random = seededRandom(5);
    const bare = { ...face.relief, z: face.relief.z.map(() => 0.02 * random.normal()) };
    expect(senseOfLetters(unroll(bare, band)).decided).toBe(false);
  });
});

/** A smooth relief that has no symmetry. */
const shape = (x: number, y: number): number =>
  0.3 * Math.sin(1.1 * x + 0.3) * Math.cos(0.9 * y) + 0.1 * Math.sin(2.3 * x - 1.7 * y);

describe('heightThrough', () => {
  it('carries a relief through a turn, a tilt, a size and a shift to within a micrometre', () => {
    const target = gridOf(16, 16, 0.05, shape);
    const similarity: Similarity = {
      scale: 1.02,
      rotation: rotationAbout([0.01, 0.02, Math.sqrt(1 - 0.0005)], 0.4),
      translation: [0.6, -0.4, 0.3],
    };
    // The surface as the other scan has it: every point of its plane found by following the target's surface back.
    const other = emptyGrid(-9, 9, -9, 9, 0.05);
    const at = heightThrough(target, invert(similarity));
    for (let r = 0; r < other.height; r++)
      for (let c = 0; c < other.width; c++) {
        const z = at(xOf(other, c), yOf(other, r));
        if (Number.isNaN(z)) continue;
        other.z[r * other.width + c] = z;
        other.mask[r * other.width + c] = 1;
      }
    const back = heightThrough(other, similarity);
    for (const [x, y] of [
      [0, 0],
      [2.2, -1.3],
      [-3.1, 2.7],
      [4, 3.3],
    ])
      expect(back(x, y)).toBeCloseTo(shape(x, y), 3);
  });
});

describe('stackStrips', () => {
  it('lays matrix and impression under one another in register, raised on both', () => {
    const matrix = engravedFace(29, { shape: 'round', sense: 'intaglio', sizeMm: 40, noiseMm: 0 });
    const matrixBand = findLegendBand(matrix.face) as Band;
    // The impression's own frame is turned by 30°, shrunk by 1.5 %, and lies elsewhere in its file.
    const scanFromFace: Similarity = { scale: 1, rotation: rotationAbout([0, 0, 1], 0.5), translation: [20, -7, 3] };
    const size: Similarity = { ...identity, scale: 0.985 };
    const shrunk: HeightGrid = {
      ...face.relief,
      pitch: face.relief.pitch * 0.985,
      left: face.relief.left * 0.985,
      top: face.relief.top * 0.985,
      z: face.relief.z.map((value) => value * 0.985),
    };
    const subjectScanFromReference = compose(scanFromFace, compose(size, turnOver));
    const stacked = stackStrips(
      { sense: 'intaglio', faceFromScan: identity },
      matrixBand,
      [
        {
          name: 'matrix',
          face: { sense: 'intaglio', faceFromScan: identity, relief: matrix.face.relief },
          referenceFromSubject: identity,
        },
        {
          name: 'impression',
          face: { sense: 'relief', faceFromScan: invert(scanFromFace), relief: shrunk },
          referenceFromSubject: invert(subjectScanFromReference),
        },
      ],
      { pitchMm: 0.1 },
    );
    const [a, b] = stacked.map(({ strip }) => strip.grid);
    expect([b.width, b.height]).toEqual([a.width, a.height]);
    expect(stacked[1].filled).toBeGreaterThan(0.95);
    const apart: number[] = [];
    for (let i = 0; i < a.z.length; i++) if (a.mask[i] && b.mask[i]) apart.push(Math.abs(a.z[i] - b.z[i]));
    apart.sort((p, q) => p - q);
    expect(apart[apart.length >> 1]).toBeLessThan(0.012);
    expect(Math.max(...a.z)).toBeGreaterThan(0.1);
  });
});

describe('compositeStrips', () => {
  const strip = unroll(face.relief, band, { pitchMm: 0.1 });
  /** The strip with its letters gone over part of its length, and noise of its own. */
  function partly(name: string, lostFrom: number, lostTo: number, seed: number): StackedStrip {
    const random = seededRandom(seed);
    const { grid } = strip;
    const z = grid.z.map((value, i) => {
      const share = (i % grid.width) / grid.width;
      return (share >= lostFrom && share < lostTo ? 0.05 * value : value) + 0.003 * random.normal();
    });
    return { name, strip: { ...strip, grid: { ...grid, z } }, filled: 1 };
  }
  const witnesses = [partly('A', 0, 0.4, 1), partly('B', 0.3, 0.7, 2), partly('C', 0.6, 1, 3)];
  const standing = (name: string, more: Partial<WitnessStanding> = {}): WitnessStanding => ({
    name,
    finding: 'supported',
    state: 'sameState',
    ...more,
  });
  const standings = ['A', 'B', 'C'].map((name) => standing(name));

  it('takes each place from a witness that has kept it, and says so', () => {
    const result = compositeStrips(witnesses, standings, { sizeMm: 3 });
    if (result.refused) throw new Error(compositeWords(result));
    const { width, height } = strip.grid;
    const column = (share: number): number => Math.floor(share * width);
    const most = (share: number): string => {
      const counts = new Map<string, number>();
      for (let r = 0; r < height; r++) {
        const name = result.names[result.contributor[r * width + column(share)]];
        counts.set(name, (counts.get(name) ?? 0) + 1);
      }
      return [...counts].sort((p, q) => q[1] - p[1])[0][0];
    };
    expect(most(0.15)).not.toBe('A');
    expect(most(0.5)).not.toBe('B');
    expect(most(0.85)).not.toBe('C');
    expect(result.shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 6);
    expect(compositeWords(result)).toContain('no single object shows this');
  });

  it('is closer to the whole legend than any witness', () => {
    const result = compositeStrips(witnesses, standings, { sizeMm: 3 });
    const whole = compositeStrips([partly('x', 0, 0, 4), partly('y', 0, 0, 5)], [standing('x'), standing('y')], {
      sizeMm: 3,
    });
    if (result.refused || whole.refused) throw new Error('refused');
    const likeness = (z: Float32Array): number => {
      let ab = 0;
      let aa = 0;
      let bb = 0;
      for (let i = 0; i < z.length; i++) {
        ab += z[i] * whole.strip.grid.z[i];
        aa += z[i] ** 2;
        bb += whole.strip.grid.z[i] ** 2;
      }
      return ab / Math.sqrt(aa * bb);
    };
    const alone = compositeStrips(
      [witnesses[1], witnesses[1]].map((w, k) => ({ ...w, name: String(k) })),
      [standing('0'), standing('1')],
      { sizeMm: 3 },
    );
    if (alone.refused) throw new Error('refused');
    expect(likeness(result.strip.grid.z)).toBeGreaterThan(0.95);
    expect(likeness(result.strip.grid.z)).toBeGreaterThan(likeness(alone.strip.grid.z) + 0.05);
  });

  it.each<[string, Partial<WitnessStanding>, RegExp]>([
    ['an undecided witness', { finding: 'undecided' }, /not supported/],
    ['a witness that was not judged', { finding: null }, /not judged/],
    ['an earlier state', { state: 'subjectEarlier' }, /another state/],
    ['a later state', { state: 'subjectLater' }, /another state/],
    ['a state that was not judged', { state: null }, /not judged/],
  ])('leaves out %s, names it with the reason, and goes on with the others', (_, change, words) => {
    const result = compositeStrips(witnesses, [standings[0], standing('B', change), standings[2]], { sizeMm: 3 });
    expect(result.refused).toBe(false);
    expect(result.leftOut.map(({ name }) => name)).toEqual(['B']);
    expect(compositeWords(result)).toMatch(words);
    if (!result.refused) expect(result.shares[1]).toBe(0);
    if (!result.refused) expect(result.contributor.includes(1)).toBe(false);
  });

  it('puts the largest group of one state together, and leaves the first out where it is of another', () => {
    const states = (two: WitnessStanding['state']) => [{ one: 'B', two: 'C', state: two }];
    const later = [
      standing('A', { isReference: true, finding: null, state: null }),
      ...['B', 'C'].map((name) => standing(name, { state: 'subjectLater' })),
    ];
    const made = (state: WitnessStanding['state']) =>
      compositeStrips(witnesses, later, { sizeMm: 3, states: states(state) });
    const both = made('sameState');
    if (both.refused) throw new Error(compositeWords(both));
    expect(both.leftOut).toEqual([{ name: 'A', code: 'otherState' }]);
    expect(both.stateUntold).toEqual([]);
    expect(both.contributor.includes(0)).toBe(false);
    expect(compositeWords(both)).toContain('Left out: A (another state of the matrix)');
    // Where the two cannot be told apart they go together, and that is said.
    const untold = made('cannotJudge');
    expect(untold.refused || untold.stateUntold).toEqual(['C']);
    // Both later than the first, one later than the other: three states.
    const three = made('subjectLater');
    expect(three.refused).toBe(true);
    expect(three.leftOut.map(({ name }) => name)).toEqual(['B', 'C']);
    // That both are later than the first says nothing of the two.
    expect(compositeStrips(witnesses, later, { sizeMm: 3 }).refused).toBe(true);
  });

  it('keeps with the first at a tie, and counts a copy and its parent once when it counts a group', () => {
    const four = [...witnesses, partly('D', 0, 0.2, 4)];
    const ofFour = (...states: Array<WitnessStanding['state']>): WitnessStanding[] => [
      standing('A', { isReference: true, finding: null, state: null }),
      ...['B', 'C', 'D'].map((name, k) => standing(name, { state: states[k] })),
    ];
    const states = [{ one: 'C', two: 'D', state: 'sameState' as const }];
    const tie = compositeStrips(four, ofFour('sameState', 'subjectEarlier', 'subjectEarlier'), { sizeMm: 3, states });
    expect(tie.leftOut.map(({ name }) => name)).toEqual(['C', 'D']);
    const kin = [{ one: 'A', two: 'B', copy: 'B' }];
    const once = compositeStrips(four, ofFour('sameState', 'subjectEarlier', 'subjectEarlier'), {
      ...{ sizeMm: 3, states, kin },
    });
    expect(once.leftOut.map(({ name, code }) => [name, code])).toEqual([
      ['A', 'otherState'],
      ['B', 'otherState'],
    ]);
  });

  it('takes two witnesses apart that the first alone does not, and ties one to it by another', () => {
    const untold = [standings[0], standing('B', { state: 'cannotJudge' }), standings[2]];
    const made = (state: WitnessStanding['state']) =>
      compositeStrips(witnesses, untold, { sizeMm: 3, states: [{ one: 'B', two: 'C', state }] });
    expect(made('subjectLater').leftOut).toEqual([{ name: 'B', code: 'otherState' }]);
    const tied = made('sameState');
    expect(tied.refused || tied.stateUntold).toEqual([]);
  });

  it('asks of two further witnesses what the first cannot say of them', () => {
    const placed = (senses: string[], ...states: Array<WitnessStanding['state']>) => ({
      witnesses: ['A', 'B', 'C'].map((name, k) => ({ name, face: { sense: senses[k] } })),
      standings: [
        standing('A', { isReference: true, finding: null, state: null }),
        ...['B', 'C'].map((name, k) => standing(name, { state: states[k] })),
      ],
    });
    const mixed = ['intaglio', 'relief', 'intaglio'];
    expect(pairsAmong(placed(mixed, 'sameState', 'sameState'))).toEqual([]);
    expect(pairsAmong(placed(mixed, 'subjectLater', 'sameState'))).toEqual([['B', 'C']]);
    expect(pairsAmong(placed(['intaglio', 'relief', 'relief'], 'sameState', 'cannotJudge'))).toEqual([['B', 'C']]);
  });

  it('is refused only where fewer than two are left', () => {
    const out = { finding: 'undecided' } as const;
    const two = compositeStrips(witnesses, [standings[0], standing('B', out), standing('C', out)], { sizeMm: 3 });
    expect(two.refused).toBe(true);
    expect(compositeWords(two)).toMatch(/fewer than two/);
  });

  it('counts a copy and its parent once: the copy is left out, or the later named where it is not known which', () => {
    const kin = [{ one: 'A', two: 'B', copy: 'A' }];
    const known = compositeStrips(witnesses, standings, { sizeMm: 3, kin });
    expect(known.leftOut).toEqual([{ name: 'A', code: 'kin', of: 'B', isCopy: true }]);
    const unknown = compositeStrips(witnesses, standings, { sizeMm: 3, kin: [{ ...kin[0], copy: null }] });
    expect(unknown.leftOut).toEqual([{ name: 'B', code: 'kin', of: 'A', isCopy: false }]);
    // A copy whose parent is left out for another reason stands for it.
    const out = { finding: 'undecided' } as const;
    const alone = compositeStrips(witnesses, [standings[0], standing('B', out), standings[2]], { sizeMm: 3, kin });
    expect(alone.leftOut.map(({ name }) => name)).toEqual(['B']);
  });

  it('speaks of this matrix only where one was asked after', () => {
    const line = (question: WitnessStanding['question']): string => standingWords(standing('A', { question }));
    expect(line('madeFrom')).toContain('this matrix');
    for (const question of ['oneMatrix', 'oneParent', null] as const)
      expect(line(question)).not.toContain('this matrix');
  });

  it('says of a witness whose state cannot be judged that it may be another', () => {
    const result = compositeStrips(witnesses, [standings[0], standing('B', { state: 'cannotJudge' }), standings[2]], {
      sizeMm: 3,
    });
    if (result.refused) throw new Error(compositeWords(result));
    expect(compositeWords(result)).toContain('no single object shows this');
    expect(compositeWords(result)).toMatch(/Whether B shows the same state of the matrix cannot be judged/);
  });

  it('takes the reference without a finding', () => {
    const result = compositeStrips(
      witnesses,
      [standing('A', { isReference: true, finding: null, state: null }), ...standings.slice(1)],
      {
        sizeMm: 3,
      },
    );
    expect(result.refused).toBe(false);
  });
});

import { describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { findFace } from '../../src/core/face/index.ts';
import {
  type FitSide,
  type FitStart,
  faceMotion,
  fitFaces,
  fitSearched,
  type PointPair,
  searchFaces,
  startByHand,
} from '../../src/core/fit/index.ts';
import { planarFromPairs } from '../../src/core/fit/similarity2dFromPairs.ts';
import { apply, invert, seededRandom, type Vec2 } from '../../src/core/geometry/index.ts';
import { meshOf } from '../face/scanned.ts';

const recipe = { ...randomRecipe(6, 'same', { vertices: 9000 }), whole: false, coverage: 0.9, wear: 0.3 };
const pair = makePair(recipe);
const reference: FitSide = {
  mesh: meshOf(pair.reference),
  face: findFace(meshOf(pair.reference), { sense: 'intaglio' }),
};
const subject: FitSide = { mesh: meshOf(pair.subject), face: findFace(meshOf(pair.subject), { sense: 'relief' }) };
const searched = searchFaces(reference.face, subject.face);
const automatic = fitSearched(reference, subject, searched);
const size = Math.max(reference.face.outline.widthMm, reference.face.outline.heightMm);

const from = (start: FitStart, of = searched) =>
  fitSearched(reference, subject, startByHand(reference.face, subject.face, of, start));

/** The same places on both faces under the automatic fit, each marked up to `sloppyMm` beside itself. */
function marked(places: readonly Vec2[], sloppyMm: number, seed: number): PointPair[] {
  const subjectFromReference = invert(faceMotion(reference.face, subject.face, automatic.models[1]));
  const random = seededRandom(seed);
  const beside = ([x, y]: Vec2): Vec2 => {
    const [angle, r] = [random.between(0, 2 * Math.PI), random.between(0.5, 1) * sloppyMm];
    return [x + r * Math.cos(angle), y + r * Math.sin(angle)];
  };
  return places.map((place) => {
    const [x, y] = apply(subjectFromReference, [place[0], place[1], 0]);
    return { reference: beside(place), subject: beside([x, y]) };
  });
}

/** Greatest distance between where two fits put the corners of the face, mm. */
function apart(a: typeof automatic, b: typeof automatic): number {
  const motion = (fit: typeof automatic) => faceMotion(reference.face, subject.face, fit.models[1]);
  const corners = [
    [0.4, 0, 0],
    [-0.4, 0, 0],
    [0, 0.4, 0],
    [0, -0.4, 0],
  ].map((c) => c.map((v) => v * size));
  return Math.max(
    ...corners.map(([x, y, z]) => {
      const [p, q] = [apply(motion(a), [x, y, z]), apply(motion(b), [x, y, z])];
      return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
    }),
  );
}

const triangle: Vec2[] = [
  [-0.3, -0.2],
  [0.28, -0.25],
  [0.02, 0.33],
].map(([x, y]) => [x * size, y * size]);

describe('planarFromPairs', () => {
  it.each([false, true])(
    'gives back the similarity that made the pairs, and what noise leaves, flipped: %s',
    (flip) => {
      const [c, s, sign] = [1.07 * Math.cos(2), 1.07 * Math.sin(2), flip ? -1 : 1];
      const places: Vec2[] = [
        [3, 1],
        [-7, 4],
        [2, -9],
        [5, 6],
      ];
      const to = places.map(([x, y]): Vec2 => [sign * (c * x - s * y) + 4, s * x + c * y - 1]);
      const { fit, restMm } = planarFromPairs(places, to, flip, flip);
      expect(fit.turn).toBeCloseTo(2, 10);
      expect(fit.scale).toBeCloseTo(1.07, 10);
      expect([fit.tx, fit.ty]).toEqual([expect.closeTo(4, 9), expect.closeTo(-1, 9)]);
      expect(restMm).toBeLessThan(1e-6);
      expect(planarFromPairs(places, to, !flip, flip).restMm).toBeGreaterThan(2);
    },
  );
});

describe('a fit that begins at pairs of points marked by hand', () => {
  it.each([1, 2, 3])(
    'ends within 0.02 mm of the automatic one from three sloppy pairs, and says who began, seed %i',
    (seed) => {
      const pairs = marked(triangle, 1, seed);
      const fit = from({ from: 'pairs', pairs });
      expect(fit.found).toBe(true);
      expect(apart(fit, automatic)).toBeLessThan(0.02);
      expect(fit.start).toMatchObject({ by: 'hand', start: { from: 'pairs', pairs } });
      expect(fit.start?.pairsApartMm).toBeGreaterThan(0);
      expect(fit.start?.pairsApartMm).toBeLessThan(2);
      expect(fit.doubts).toEqual(automatic.doubts);
    },
  );

  it('needs two pairs only, since the senses say whether one lies turned over', () => {
    const fit = from({ from: 'pairs', pairs: marked(triangle.slice(0, 2), 0.5, 4) });
    expect(fit.found).toBe(true);
    expect(fit.turnedOver).toBe(true);
    expect(apart(fit, automatic)).toBeLessThan(0.02);
  });

  it('takes places that lie on one line, which say nothing of the way the faces lie', () => {
    const line: Vec2[] = [-0.35, 0.02, 0.33].map((share) => [0.3 * share * size, share * size]);
    const fit = from({ from: 'pairs', pairs: marked(line, 0.5, 8) });
    expect(fit.turnedOver).toBe(true);
    expect(apart(fit, automatic)).toBeLessThan(0.02);
  });

  it('believes three places that are not on a line more than a sense that was stated wrongly', () => {
    const misstated = { ...subject.face, sense: 'intaglio' as const };
    const start = { from: 'pairs', pairs: marked(triangle, 0.5, 9) } as const;
    expect(startByHand(reference.face, misstated, searched, start).best.fit).toMatchObject({
      flipX: true,
      negate: true,
    });
  });

  it('gives the inverse when the scans are exchanged', () => {
    const pairs = marked(triangle, 0.7, 5);
    const there = from({ from: 'pairs', pairs });
    const back = fitFaces(
      subject,
      reference,
      {},
      {
        from: 'pairs',
        pairs: pairs.map((one) => ({ reference: one.subject, subject: one.reference })),
      },
    );
    expect(back.models[1].scale * there.models[1].scale).toBeCloseTo(1, 10);
    expect(back.significance).toBe(there.significance);
    expect((back.start?.pairsRestMm ?? 0) / (there.start?.pairsRestMm ?? 1)).toBeCloseTo(1, 1);
  });

  const wrong = (turnDeg: number): PointPair[] => {
    const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
    return marked(triangle, 0.5, 6).map(({ reference: [x, y], subject: b }) => ({
      reference: [c * x - s * y, s * x + c * y],
      subject: b,
    }));
  };

  it.each([70, 150, 240])('does not find what is not there: a start %i° off', (turnDeg) => {
    const fit = from({ from: 'pairs', pairs: wrong(turnDeg) });
    expect(fit.found).toBe(false);
    const codes = fit.doubts.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['startDisagrees', 'searchPrefersAnother']));
    expect(fit.rivalTurns[0].score).toBeGreaterThan(2 * fit.score);
  });

  it.each([
    ['one pair', marked(triangle.slice(0, 1), 0.5, 1), 'tooFewPairs'],
    [
      'pairs on one spot',
      marked(
        [
          [0, 0],
          [0.4, 0.3],
          [0.2, 0.7],
        ],
        0.1,
        1,
      ),
      'placesTooNear',
    ],
    [
      'pairs of different places',
      [
        ...marked(triangle, 0.5, 1).slice(0, 2),
        { reference: [0.3 * size, 0.3 * size], subject: [0.3 * size, 0.3 * size] } as PointPair,
      ],
      'placesUnlike',
    ],
    [
      'pairs of another size',
      marked(triangle, 0.5, 1).map(({ reference: [x, y], subject: b }) => ({
        reference: [1.5 * x, 1.5 * y] as Vec2,
        subject: b,
      })),
      'scaleOutOfRange',
    ],
  ])('refuses %s', (_name, pairs, code) => {
    const fit = from({ from: 'pairs', pairs });
    expect(fit.found).toBe(false);
    expect(fit.doubts[0]).toMatchObject({ code: 'startRefused', why: { code } });
    expect(fit.start?.refused?.code).toBe(code);
  });
});

describe('a fit that begins at a turn chosen by hand', () => {
  it('is the automatic one at no turn', () => {
    const fit = from({ from: 'turn', turnDeg: 0 });
    expect(apart(fit, automatic)).toBeLessThan(0.002);
    expect(fit.start).toMatchObject({ by: 'hand', start: { from: 'turn', turnDeg: 0 } });
  });

  it('comes back from a few degrees and a per cent beside it', () => {
    const fit = from({ from: 'turn', turnDeg: 3, scale: automatic.models[1].scale * 1.01 });
    expect(fit.found).toBe(true);
    expect(apart(fit, automatic)).toBeLessThan(0.02);
  });

  it('stays at another turn, finds nothing there, and names the search’s own as its rival', () => {
    const fit = from({ from: 'turn', turnDeg: 120 });
    expect(fit.found).toBe(false);
    expect(fit.rivalTurns[0].score).toBeCloseTo(automatic.score, 3);
    const off = ((((fit.rivalTurns[0].turnDeg + 120 + 180) % 360) + 360) % 360) - 180;
    expect(Math.abs(off)).toBeLessThan(12);
    expect(fit.doubts[0].code).toBe('startDisagrees');
  });

  it('refuses a size that cannot be fitted', () => {
    expect(from({ from: 'turn', turnDeg: 0, scale: 1.6 }).doubts[0]).toMatchObject({
      code: 'startRefused',
      why: { code: 'scaleOutOfRange', scale: 1.6 },
    });
  });
});

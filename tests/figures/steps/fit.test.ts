import { expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../../sample-scans/generator/node.ts';
import { findFace } from '../../../src/core/face/index.ts';
import { chanceOf } from '../../../src/core/fit/chance.ts';
import { type FitSide, type FitStart, fitSearched, searchFaces, startByHand } from '../../../src/core/fit/index.ts';
import { searchFits } from '../../../src/core/fit/search.ts';
import { planarFromPairs } from '../../../src/core/fit/similarity2dFromPairs.ts';
import { seededRandom, type Vec2 } from '../../../src/core/geometry/index.ts';
import { clearSignificance } from '../../../src/core/judge/clear.ts';
import { measurePlaces } from '../../../src/core/judge/measure.ts';
import { registerPatch } from '../../../src/core/judge/patches.ts';
import { weigh } from '../../../src/core/judge/rivals.ts';
import { meshOf } from '../../face/scanned.ts';
import { bumps } from '../../fit/relief.ts';
import { analyticFace, disc } from '../../judge/analyticFace.ts';
import { told } from '../told.ts';

const kept = (figures: unknown): string => `${told(figures).join('\n')}\n`;

it('a worn, broken pair on coarse scans, found alone and from places marked by hand: no figure moves unseen', async () => {
  const recipe = { ...randomRecipe(16, 'same', { vertices: 6000 }), whole: false, coverage: 0.6, wear: 0.5 };
  const pair = makePair(recipe);
  const side = (scan: typeof pair.reference, sense: 'intaglio' | 'relief'): FitSide => ({
    mesh: meshOf(scan),
    face: findFace(meshOf(scan), { sense }),
  });
  const [reference, subject] = [side(pair.reference, 'intaglio'), side(pair.subject, 'relief')];
  const searched = searchFaces(reference.face, subject.face);
  const fit = fitSearched(reference, subject, searched);
  const starts: FitStart[] = [
    { from: 'turn', turnDeg: 35 },
    { from: 'turn', turnDeg: 200, scale: 1.02 },
    {
      from: 'pairs',
      pairs: [
        { reference: [2, 1], subject: [-2.2, 0.8] },
        { reference: [-4, 3], subject: [3.7, 3.4] },
        { reference: [1, -5], subject: [-0.8, -5.1] },
      ],
    },
  ];
  const byHand = starts.map((start) => startByHand(reference.face, subject.face, searched, start));
  const backwards = fitSearched(subject, reference, searchFaces(subject.face, reference.face));
  const places = measurePlaces(reference.face, subject.face, fit);
  await expect(kept({ searched, fit, byHand, backwards, places })).toMatchFileSnapshot('fit.txt');
});

it('two designs that do not belong together, what they would reach and what they do: no figure moves unseen', async () => {
  const half = (x: number, y: number): boolean => disc(9)(x, y) && x + 0.4 * y > -2;
  const [one, other] = [
    analyticFace(bumps(5, 10).height, disc(), { noiseMm: 0.01 }),
    analyticFace(bumps(6, 10).height, half),
  ];
  const found = [
    [one, other],
    [other, one],
    [one, one],
  ].map(([a, b]) => {
    const { proper, reflected, none } = searchFits(a.image, b.image, 18);
    const chance = chanceOf(proper[0].significance, none.wrongSign, none.mirror);
    return { proper, reflected, none, chance, clear: clearSignificance(a, b, 18) };
  });
  await expect(kept(found)).toMatchFileSnapshot('apart.txt');
});

it('places weighed under one matrix and under its rivals: no figure moves unseen', async () => {
  const random = seededRandom(31);
  const weighed = Array.from({ length: 12 }, (_, k) => {
    const n = [10, 23, 24, 49, 50, 80][k % 6];
    const scatter = random.between(0, 0.15);
    const patches = Array.from({ length: n }, (_, i) => {
      const lost = random.next() < 0.15;
      const by = (): number => (lost ? random.between(-0.8, 0.8) : (0.01 + scatter) * random.normal());
      const [x, y] = [random.between(-13, 13), random.between(-13, 13)];
      return {
        ...{
          x,
          y,
          dx: 0.1 * (x / 15) ** 2 + by(),
          dy: 0.002 * y + by(),
          turnDeg: 0,
          correlation: 0.9,
          whole: 1,
          kept: 0.9,
        },
        ...{
          covariance: [1e-4 * (1 + (i % 4)), 2e-5, 2e-4] as const,
          relief: [0.1, 0.1] as const,
          inside: i % 3 > 0,
          doubt: i % 5 ? 0.03 : 0.3,
        },
      };
    });
    const about = { sizeMm: 30, windowMm2: random.between(1, 4), spacingMm: random.between(0.005, 0.2) };
    return weigh({ patches, absent: patches.slice(0, k % 4), ...about, share: random.between(0.4, 1) });
  });
  await expect(kept(weighed)).toMatchFileSnapshot('weighed.txt');
});

it('patches on relief with gaps, noise and lumps: no figure moves unseen', async () => {
  const random = seededRandom(32);
  const height = bumps(9, 10, 80, 0.2).height;
  const a = analyticFace(height, disc(), { pitch: 0.15 }).image;
  const patches = Array.from({ length: 24 }, () => {
    const [dx, dy, noise, gap] = [
      random.between(-0.5, 0.5),
      random.between(-0.5, 0.5),
      random.between(0, 0.05),
      random.between(-8, 8),
    ];
    const has = (x: number, y: number): boolean => disc(9.5)(x, y) && Math.abs(x - gap) > 0.3;
    const b = analyticFace((x, y) => 0.8 * height(x - dx, y - dy) + noise * random.normal(), has, {
      pitch: 0.15,
    }).image;
    const at = [random.between(-9, 9), random.between(-9, 9)] as const;
    return registerPatch(a, b, ...at, { radius: 7, reach: 5, noiseCells: 1.5, clipMm: [0.3, 0.3] });
  });
  expect(patches.filter((patch) => patch !== null).length).toBeGreaterThan(8);
  await expect(kept(patches.filter((patch) => patch !== null))).toMatchFileSnapshot('patches.txt');
});

it('similarities from marked places: no figure moves unseen', async () => {
  const random = seededRandom(33);
  const any = (): Vec2 => [random.between(-10, 10), random.between(-10, 10)];
  const fits = Array.from({ length: 30 }, (_, k) => {
    const from = Array.from({ length: 2 + (k % 4) }, any);
    const [c, s] = [Math.cos(k), Math.sin(k)];
    const to = from.map(([x, y]): Vec2 => {
      const mx = k % 2 ? -x : x;
      return [c * mx - s * y + 2 + 0.3 * random.normal(), s * mx + c * y - 1 + 0.3 * random.normal()];
    });
    return planarFromPairs(from, to, k % 2 === 1, k % 3 === 1);
  });
  await expect(kept(fits)).toMatchFileSnapshot('marked.txt');
});

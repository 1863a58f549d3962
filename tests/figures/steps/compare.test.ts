import { expect, it } from 'vitest';
import { compareFaces } from '../../../src/core/compare/compareFaces.ts';
import { measureGroove, scaleEnd } from '../../../src/core/compare/index.ts';
import { subjectMotion } from '../../../src/core/compare/motion.ts';
import { section } from '../../../src/core/compare/section.ts';
import { sizeTest } from '../../../src/core/compare/sizeTest.ts';
import { visitOrder } from '../../../src/core/compare/visitOrder.ts';
import type { Fit, FitModel } from '../../../src/core/fit/index.ts';
import { compose, type Random, seededRandom } from '../../../src/core/geometry/index.ts';
import {
  anyMotion,
  dieMesh,
  fitOf,
  identity,
  impressionMesh,
  laidBack,
  model,
  side,
  turnOver,
} from '../../compare/pair.ts';
import { shuffledMesh } from '../../geometry/surface.ts';
import { told } from '../told.ts';

const kept = (figures: unknown): string => `${told(figures).join('\n')}\n`;

/** Cuts, ridges and steps of every depth and width on profiles of every length, with noise and gaps. */
function anyProfile(random: Random): [Float64Array, Float64Array] {
  const n = Math.round(random.between(10, 260));
  const step = random.between(0.01, 0.06);
  const [middle, width] = [random.between(0.1, 0.9) * n * step, random.between(0.05, 3.4)];
  const [depth, slope] = [random.between(-0.6, 0.6), random.between(-0.2, 0.2)];
  const [noise, gap] = [random.between(0, 0.02), random.between(0, n * step)];
  const at = Float64Array.from({ length: n }, (_, i) => i * step);
  const z = at.map((s) => {
    if (Math.abs(s - gap) < 0.05) return Number.NaN;
    const t = Math.abs(s - middle) / width;
    return slope * s + noise * random.normal() + (t < 1 ? depth * Math.min(1, 2 - 2 * t) : 0);
  });
  return [at, z];
}

it('grooves of 200 profiles: no figure moves unseen', async () => {
  const random = seededRandom(20);
  const found = Array.from({ length: 200 }, () => measureGroove(...anyProfile(random)));
  expect(found.filter((groove) => groove !== null).length).toBeGreaterThan(60);
  await expect(kept(found.map((groove) => groove ?? { none: 1 }))).toMatchFileSnapshot('grooves.txt');
});

it('sizes of 200 pairs of materials and kinds: no reading moves unseen', async () => {
  const random = seededRandom(21);
  const any = <T>(list: readonly T[]): T => list[Math.floor(random.between(0, list.length))];
  const object = () => ({
    sense: any(['intaglio', 'relief'] as const),
    kind: any(['matrix', 'impression', 'cast', 'mould', undefined]),
    material: any(['bronze', 'beeswax', 'plaster', 'shellac', 'silver', 'gutta-percha', 'resin', undefined]),
    scaleUncertaintyPercent: any([0.05, 0.2, 0.5, 1.5]),
    scaleUncertaintyFrom: any(['stated', 'stated', 'assumed'] as const),
  });
  const readings = Array.from({ length: 200 }, () => {
    const scale = random.between(0.96, 1.06);
    const fit = {
      models: [0, 1, 2].map((k) => ({ model: ['rigid', 'oneScale', 'smoothWarp'][k], scale, scaleSd: 3e-4 })),
    };
    const growth = {
      ...{ x: random.between(-0.01, 0.01), y: random.between(-0.01, 0.01), z: random.between(-0.3, 0.3) },
      ...{ sdX: 0.001, sdY: 0.001, sdZ: any([0.01, 0.05, Number.NaN]) },
    };
    return sizeTest(
      fit as unknown as Fit,
      { x: scale, y: scale * 1.001, z: scale },
      growth,
      object() as never,
      object() as never,
    );
  });
  await expect(kept(readings)).toMatchFileSnapshot('sizes.txt');
});

it('two surfaces with holes, lumps and noise, bent: no figure of their comparison moves unseen', async () => {
  const lumps = (x: number, y: number): number =>
    0.3 * Math.exp(-((x + 3) ** 2 + (y - 4) ** 2)) - 0.2 * Math.exp(-((x - 5) ** 2 + (y + 2) ** 2) / 3);
  const whole = dieMesh(1, () => 0, 0.004);
  const die = side(whole, 'intaglio', { kind: 'matrix', material: 'bronze' });
  const holed = {
    ...whole,
    triangles: whole.triangles.filter((_, i, t) => {
      const p = 3 * t[i - (i % 3)];
      return Math.hypot(whole.positions[p] - 3, whole.positions[p + 1] - 2) > 1.2;
    }),
  };
  const reference = side(holed, 'intaglio', { kind: 'matrix', material: 'bronze', face: die.face });
  const motion = anyMotion(0.98);
  const subject = side(impressionMesh(2, compose(motion, turnOver), lumps, 0.006), 'relief', {
    ...{ kind: 'impression', material: 'beeswax', scaleUncertaintyPercent: 0.1 },
  });
  const lies = laidBack(motion);
  const coefficients = Float64Array.from({ length: 12 }, (_, k) => 0.04 * Math.cos(2 * k + 1));
  const warp = { before: { ...identity, translation: [0.01, -0.02, 0.005] as const }, radiusMm: 10, coefficients };
  const fit: Fit = {
    ...fitOf(lies, true, 0.002, 2e-4),
    chosen: 'smoothWarp',
    models: [model('rigid', lies), model('oneScale', lies), model('smoothWarp', lies, { warp } as Partial<FitModel>)],
  };
  const difference = compareFaces(reference, subject, fit);
  const cut = section(reference, subject, fit.models[2], true, [-8, -3, 7, 5]);
  await expect(kept({ difference, cut, end: scaleEnd(difference) })).toMatchFileSnapshot('surfaces.txt');
});

it('the order in which vertices are visited does not move unseen', async () => {
  const mesh = dieMesh(1);
  const still = subjectMotion(side(mesh, 'intaglio').face, model('oneScale', identity));
  const { positions } = mesh;
  const count = positions.length / 3;
  // Rows far apart by turns, more or less of them: between a file in order and a file in none.
  const orders = [0, 0.05, 0.15, 0.19, 0.21, 0.25, 1].map((share) => {
    const random = seededRandom(5);
    const mixed = share === 1 ? shuffledMesh(mesh, 3).mesh.positions : positions.slice();
    if (share < 1)
      for (let k = 0; k < (share * count) / 2; k++) {
        const [i, j] = [3 * Math.floor(random.between(0, count)), 3 * Math.floor(random.between(0, count))];
        const one = mixed.slice(i, i + 3);
        mixed.copyWithin(i, j, j + 3);
        mixed.set(one, j);
      }
    return visitOrder(still, mixed, 10, 50, count - 20);
  });
  await expect(kept(orders.map((order) => ({ order })))).toMatchFileSnapshot('orders.txt');
});

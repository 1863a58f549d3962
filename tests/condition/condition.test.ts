import { describe, expect, it } from 'vitest';
import { lossField } from '../../src/core/condition/relief/loss.ts';
import { pairOfReliefs, type WearRelief } from '../../src/core/condition/relief/relief.ts';
import { wearLabel, wearLabels } from '../../src/core/condition/wear/labels.ts';
import { wearZones } from '../../src/core/condition/wear/zones.ts';
import { gaussianFilter, type HeightGrid } from '../../src/core/geometry/index.ts';
import { cellsWhere, designHeight, gridOf, inBand, pair, sizeMm } from './pressedSeal.ts';

type State = Parameters<typeof wearLabel>[0];

/** Share of the chosen cells that carry one of the labels. */
function share(relief: WearRelief, states: readonly State[], where: (x: number, y: number) => boolean): number {
  const map = wearLabels(relief, lossField(relief));
  const chosen = cellsWhere(relief.reference, where);
  const wanted = new Set(states.map(wearLabel));
  let [all, hit] = [0, 0];
  for (let i = 0; i < chosen.length; i++) {
    if (!chosen[i] || !map.labels[i]) continue;
    all++;
    if (wanted.has(map.labels[i])) hit++;
  }
  return hit / all;
}

const onBoss = (x: number, y: number): boolean => designHeight(x, y) > 0.62 && Math.hypot(x, y) < 8;
const rubbedBoss = (x: number, y: number): number => {
  const h = designHeight(x, y);
  return h > 0.6 && Math.hypot(x, y) < 8 ? 0.6 + 0.35 * (h - 0.6) : h;
};

describe('wear labels', () => {
  it('calls a face against itself sharp, with noise', () => {
    expect(share(pair(designHeight), ['sharp'], () => true)).toBeGreaterThan(0.985);
  });

  it('calls a rounded, lowered top lower and leaves the rest sharp', () => {
    const relief = pair(rubbedBoss);
    expect(share(relief, ['lower'], (x, y) => onBoss(x, y) && designHeight(x, y) > 0.7)).toBeGreaterThan(0.95);
    expect(share(relief, ['sharp'], (x, y) => Math.hypot(x, y) > 9)).toBeGreaterThan(0.97);
  });

  it('calls tops pressed to one plane lower', () => {
    const pressed = pair((x, y) => Math.min(designHeight(x, y), 0.55 + 0.01 * x));
    expect(share(pressed, ['lower'], (x, y) => designHeight(x, y) > 0.75)).toBeGreaterThan(0.8);
  });

  it('calls a gap at the rim and a hollow below the ground lost, and a hole within cannot judge', () => {
    const broken = pair((x, y) => (x > 11 ? Number.NaN : Math.hypot(x + 9, y - 4) < 1.5 ? -0.5 : designHeight(x, y)));
    expect(share(broken, ['lost'], (x, y) => x > 11.6 && Math.hypot(x, y) < 17)).toBeGreaterThan(0.95);
    expect(share(broken, ['lost'], (x, y) => Math.hypot(x + 9, y - 4) < 1.1)).toBeGreaterThan(0.95);
    const holed = pair((x, y) => (Math.hypot(x - 2, y + 7) < 2 ? Number.NaN : designHeight(x, y)));
    expect(share(holed, ['cannotJudge'], (x, y) => Math.hypot(x - 2, y + 7) < 1.6)).toBe(1);
  });

  it('calls crumbs on the field added, and letters that the reference shows lower clogged', () => {
    const crumbs = pair((x, y) => designHeight(x, y) + 0.4 * Math.max(0, 1 - Math.hypot(x + 8, y + 1) / 1.2));
    expect(share(crumbs, ['added'], (x, y) => Math.hypot(x + 8, y + 1) < 0.8)).toBeGreaterThan(0.9);
    const filled = pair(designHeight, (x, y) => (inBand(x, y) && x > 0 ? 0.45 : 1) * designHeight(x, y));
    const letterTop = (x: number, y: number): boolean => inBand(x, y) && x > 2 && designHeight(x, y) > 0.24;
    expect(share(filled, ['clogged'], letterTop)).toBeGreaterThan(0.8);
  });

  it('calls narrow hollows that the wax bridged in one region lower, and the same letters elsewhere sharp', () => {
    const relief = bridged();
    const letterTop = (x: number, y: number): boolean => inBand(x, y) && designHeight(x, y) > 0.24;
    expect(share(relief, ['lower'], (x, y) => letterTop(x, y) && x > 8)).toBeGreaterThan(0.7);
    expect(share(relief, ['sharp'], (x, y) => letterTop(x, y) && x < -4)).toBeGreaterThan(0.95);
  });
});

/** The subject stays below a smooth bridge over the hollows where x > 6, as wax that did not run in does. */
function bridged(): WearRelief {
  const a = gridOf(designHeight);
  const bridge = gaussianFilter(a, 3).z;
  const b: HeightGrid = {
    ...a,
    z: a.z.map((z, i) => {
      const x = a.left + (i % a.width) * a.pitch;
      return x > 6 ? Math.min(z, bridge[i] + 0.02) : z;
    }),
  };
  const noise = gridOf(() => 0, 0.008, 9);
  const inside = cellsWhere(a, (x, y) => Math.hypot(x, y) < 0.49 * sizeMm);
  const noisy = { ...b, z: b.z.map((z, i) => z + noise.z[i]) };
  return pairOfReliefs(a, noisy, { inside, noiseMm: 0.008, sizeMm, turned: false });
}

describe('height kept', () => {
  it.each([1, 0.8, 0.5])('finds that %s of the relief is kept within two points', (kept) => {
    const relief = pair((x, y) => kept * designHeight(x, y));
    const loss = lossField(relief);
    const [whole] = wearZones(relief, loss, wearLabels(relief, loss), new Map([['whole', relief.inside]]), []);
    expect(Math.abs(whole.heightKept - kept)).toBeLessThan(0.02);
    expect(Math.abs(whole.heightKept - kept)).toBeLessThan(3 * whole.heightKeptSd);
  });

  it('may exceed one where the reference was lapped or filled since', () => {
    const relief = pair(designHeight, (x, y) => 0.8 * designHeight(x, y));
    const loss = lossField(relief);
    const [whole] = wearZones(relief, loss, wearLabels(relief, loss), new Map([['whole', relief.inside]]), []);
    expect(whole.heightKept).toBeGreaterThan(1.15);
  });
});

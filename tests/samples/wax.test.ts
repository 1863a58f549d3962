import { describe, expect, it } from 'vitest';
import { damageDie, strikeThrough } from '../../sample-scans/generator/damage.ts';
import { designSeal } from '../../sample-scans/generator/design.ts';
import { type Die, engrave } from '../../sample-scans/generator/die.ts';
import { copyField, nearestCell } from '../../sample-scans/generator/field.ts';
import { handOf } from '../../sample-scans/generator/node.ts';
import { designFromScan, place, randomPose } from '../../sample-scans/generator/placement.ts';
import { bit } from '../../sample-scans/generator/types.ts';
import { randomWarp } from '../../sample-scans/generator/warp.ts';
import { flatten, type Relief, rub, translucent, underfill } from '../../sample-scans/generator/wax.ts';
import { identity, seededRandom } from '../../src/core/geometry/index.ts';

const design = designSeal({ shape: 'round', sizeMm: 26, motif: 'eagle', patternSeed: 4, legendSeed: 9 }, handOf);
const die: Die = engrave(design, 77, 0.06);
const fresh = (): Relief => ({ field: copyField(die.depth), flags: new Uint16Array(die.depth.z.length) });

/** Greatest and mean height lost against the fresh impression, mm; negative where wax was raised. */
function lost(relief: Relief): { most: number; least: number; mean: number } {
  let most = 0;
  let least = 0;
  let sum = 0;
  relief.field.z.forEach((z, i) => {
    const d = die.depth.z[i] - z;
    most = Math.max(most, d);
    least = Math.min(least, d);
    sum += d;
  });
  return { most, least, mean: sum / relief.field.z.length };
}

describe('wax', () => {
  it('is only ever lowered by rubbing, the more the harder, and by what the flags say', () => {
    let before = 0;
    for (const amount of [0.2, 0.5, 0.9]) {
      const relief = fresh();
      const deepest = rub(relief, amount, seededRandom(3));
      const { most, least, mean } = lost(relief);
      expect(least).toBeGreaterThan(-1e-6);
      expect(most).toBeCloseTo(deepest, 5);
      expect(mean).toBeGreaterThan(before);
      before = mean;
      relief.field.z.forEach((z, i) => {
        if (die.depth.z[i] - z > 0.021 && !(relief.flags[i] & bit.worn)) throw new Error(`unflagged loss at cell ${i}`);
      });
    }
  });

  it('lacks height where it did not fill, and nowhere gains any', () => {
    const relief = fresh();
    underfill(relief, 0.4, seededRandom(8));
    const { most, least } = lost(relief);
    expect(least).toBeGreaterThan(-1e-6);
    expect(most).toBeGreaterThan(0.05);
    expect(relief.flags.some((flags) => flags & bit.notFilled)).toBe(true);
  });

  it('is pressed flat at its highest parts and swells a little beside them', () => {
    const relief = fresh();
    flatten(relief, 0.7, seededRandom(8));
    const highest = (z: Float32Array): number => z.reduce((a, b) => Math.max(a, b));
    expect(highest(relief.field.z)).toBeLessThan(highest(die.depth.z) - 0.05);
    expect(lost(relief).least).toBeLessThan(-0.001);
  });

  it('seen through translucent wax keeps its mean height but for the sinking', () => {
    const relief = fresh();
    translucent(relief, 0.12, 0.02);
    expect(lost(relief).mean).toBeCloseTo(0.02, 3);
  });
});

describe('a die’s damage', () => {
  it('struck through: the cut scores the face and passes over hollows that are deeper', () => {
    const struck: Die = { design, depth: copyField(die.depth) };
    const cut = strikeThrough(struck, seededRandom(5), { angle: 0.4, offset: 0 });
    let face = 0;
    let passed = 0;
    for (let i = 0; i < cut.polyline.length; i += 2) {
      const index = nearestCell(die.depth, cut.polyline[i], cut.polyline[i + 1]);
      const old = die.depth.z[index];
      // The groove's ends run out, so only its middle part is asked.
      if (i < 12 || i > cut.polyline.length - 12) continue;
      if (old > cut.depthMm * 1.15) {
        passed++;
        expect(struck.depth.z[index]).toBeCloseTo(old, 5);
      } else if (old < 0.1) {
        face++;
        expect(struck.depth.z[index]).toBeGreaterThan(0.75 * cut.depthMm);
      }
    }
    expect(face).toBeGreaterThan(3);
    expect(passed + face).toBeGreaterThan(5);
  });

  it.each(['cut', 'crack', 'recut', 'corrosion'] as const)(
    'is told: %s changes the depth, by the mark’s place',
    (kind) => {
      const { die: later, marks, changed } = damageDie(die, [kind], seededRandom(12));
      expect(marks.map((mark) => mark.kind)).toEqual([kind]);
      let count = 0;
      changed.forEach((flag, i) => {
        count += flag;
        expect(flag === 1).toBe(Math.abs(later.depth.z[i] - die.depth.z[i]) > 0.02);
      });
      expect(count).toBeGreaterThan(20);
      expect(count).toBeLessThan(0.3 * changed.length);
    },
  );
});

describe('a bent and placed object', () => {
  it('is displaced by at most what was asked, nearly reached, and can be taken back to its design', () => {
    const random = seededRandom(6);
    const warp = randomWarp(20, 0.25, random);
    const shift = new Float64Array(3);
    let most = 0;
    for (let i = 0; i < 2_000; i++) {
      const r = 20 * Math.sqrt(random.next());
      const t = random.between(0, 2 * Math.PI);
      warp.shift(r * Math.cos(t), r * Math.sin(t), shift);
      most = Math.max(most, Math.hypot(...shift));
    }
    expect(most).toBeGreaterThan(0.24);
    expect(most).toBeLessThan(0.3);
    const placement = { sense: 'intaglio', size: 0.98, warp, scanFromFace: randomPose(random, 100, false) } as const;
    const design = Float64Array.from([3, -7, 0.4, -11, 2, 0.1, 0, 15, 1.2]);
    const placed = place(placement, design);
    const back = new Float64Array(3);
    for (let i = 0; i < 9; i += 3) {
      designFromScan(placement, identity)(placed[i], placed[i + 1], placed[i + 2], back);
      for (let a = 0; a < 3; a++) expect(back[a]).toBeCloseTo(design[i + a], 4);
    }
  });
});

import { describe, expect, it } from 'vitest';
import { faintDefaults, faintLines } from '../../../../src/core/condition/marks/lines/faintLines.ts';
import { differenceLines, type LineMark } from '../../../../src/core/condition/marks/lines/lines.ts';
import { lossField } from '../../../../src/core/condition/relief/loss.ts';
import { wearLabels } from '../../../../src/core/condition/wear/labels.ts';
import { designHeight, pair, pitch, type Surface } from '../../pressedSeal.ts';

/** A crack one cell wide that wanders inward from the rim, `high` on whatever it crosses; `along` counts from the rim, mm. */
const cracked =
  (high: number, length = 13): Surface =>
  (x, y) => {
    const along = 17 - x;
    const aside = Math.abs(y - 0.5 * Math.sin(along / 3) - 0.12 * along);
    return designHeight(x, y) + (x > 0 && along > 0 && along < length && aside < 0.6 * pitch ? high : 0);
  };

const noiseMm = 0.025;

function faint(subject: Surface, reference: Surface, options = faintDefaults): LineMark[] {
  const seen = pair(subject, reference, noiseMm);
  const loss = lossField(seen);
  return faintLines(seen, loss, wearLabels(seen, loss), undefined, options);
}

const onWay = ({ chain }: LineMark): boolean => Math.abs(chain.y - 0.12 * (17 - chain.x)) < 0.8 && chain.x > 3;

describe('faintLines', () => {
  it('finds a crack that no single cell shows, on whichever face carries it, where lines of single cells are too faint', () => {
    const seen = pair(cracked(0.075), designHeight, noiseMm);
    const loss = lossField(seen);
    const later = faintLines(seen, loss, wearLabels(seen, loss));
    expect(later.map(({ carriedBy }) => carriedBy)).toEqual(['subject']);
    expect(later.every(onWay)).toBe(true);
    expect(later[0].onSubjectMm).toBeGreaterThan(0.03);
    expect(differenceLines(seen, loss).filter(onWay)).toEqual([]);
    const earlier = faint(designHeight, cracked(0.075));
    expect(earlier.map(({ carriedBy }) => carriedBy)).toEqual(['reference']);
    expect(earlier.every(onWay)).toBe(true);
  });

  it('says nothing of two scans of one surface, nor of a short piece of such a crack, whose length does not make up for the noise', () => {
    expect(faint(designHeight, designHeight)).toEqual([]);
    expect(faint(cracked(0.06, 4), designHeight, { ...faintDefaults, leastLength: 0 }).filter(onWay)).toEqual([]);
  });

  it('leaves a line alone that runs along the edge, as worn borders do', () => {
    const ring: Surface = (x, y) =>
      designHeight(x, y) + (y > 0 && Math.abs(Math.hypot(x, y) - 9.4) < 0.6 * pitch ? 0.075 : 0);
    const seen = pair(ring, designHeight, noiseMm);
    const loss = lossField(seen);
    const map = wearLabels(seen, loss);
    expect(faintLines(seen, loss, map)).toEqual([]);
    expect(faintLines(seen, loss, map, undefined, { ...faintDefaults, leastInward: 0 })).not.toEqual([]);
  });
});

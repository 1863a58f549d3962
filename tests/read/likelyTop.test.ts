import { describe, expect, it } from 'vitest';
import { turnGrid } from '../../src/core/geometry/index.ts';
import { likelyTop } from '../../src/core/read/index.ts';
import { engravedFace } from './engravedFace.ts';

const apart = (a: number, b: number): number => Math.abs(((a - b + 540) % 360) - 180);

/** The face after a turn, clockwise in the impression's sense, its rim turned along. */
function turnedFace({ face }: ReturnType<typeof engravedFace>, deg: number) {
  const t = (deg * Math.PI) / 180;
  const [c, s] = [Math.cos(t), Math.sin(t)];
  const polygon = face.outline.polygon.map((_, i, all) =>
    i % 2 === 0 ? c * all[i] + s * all[i + 1] : c * all[i] - s * all[i - 1],
  );
  return { ...face, detail: turnGrid(face.detail, deg), outline: { ...face.outline, polygon } };
}

/** Truth: the generator engraves every design with its top at 12 o'clock. */
describe('the likely top of a round design', () => {
  it('is where its engraver had it, in either sense, or is not told', () => {
    for (const [seed, sense] of [
      [1, 'relief'],
      [2, 'intaglio'],
    ] as const) {
      const top = likelyTop(engravedFace(seed, { shape: 'round', sense, noiseMm: 0.015, pitchMm: 0.14 }).face);
      expect(top).not.toBeNull();
      if (top) expect(apart(top.deg, 0)).toBeLessThanOrEqual(10);
    }
  });

  it('turns with the face', () => {
    const engraved = engravedFace(3, { shape: 'round', sense: 'relief', noiseMm: 0.015, pitchMm: 0.14 });
    const top = likelyTop(turnedFace(engraved, 100));
    expect(top && apart(top.deg, 100)).toBeLessThanOrEqual(10);
  });
});

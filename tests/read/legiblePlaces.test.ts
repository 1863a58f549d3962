import { describe, expect, it } from 'vitest';
import { bandInside } from '../../src/core/design/index.ts';
import { gaussianFilter, seededRandom } from '../../src/core/geometry/index.ts';
import { faintLegendLook, legiblePlaces, standardLooks, strokeContrast, unroll } from '../../src/core/read/index.ts';
import { engravedFace } from './engravedFace.ts';

/** Left half as cut, right half rubbed down by nine tenths under the same noise. */
function halfRubbed() {
  const { sharp, face, bandOuterMm, bandInnerMm } = engravedFace(5, { shape: 'round', sizeMm: 32, pitchMm: 0.12 });
  const random = seededRandom(3);
  const soft = gaussianFilter(sharp, 0.6).z;
  const z = sharp.z.map((value, i) => {
    const x = sharp.left + (i % sharp.width) * sharp.pitch;
    return sharp.mask[i] ? (x < 0 ? value : 0.1 * soft[i]) + 0.01 * random.normal() : 0;
  });
  return { relief: { ...sharp, z }, band: bandInside(face, face.outline.polygon, bandOuterMm, bandInnerMm) };
}

describe('places by how legible they are', () => {
  const { relief, band } = halfRubbed();
  const strip = unroll(relief, band, { pitchMm: 0.12 });
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const looks = [faintLegendLook(letterMm), standardLooks[0]];
  const places = legiblePlaces(strip, looks);

  it('cover the strip once, each about a letter wide, clearest first', () => {
    const byColumn = [...places].sort((p, q) => p.fromColumn - q.fromColumn);
    byColumn.slice(1).forEach((place, k) => {
      expect(place.fromColumn).toBe(byColumn[k].toColumn);
    });
    expect(places.every(({ fromColumn, toColumn }) => (toColumn - fromColumn) * 0.12 < 3 * letterMm)).toBe(true);
    places.slice(1).forEach((place, k) => {
      expect(place.contrast).toBeLessThanOrEqual(places[k].contrast);
    });
  });

  // Truth by construction: what lies right of the middle was rubbed down.
  it('rank what was rubbed down behind what was not', () => {
    const half = places.length >> 1;
    const rubbed = (list: typeof places): number =>
      list.filter(({ deg }) => deg < 180).length / Math.max(1, list.length);
    expect(rubbed(places.slice(half)) - rubbed(places.slice(0, half))).toBeGreaterThan(0.5);
  });

  it('are never shown under a look that parts them worse than another', () => {
    const each = looks.map((look) => legiblePlaces(strip, [look]));
    for (const place of places)
      for (const list of each) {
        const same = list.find(({ fromColumn }) => fromColumn === place.fromColumn);
        expect(place.contrast).toBeGreaterThanOrEqual(same?.contrast ?? Number.POSITIVE_INFINITY);
      }
    expect(strokeContrast(strip, { grey: new Uint8ClampedArray(strip.grid.z.length) })).toBe(0);
  });
});

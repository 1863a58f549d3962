import { expect, it } from 'vitest';
import { subjectMotion } from '../../src/core/compare/index.ts';
import { differencesOfImage } from '../../src/core/compare/ofImage.ts';
import { imageHull, insidePolygon } from '../../src/core/face/index.ts';
import { apply, compose, sampleGrid, withHeights } from '../../src/core/geometry/index.ts';
import { bumpySheet } from '../geometry/surface.ts';
import { anyMotion, dieMesh, model, side } from './pair.ts';

it('keeps the differences of what lies over the image, wherever the subject was scanned, and no others', () => {
  const { face } = side(dieMesh(1), 'intaglio');
  const referenceFromSubject = anyMotion(1.02);
  const motion = subjectMotion(face, model('oneScale', referenceFromSubject));
  const subject = bumpySheet(200, 20, 3, () => 0);
  const d = Float32Array.from({ length: subject.positions.length / 3 }, (_, i) => i + 1);
  const kept = differencesOfImage(face, subject, motion, d);
  const inside = insidePolygon(face.relief, imageHull(face));
  const sure = withHeights(face.relief, Float32Array.from(inside), new Uint8Array(inside.length).fill(1));
  let [within, beyond] = [0, 0];
  for (let i = 0; i < d.length; i++) {
    const p = subject.positions.subarray(3 * i, 3 * i + 3);
    const [x, y] = apply(compose(face.faceFromScan, referenceFromSubject), [p[0], p[1], p[2]]);
    // 1 where all four cells about it are the image's, 0 where none is; NaN beyond the map.
    const share = sampleGrid(sure, x, y);
    if (share === 1) expect(kept[i]).toBe(d[i]);
    else if (!(share > 0)) expect(kept[i]).toBeNaN();
    if (share === 1) within++;
    else if (!(share > 0)) beyond++;
  }
  expect(within).toBeGreaterThan(100);
  expect(beyond).toBeGreaterThan(100);
});

import { describe, expect, it } from 'vitest';
import {
  apply,
  compose,
  fromMatrix4,
  invert,
  rotationAbout,
  type Similarity,
  seededRandom,
  type Vec3,
} from '../../src/core/geometry/index.ts';
import { buildRecord, fileMotion } from '../../src/core/report/index.ts';
import { comparisonFixture, faceFromFace, paradataFixture } from './fixture.ts';

const random = seededRandom(20);
const vector = (size: number): Vec3 => [
  random.between(-size, size),
  random.between(-size, size),
  random.between(-size, size),
];
const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const apart = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

const motion: Similarity = {
  scale: 1.0137,
  rotation: rotationAbout([0.6, 0, 0.8], 2.3),
  translation: [4, -7, 0.5],
};

describe('a motion between files', () => {
  it('takes p + offset of the subject to S p + offset of the reference, also with offsets of a kilometre', () => {
    for (const size of [0, 10, 1e6]) {
      const [reference, subject] = [vector(size), vector(size)];
      const between = fileMotion(motion, reference, subject);
      for (let k = 0; k < 20; k++) {
        const p = vector(60);
        expect(apart(apply(between, plus(p, subject)), plus(apply(motion, p), reference))).toBeLessThan(
          1e-8 + 1e-14 * size,
        );
      }
    }
  });

  it('turns round when the two change places', () => {
    const [reference, subject] = [vector(900), vector(900)];
    const there = fileMotion(motion, reference, subject);
    const back = fileMotion(invert(motion), subject, reference);
    const p = vector(1000);
    expect(apart(apply(compose(back, there), p), p)).toBeLessThan(1e-9);
  });

  it('stands in the record as written: a place on the subject file lands on the same design in the reference file', () => {
    const comparison = comparisonFixture({ pitch: 0.5 });
    const { reference, subject } = comparison;
    const record = buildRecord(comparison, paradataFixture);
    const written = fromMatrix4(JSON.parse(JSON.stringify(record.fit.subjectToReference)));
    const inFile = (side: typeof reference, onFace: Vec3): Vec3 =>
      plus(apply(invert(side.face.faceFromScan), onFace), side.scan.mesh.offset);
    for (let k = 0; k < 20; k++) {
      const onSubject = vector(15);
      const expected = inFile(reference, apply(faceFromFace, onSubject));
      expect(apart(apply(written, inFile(subject, onSubject)), expected)).toBeLessThan(2e-6);
    }
  });

  it('is recorded beside the face: file to face frame undoes face frame to file', () => {
    const comparison = comparisonFixture({ pitch: 0.5 });
    const record = buildRecord(comparison, paradataFixture);
    const { scan, face } = comparison.subject;
    const toFace = fromMatrix4((record.subject.face as { faceFromFile: number[] }).faceFromFile);
    const p = vector(20);
    expect(apart(apply(toFace, plus(p, scan.mesh.offset)), apply(face.faceFromScan, p))).toBeLessThan(2e-6);
  });
});

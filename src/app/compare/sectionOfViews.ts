import type { Section } from '../../core/compare/index.ts';
import { apply, invert, type Similarity, sampleGrid } from '../../core/geometry/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { gridOfPicture } from '../saved/grids.ts';
import type { Line } from '../state/document.ts';

/**
 * Both profiles along a line in the reference's face frame, from the reliefs that the plate shows: for a comparison that
 * was opened reduced, where the surfaces themselves are not at hand. Heights in mm in the reference's frame.
 */
export function sectionOfViews(
  reference: FaceView,
  subject: FaceView,
  referenceFromSubject: Similarity,
  line: Line,
): Section {
  const [x0, y0, x1, y1] = line;
  const [a, b] = [gridOfPicture(reference.picture), gridOfPicture(subject.picture)];
  const subjectFromReference = invert(referenceFromSubject);
  const length = Math.hypot(x1 - x0, y1 - y0);
  const count = Math.max(2, Math.min(1200, Math.ceil(length / Math.min(a.pitch, b.pitch)) + 1));
  const at = Float64Array.from({ length: count }, (_, i) => (length * i) / (count - 1));
  const place = (i: number): [number, number] => [
    x0 + ((x1 - x0) * i) / (count - 1),
    y0 + ((y1 - y0) * i) / (count - 1),
  ];
  const onReference = Float64Array.from(at, (_, i) => sampleGrid(a, ...place(i)));
  const onSubject = Float64Array.from(at, (_, i) => {
    const [u, v] = apply(subjectFromReference, [...place(i), 0]);
    const z = sampleGrid(b, u, v);
    return Number.isNaN(z) ? z : apply(referenceFromSubject, [u, v, z])[2];
  });
  return { line, at, reference: onReference, subject: onSubject };
}

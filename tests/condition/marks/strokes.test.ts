import { describe, expect, it } from 'vitest';
import type { LineMark } from '../../../src/core/condition/marks/lines/lines.ts';
import { lowerStroke } from '../../../src/core/condition/marks/strokes.ts';

/** A line of ten cells, `within` of them in the legend, on a face of 50 mm. */
function lower(line: Partial<LineMark>, { lengthMm = 5, within = 10 } = {}): ReturnType<typeof lowerStroke> {
  const cells = Array.from({ length: 10 }, (_, k) => k);
  const band = Uint8Array.from(cells, (k) => (k < within ? 1 : 0));
  const whole = { chain: { cells, lengthMm }, carriedBy: 'subject', onReferenceMm: 0.1, onSubjectMm: 0.3, ...line };
  return lowerStroke(whole as unknown as LineMark, band, 50);
}

describe('a short raised line within the legend', () => {
  it('is a stroke that stands lower on the other face, where that shows 0.15 of it', () => {
    expect(lower({})).toBe('reference');
    expect(lower({ onReferenceMm: 0.046 })).toBe('reference');
    expect(lower({ onReferenceMm: 0.044 })).toBeNull();
    expect(lower({ carriedBy: 'reference', onReferenceMm: 0.3, onSubjectMm: 0.1 })).toBe('subject');
    expect(lower({ carriedBy: 'reference', onReferenceMm: 0.3, onSubjectMm: 0.044 })).toBeNull();
  });

  it('is a line of its own where it is sunk, or the other is, or both carry it', () => {
    expect(lower({ onSubjectMm: -0.3, onReferenceMm: -0.1 })).toBeNull();
    expect(lower({ onReferenceMm: -0.1 })).toBeNull();
    expect(lower({ carriedBy: 'both' })).toBeNull();
  });

  it('is one, too, where it is longer than 0.12 of the face, or less than seven tenths of it lie within the legend', () => {
    expect(lower({}, { lengthMm: 6 })).toBe('reference');
    expect(lower({}, { lengthMm: 6.1 })).toBeNull();
    expect(lower({}, { within: 7 })).toBe('reference');
    expect(lower({}, { within: 6 })).toBeNull();
  });
});

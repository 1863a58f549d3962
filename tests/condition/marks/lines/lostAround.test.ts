import { describe, expect, it } from 'vitest';
import { lostAround } from '../../../../src/core/condition/marks/lines/lines.ts';
import { designHeight, pair, pitch, type Surface } from '../../pressedSeal.ts';

/** The design with all of its heights times `share`. */
const lowered =
  (share: number): Surface =>
  (x, y) =>
    share * designHeight(x, y);

/** A straight mark of 12 mm at this height over the middle: at 14 through letters, at 0 over the broad boss. */
function across({ reference: { width, left, top } }: ReturnType<typeof pair>, y: number) {
  const row = Math.round((top - y) / pitch);
  const first = Math.round((-6 - left) / pitch);
  return { cells: Array.from({ length: 60 }, (_, k) => row * width + first + k), ux: 0, uy: 1 };
}

function lost(subject: Surface, reference: Surface, y = 14): boolean {
  const seen = pair(subject, reference, 0.01);
  return lostAround(seen, across(seen, y));
}

describe('what the reference lost about a mark on the subject alone', () => {
  it('is told where it keeps less than half of the narrow forms there', () => {
    expect(lost(designHeight, lowered(0.3))).toBe(true);
    expect(lost(designHeight, lowered(0.7))).toBe(false);
    expect(lost(designHeight, designHeight)).toBe(false);
  });

  it('is nothing where the subject is the one that lost', () => {
    expect(lost(lowered(0.3), designHeight)).toBe(false);
  });

  it('is nothing where no narrow form is by', () => {
    expect(lost(designHeight, designHeight, 0)).toBe(false);
  });
});

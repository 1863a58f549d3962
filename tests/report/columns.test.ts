import { describe, expect, it } from 'vitest';
import { cellsCsv, landmarksCsv } from '../../src/core/report/csv.ts';
import type { ComparisonRecord } from '../../src/core/report/index.ts';

/** The one row of a table by the names of its columns. */
function rowOf(csv: string): Record<string, number> {
  const [head, row, ...rest] = csv.trim().split(/\r?\n/);
  expect(rest).toEqual([]);
  expect(row.split(',')).toHaveLength(head.split(',').length);
  return Object.fromEntries(head.split(',').map((name, i) => [name, Number(row.split(',')[i])]));
}

const recordWith = (judge: unknown): ComparisonRecord => ({ judge }) as ComparisonRecord;

// Every value is another one, so that two columns exchanged are seen.
describe('the columns hold what their heads say', () => {
  it('of the landmarks', () => {
    const landmark = {
      x: 1,
      y: 2,
      dx: 3,
      dy: 4,
      aloneSmooth: [5, 6],
      ellipse: { majorMm: 7, minorMm: 8, deg: 9 },
      correlation: 0.5,
    };
    expect(rowOf(landmarksCsv(recordWith({ landmarks: { each: [landmark] } })))).toEqual({
      x_mm: 1,
      y_mm: 2,
      dx_mm: 3,
      dy_mm: 4,
      rest_smooth_x_mm: 5,
      rest_smooth_y_mm: 6,
      ellipse_major_mm: 7,
      ellipse_minor_mm: 8,
      ellipse_deg: 9,
      correlation: 0.5,
    });
  });

  it('of the cells', () => {
    const cell = { x: 1, y: 2, dx: 3, dy: 4, offsetMm: 5, turnDeg: 6, correlation: 0.5, congruent: 1 };
    expect(rowOf(cellsCsv(recordWith({ cells: { each: [cell] } })))).toEqual({
      x_mm: 1,
      y_mm: 2,
      dx_mm: 3,
      dy_mm: 4,
      offset_mm: 5,
      turn_deg: 6,
      correlation: 0.5,
      congruent: 1,
    });
  });
});

import { expect, it } from 'vitest';
import { differenceStatistics } from '../../src/core/compare/statistics.ts';
import type { FaceZones } from '../../src/core/design/index.ts';
import { emptyGrid } from '../../src/core/geometry/index.ts';

it('gives robust numbers by zone and whole, and the share of each that is covered', () => {
  const map = emptyGrid(0, 9, 0, 3, 1);
  const labels = new Uint8Array(40);
  labels.fill(1, 0, 10).fill(2, 10, 20).fill(4, 20, 25);
  // Legend: −4 … 5 hundredths; field: half covered; border: not at all; outside every zone a value that counts nowhere.
  for (let i = 0; i < 15; i++) map.mask[i] = 1;
  for (let i = 0; i < 10; i++) map.z[i] = (i - 4) / 100;
  map.z.fill(0.2, 10, 15);
  map.mask[30] = 1;
  map.z[30] = 99;
  const zones = { grid: map, labels } as unknown as FaceZones;
  const { whole, zones: byZone } = differenceStatistics(map, zones);
  const [legend, field, motif, border] = byZone;
  expect(legend.zone).toBe('legend');
  expect(legend.medianMm).toBeCloseTo(0.005, 7);
  expect(legend.madMm).toBeCloseTo(0.025, 7);
  expect(legend.rmsMm).toBeCloseTo(Math.sqrt(85 / 10) / 100, 7);
  expect(legend.coveredFraction).toBe(1);
  expect(field.coveredFraction).toBe(0.5);
  expect(field.p95Mm).toBeCloseTo(0.2, 7);
  expect(motif.medianMm).toBeNaN();
  expect(border.coveredFraction).toBe(0);
  expect(whole.coveredFraction).toBeCloseTo(15 / 25, 9);
  expect(whole.medianMm).toBeCloseTo(0.03, 7);
});

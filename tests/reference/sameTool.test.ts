import { beforeAll, describe, expect, it } from 'vitest';
import { type Comparison, comparePrepared, type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { needing, realData } from '../realData.ts';

// Breech-face impressions of three fired cartridge cases: 1-1 and 1-2 were struck by one slide, 2-1 by another. NIST
// Ballistics Toolmark Research Database, cropped, levelled and band-passed, as packaged for R. The published cells
// and the masked correlation over all turns say the same (0.75 against 0.27 and 0.25); the turn is about −24°.
const fileOf = (name: string): string => `same-tool/fadul${name}_processed.x3p`;
const there = realData(fileOf('1-1')) !== null;

const load = (name: string): Promise<PreparedScan> =>
  prepareScan({ name, bytes: realData(fileOf(name)) as Uint8Array, kind: 'impression' });

const results: Record<string, Comparison> = {};

beforeAll(async () => {
  if (!there) return;
  const scans = { '1-1': await load('1-1'), '1-2': await load('1-2'), '2-1': await load('2-1') };
  results.same = comparePrepared(scans['1-1'], scans['1-2']);
  results.first = comparePrepared(scans['1-1'], scans['2-1']);
  results.second = comparePrepared(scans['1-2'], scans['2-1']);
}, 300_000);

describe.skipIf(!there)(needing(fileOf('1-1'), 'two marks of one tool and one of another'), () => {
  it('takes the unit from the file, though the object is smaller than any seal, and says so', () => {
    const { reference, judgement } = results.same;
    expect(reference.scan.unit).toBe('m');
    expect(reference.scan.unitFrom).toBe('file');
    expect(reference.face.outline.widthMm).toBeGreaterThan(3);
    expect(reference.face.outline.widthMm).toBeLessThan(3.8);
    expect(judgement.limits.map(({ code }) => code)).toContain('smallerThanSeals');
  });

  it('lays the two marks of one tool on one another at the published turn and at their own size', () => {
    const { fit } = results.same;
    const { rotation, scale } = fit.models[1].referenceFromSubject;
    expect(fit.found).toBe(true);
    expect(fit.turnedOver).toBe(false);
    expect(Math.abs((Math.atan2(rotation[3], rotation[0]) * 180) / Math.PI + 24)).toBeLessThan(2);
    expect(Math.abs(scale - 1)).toBeLessThan(0.01);
  });

  it('puts them clearly above both others', () => {
    for (const other of [results.first, results.second]) {
      expect(results.same.fit.significance).toBeGreaterThan(3 * other.fit.significance);
      expect(results.same.fit.score).toBeGreaterThan(other.fit.score + 0.3);
      expect(results.same.judgement.score).toBeGreaterThan(other.judgement.score + 1);
      expect(results.same.judgement.cells.congruent).toBeGreaterThan(other.judgement.cells.congruent);
    }
  });

  it('supports neither of the others', () => {
    for (const other of [results.first, results.second]) expect(other.judgement.finding).not.toBe('supported');
    expect(results.same.judgement.finding).not.toBe('against');
  });
});

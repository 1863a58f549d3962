import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import {
  buildComparisons,
  buildRecord,
  type ComparisonRecord,
  comparisonsJsonSchema,
  recordJsonSchema,
  type Together,
  validateComparisons,
  validateRecord,
} from '../../src/core/report/index.ts';
import { comparisonFixture, paradataFixture } from './fixture.ts';

const coarse = { pitch: 0.5 };
const found = buildRecord(comparisonFixture(coarse), paradataFixture);
const lost = buildRecord(comparisonFixture({ ...coarse, found: false }), paradataFixture);
const positives = buildRecord(comparisonFixture({ ...coarse, bothPositive: true }), paradataFixture);

/** A copy with one field set to another value. */
function altered(record: ComparisonRecord, path: string, value: unknown): unknown {
  const copy = structuredClone(record) as unknown as Record<string, unknown>;
  const keys = path.split('.');
  const last = keys.pop() as string;
  let at = copy;
  for (const key of keys) at = at[key] as Record<string, unknown>;
  if (value === undefined) delete at[last];
  else at[last] = value;
  return copy;
}

describe('the record of one comparison', () => {
  it.each([
    ['with a fit', found],
    ['without a fit', lost],
    ['of two impressions', positives],
  ])('%s survives writing and reading, and its own check', (_, record) => {
    expect(validateRecord(JSON.parse(JSON.stringify(record)))).toEqual(record);
  });

  it('has nulls and no NaN where nothing was measured', () => {
    expect(lost.fit).toMatchObject({ found: false, subjectToReference: null });
    expect(lost.difference).toMatchObject({ medianMm: null, rmsMm: null, levelOfDetectionMm: null });
    expect(lost.size).toMatchObject({ ratio: null, sd: null, reading: [] });
    expect(lost.judge.correlation).toBeNull();
    expect(found.damage[2]).toMatchObject({ id: 'M3', areaMm2: null });
    expect(found.judge.hypotheses.every(({ log10Lr }) => log10Lr === null)).toBe(true);
  });

  it('keeps what was mended, stated and assumed', () => {
    expect(found.reference).toMatchObject({ kindFrom: 'stated', unitFrom: 'assumed', material: 'brass' });
    expect(found.subject.repairs).toMatchObject({ degenerate: 12, strayPieces: 2 });
  });

  it('says what each parameter was resolved to, stated or not, and what the user put', () => {
    const { reference, subject, start, calibration, stated } = found.paradata.parameters;
    expect(reference).toMatchObject({ unit: 'mm', unitFrom: 'assumed', kind: 'matrix', material: 'brass' });
    expect(subject).toMatchObject({ kind: 'impression', scaleUncertaintyPercent: expect.any(Number) });
    expect({ start, calibration }).toEqual({ start: 'search', calibration: expect.any(String) });
    expect(stated).toEqual(paradataFixture.stated);
  });

  const faults: Array<[string, string, unknown]> = [
    ['a missing schema', 'schema', undefined],
    ['another schema', 'schema', 'ectype/comparison/9'],
    ['a hash of the wrong length', 'reference.sha256', 'abc'],
    ['an unknown kind', 'subject.kind', 'photograph'],
    ['an unknown unit', 'subject.unit', 'furlong'],
    ['half a triangle', 'subject.triangles', 1.5],
    ['a matrix of twelve numbers', 'fit.subjectToReference', new Array(12).fill(0)],
    ['no matrix although a fit was found', 'fit.subjectToReference', null],
    ['an overlap above one', 'fit.overlap', 1.2],
    ['a residual that is text', 'fit.models.1.rmsMm', '0.1'],
    ['an unknown state of wear', 'wear.zones.0.state', 'tired'],
    ['an unknown finding', 'judge.finding', 'certain'],
    ['a likelihood ratio left out', 'judge.hypotheses.0.log10Lr', undefined],
    ['more than all cells', 'judge.cells.congruent', -1],
    ['a kind from nowhere', 'subject.kindFrom', 'guessed'],
    ['a confidence above one', 'reference.senseConfidence', 2],
    ['an image without a shape', 'reference.image', { widthMm: 30, heightMm: 30, edge: 'border', from: 'itself' }],
    ['a share of the image above one', 'subject.surviving', { widthMm: 9, heightMm: 9, shareOfImage: 1.1 }],
    ['an unknown question', 'judge.question', 'whose'],
    ['an unknown descent', 'judge.descent', 'cousin'],
    ['half an interval', 'judge.interval', [1]],
    ['a piece of evidence without a name', 'judge.evidence.0.name', undefined],
    ['gates left out', 'judge.gates', undefined],
    ['thresholds without their hash', 'paradata.evidence', undefined],
    ['no resolved parameters', 'paradata.parameters.subject', undefined],
    ['a time that is none', 'paradata.startedAt', 'yesterday'],
  ];
  it.each(faults)('is refused with %s, naming the place', (_, path, value) => {
    const named = path.replaceAll('.', '\\.').replace('log10Lr', '').replace(/\\\.$/, '');
    expect(() => validateRecord(altered(found, path, value))).toThrow(new RegExp(named));
  });

  it('is refused when its motion is no similarity, and not when it mirrors', () => {
    const sheared = [...(found.fit.subjectToReference as number[])];
    sheared[0] += 0.01;
    expect(() => validateRecord(altered(found, 'fit.subjectToReference', sheared))).toThrow(/similarity/);
    const mirrored = (found.fit.subjectToReference as number[]).map((v, i) => (i % 4 === 0 && i < 12 ? -v : v));
    expect(() => validateRecord(altered(found, 'fit.subjectToReference', mirrored))).not.toThrow();
  });

  it.each(['rubbed', 'flattened', 'notFilled'])('of before is read where a zone is called %s', (state) => {
    expect(validateRecord(altered(found, 'wear.zones.0.state', state)).wear.zones[0].state).toBe(state);
    expect(() => validateRecord(altered(found, 'wear.zones.0.state', 'worn'))).toThrow(/state/);
  });

  it('may carry further fields', () => {
    expect(validateRecord(altered(found, 'judge.note', 'kept'))).toMatchObject({ judge: { note: 'kept' } });
  });
});

describe('the JSON Schema that goes with it', () => {
  // Referee: ajv reads the schema independently of the library that wrote it.
  const ajv = new Ajv2020({ strict: false, validateFormats: false });
  const check = ajv.compile(recordJsonSchema());

  it('accepts what the program writes', () => {
    for (const record of [found, lost, positives]) expect(check(record), JSON.stringify(check.errors)).toBe(true);
  });

  it.each([
    ['schema', 'other'],
    ['subject.kind', 'photograph'],
    ['fit.overlap', 1.2],
    ['judge.finding', undefined],
    ['difference.medianMm', 'none'],
  ])('refuses a wrong %s', (path, value) => {
    expect(check(altered(found, path, value))).toBe(false);
  });
});

describe('the record of several subjects', () => {
  const together: Together = {
    marks: [{ id: 'M1', seen: ['absent', 'cannotJudge'] }],
    order: [{ earlier: 0, later: 1, marks: ['M1'] }],
    sharedAccidents: [{ subjects: [0, 1], words: 'the same bubble beside the crozier' }],
    composite: [{ subject: 0, fraction: 0.7 }],
  };
  it('joins valid records in their order', () => {
    const joined = buildComparisons([found, lost], together);
    expect(joined.schema).toBe('ectype/comparisons/2');
    expect(validateComparisons(JSON.parse(JSON.stringify(joined)))).toEqual(joined);
    expect(new Ajv2020({ strict: false, validateFormats: false }).validate(comparisonsJsonSchema(), joined)).toBe(true);
  });
  it('is refused when a mark leaves a subject out, or when there is no subject', () => {
    expect(() => buildComparisons([found], together)).toThrow(/every subject/);
    expect(() => buildComparisons([], { ...together, marks: [] })).toThrow(RangeError);
  });
});

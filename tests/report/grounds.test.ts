import { describe, expect, it } from 'vitest';
import { buildRecord, type ComparisonRecord } from '../../src/core/report/index.ts';
import { comparisonFixture, paradataFixture } from './fixture.ts';

const coarse = { pitch: 0.5 };
const found = buildRecord(comparisonFixture(coarse), paradataFixture);
const lost = buildRecord(comparisonFixture({ ...coarse, found: false }), paradataFixture);
const positives = buildRecord(comparisonFixture({ ...coarse, bothPositive: true }), paradataFixture);
const codes = ({ judge }: ComparisonRecord): string[] => judge.grounds.map(({ code }) => code);

describe('the grounds of a finding', () => {
  it('are one to six, and each is told once', () => {
    for (const record of [found, lost, positives]) {
      expect(codes(record).length).toBeGreaterThan(0);
      expect(codes(record).length).toBeLessThanOrEqual(6);
      expect(new Set(codes(record)).size).toBe(codes(record).length);
    }
  });

  it('put what stood in the way of the finding before all else, and what decided before what was found besides', () => {
    const fixture = comparisonFixture(coarse);
    const overlap = {
      group: 'support',
      code: 'overlap',
      value: 0.1,
      bound: 'atLeast',
      limit: 0.2,
      passed: false,
    } as const;
    const judgement = { ...fixture.judgement, finding: 'undecided', gates: [overlap] } as const;
    const { grounds } = buildRecord({ ...fixture, judgement }, paradataFixture).judge;
    expect(grounds[0]).toMatchObject({ code: 'overlap', speaks: 'inTheWay', decided: true });
    const decided = grounds.map((ground) => ground.decided);
    expect(decided.slice(decided.lastIndexOf(true) + 1)).not.toContain(true);
    expect(grounds[0].how).toContain('not reached');
  });

  it('say that the legend was cut anew where that is what stood in the way', () => {
    const fixture = comparisonFixture(coarse);
    const anew = {
      group: 'support',
      code: 'overLegendAnew',
      value: -11.4,
      bound: 'atLeast',
      limit: 0,
      passed: false,
    } as const;
    const judgement = { ...fixture.judgement, finding: 'undecided', gates: [anew] } as const;
    const [ground] = buildRecord({ ...fixture, judgement }, paradataFixture).judge.grounds;
    expect(ground).toMatchObject({ code: 'legend', speaks: 'inTheWay', decided: true });
    expect(ground.says).toContain('11 powers of ten');
    expect(ground.says.split(' ').length).toBeLessThan(64);
  });

  it('without a fit are that there is none', () => {
    expect(codes(lost)).toEqual(['noFit']);
  });

  it('each say what speaks against them and what would overturn them, in short sentences without holes', () => {
    for (const record of [found, lost, positives])
      for (const { title, says, against, overturn } of record.judge.grounds) {
        expect(title.length).toBeLessThan(90);
        for (const text of [says, against, overturn]) {
          expect(text).toMatch(/^[A-Z0-9].*\.$/s);
          expect(text.split(' ').length).toBeLessThan(64);
          expect(text).not.toMatch(/NaN|undefined|null|\bdie\b/);
        }
      }
  });

  it('call the two by what they are, and by no seat', () => {
    const says = found.judge.grounds.map((ground) => ground.says).join(' ');
    expect(says).toMatch(/the (matrix|impression)/i);
    const unsure = comparisonFixture(coarse);
    const record = buildRecord(
      { ...unsure, judgement: { ...unsure.judgement, rolesConfidence: 0.6 } },
      paradataFixture,
    );
    expect(record.judge.grounds.map((ground) => ground.says).join(' ')).not.toMatch(/the (matrix|impression)/i);
  });
});

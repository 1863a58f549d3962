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

  it('begin with what is weighed, and end with what says nothing of who cut it', () => {
    const sides = found.judge.grounds.map(({ favours }) => favours);
    expect(sides[0]).not.toBe('neither');
    const first = sides.indexOf('neither');
    expect(first === -1 || sides.slice(first).every((side) => side === 'neither')).toBe(true);
  });

  it('without a fit are that nothing corresponds', () => {
    expect(codes(lost)).toEqual(['nothingCorresponds']);
  });

  it('each say what speaks against them and what would overturn them, in short sentences without holes', () => {
    for (const record of [found, lost, positives])
      for (const { name, says, against, overturn } of record.judge.grounds) {
        expect(name.length).toBeLessThan(48);
        for (const text of [says, against, overturn]) {
          expect(text).toMatch(/^[A-Z0-9].*\.$/s);
          expect(text.split(' ').length).toBeLessThan(42);
          expect(text).not.toMatch(/NaN|undefined|null|\bdie\b|reference|subject/);
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

import { describe, expect, it } from 'vitest';
import { askedOf } from '../../src/core/judge/asked.ts';
import { conclude } from '../../src/core/judge/finding.ts';
import { type PairEvidence, strengthDefaults } from '../../src/core/judge/gates.ts';
import type { Finding, Gate } from '../../src/core/judge/index.ts';
import { claimOf } from '../../src/core/judge/question.ts';
import { findingSentence } from '../../src/core/report/words/index.ts';
import { thisOrCopy } from '../../src/core/report/words/question.ts';
import { fitWith } from './fitWith.ts';

const side = (sense: 'intaglio' | 'relief', senseConfidence = 0.99) => ({
  sense,
  senseConfidence,
  senseFrom: 'closedBody' as const,
});
const madeFrom = claimOf(askedOf(side('intaglio'), side('relief'), fitWith()));

const evidence = (finding: Finding, score = 5, gates: Gate[] = []): PairEvidence =>
  ({ finding, gates, places: null, weighed: { score, interval: [score, score] } }) as unknown as PairEvidence;

const said = (finding: Finding, score?: number, gates?: Gate[], found = finding !== 'otherDesign') =>
  conclude(fitWith({ found }), evidence(finding, score, gates), null);
const sentence = (finding: Finding, score?: number): string =>
  findingSentence({ ...said(finding, score), claim: madeFrom, caution: null });

describe('a conclusion', () => {
  it('begins with the plain answer and carries its strength', () => {
    expect(sentence('supported')).toMatch(/^This matrix or a faithful copy of it\. The evidence supports \(moderate\)/);
    expect(sentence('against', -9)).toMatch(/^Another matrix\. The evidence speaks \(strong\)/);
    expect(sentence('otherDesign')).toMatch(/^Another design .*two sides of one seal\.$/);
    expect(sentence('undecided', 0)).toMatch(/^Not decided\./);
  });

  it('prints “this matrix or a faithful copy of it” as one phrase, and never calls the two reference and subject', () => {
    for (const finding of ['supported', 'against', 'undecided'] as const) {
      expect(sentence(finding)).toContain(thisOrCopy);
      expect(sentence(finding)).not.toMatch(/\b(reference|subject)\b/);
    }
  });

  it('names nobody matrix or impression below a confidence of 0.8', () => {
    expect(claimOf(askedOf(side('intaglio', 0.6), side('relief', 0.55), fitWith()))).toBe('oneFromOther');
  });

  it('grows in strength with the score, for and against alike', () => {
    const { moderate, strong } = strengthDefaults;
    const steps = [moderate - 0.1, moderate, strong - 0.1, strong].map((score) => said('supported', score).strength);
    expect(steps).toEqual(['weak', 'moderate', 'moderate', 'strong']);
    expect(said('against', -strong).strength).toBe('strong');
    expect(said('undecided', 20).strength).toBe('none');
  });

  it('takes the strength of another design from how clear both faces are', () => {
    const clear = (value: number): Gate[] => [
      { group: 'otherDesign', code: 'clear', value, bound: 'atLeast', limit: 10, passed: true },
    ];
    expect([11, 13, 16].map((value) => said('otherDesign', 0, clear(value)).strength)).toEqual([
      'weak',
      'moderate',
      'strong',
    ]);
  });

  it('says of an undecided pair which gates of support were not passed', () => {
    const gates: Gate[] = [
      { group: 'support', code: 'overlap', value: 0.2, bound: 'atLeast', limit: 0.3, passed: false },
      { group: 'support', code: 'rivalTurns', value: 0, bound: 'atMost', limit: 0, passed: true },
    ];
    expect(said('undecided', 1, gates).reasons.map(({ code }) => code)).toEqual(['overlap']);
    expect(said('undecided', 1, [], false).reasons.map(({ code }) => code)).toEqual(['noFit']);
  });
});

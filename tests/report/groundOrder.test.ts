import { describe, expect, it } from 'vitest';
import type { Gate, Limit } from '../../src/core/judge/index.ts';
import type { Comparison } from '../../src/core/pipeline.ts';
import { groundsOf, mostGrounds } from '../../src/core/report/grounds.ts';
import { groundsInWords, stateSentence } from '../../src/core/report/index.ts';
import { comparisonFixture } from './fixture.ts';

const coarse = { pitch: 0.5 };
const found = comparisonFixture(coarse);
const lost = comparisonFixture({ ...coarse, found: false });
const positives = comparisonFixture({ ...coarse, bothPositive: true });

const gate = (group: Gate['group'], code: Gate['code'], passed: boolean): Gate => ({
  ...{ group, code, passed, value: passed ? 3 : 1, bound: 'atLeast', limit: 2 },
});
/** Thirty places on both, all where the others put them. */
const constellation = {
  landmarks: Array.from({ length: 30 }, (_, i) => ({
    ...{ x: i, y: -i, dx: 0.01, dy: 0, correlation: 0.9 },
    aloneSmooth: [0.005, 0.004] as const,
    ellipse: { majorMm: 0.03, minorMm: 0.02, deg: 20 },
  })),
  ...{ found: 30, unseen: [], smoothMm: 0.006, outside: 0 },
};
const judged = (change: Partial<Comparison['judgement']>): Comparison => ({
  ...found,
  judgement: { ...found.judgement, constellation, ...change },
});

describe('why', () => {
  it('is told in one to six grounds, each once, in words without holes and without seats', () => {
    for (const pair of [found, lost, positives, judged({})]) {
      const grounds = groundsInWords(pair);
      expect(grounds.length).toBeGreaterThan(0);
      expect(grounds.length).toBeLessThanOrEqual(mostGrounds);
      expect(new Set(grounds.map(({ code }) => code)).size).toBe(grounds.length);
      for (const { title, figure, says, against, overturn, how } of grounds) {
        expect(title.length).toBeLessThan(80);
        expect(figure.length).toBeLessThan(16);
        for (const text of [says, against, overturn, how]) {
          expect(text).toMatch(/^[A-Z0-9].*\.$/s);
          expect(text).not.toMatch(/NaN|undefined|null|\bdie\b/);
        }
        expect(`${says} ${against} ${overturn}`).not.toMatch(/\b(reference|subject)\b/);
      }
    }
  });

  it('lets the places speak for one matrix where all their gates are passed and something else stood in the way', () => {
    const told = (passed: boolean) => {
      const gates = [gate('support', 'scoreFor', passed), gate('support', 'mirroredFile', false)];
      const grounds = groundsOf(judged({ finding: 'undecided', gates }));
      expect(grounds[0]).toMatchObject({ code: 'mirrored', speaks: 'inTheWay', decided: true });
      return grounds.find(({ code }) => code === 'places');
    };
    expect(told(true)).toMatchObject({ speaks: 'for', decided: false });
    expect(told(false)).toMatchObject({ speaks: 'neither', decided: true });
  });

  it('begins with what decided, told by the gates', () => {
    const supported = judged({ finding: 'supported', gates: [gate('support', 'scoreFor', true)] });
    expect(groundsOf(supported)[0]).toMatchObject({ code: 'places', decided: true, speaks: 'for' });
    const against = judged({ finding: 'against', gates: [gate('against', 'scoreAgainst', true)] });
    expect(groundsOf(against)[0]).toMatchObject({ code: 'places', decided: true, speaks: 'against' });
  });

  it('begins with what stood in the way where nothing was decided', () => {
    const gates = [gate('support', 'scoreFor', true), gate('support', 'rivalTurns', false)];
    const [first, ...rest] = groundsOf(judged({ finding: 'undecided', gates }));
    expect(first).toMatchObject({ code: 'turns', decided: true, speaks: 'inTheWay' });
    expect(rest.every(({ decided }) => !decided)).toBe(true);
  });

  it('lets a condition that is met decide nothing', () => {
    const gates = [
      gate('against', 'scoreAgainst', true),
      gate('against', 'growth', true),
      gate('against', 'overlap', true),
    ];
    const decided = groundsOf(judged({ finding: 'against', gates })).filter((fact) => fact.decided);
    expect(decided.map(({ code }) => code)).toEqual(['places']);
  });

  it('lets a size that no material gives speak, before what was only counted', () => {
    const plain = groundsOf(found).find(({ code }) => code === 'size');
    expect(plain?.speaks).toBe('neither');
    const size = { code: 'size' } as Limit;
    const facts = groundsOf(judged({ limits: [size] }));
    const at = facts.findIndex(({ code }) => code === 'size');
    expect(facts[at].speaks).toBe('against');
    expect(facts.slice(0, at).every(({ decided, speaks }) => decided || speaks === 'inTheWay')).toBe(true);
  });

  it('tells of the relief that is left only where the letters are not another matrix’s', () => {
    const gates = [gate('support', 'overLegendAnew', false)];
    const told = (change: Partial<Comparison['judgement']>) =>
      groundsOf(judged(change)).some(({ code }) => code === 'wear');
    expect(told({})).toBe(true);
    expect(told({ finding: 'undecided', gates })).toBe(false);
    expect(told({ finding: 'against' })).toBe(false);
  });

  it('joins the state to the answer only where it can be read and one matrix is not spoken against', () => {
    const [mark] = found.judgement.damage;
    const state = { reading: 'subjectEarlier', marks: [mark.id], reason: { code: 'referenceHas' } } as const;
    expect(stateSentence(judged({ state, finding: 'supported', rolesConfidence: 1 }))).toMatch(
      /^The impression shows the state before the /,
    );
    expect(stateSentence(judged({ state, finding: 'against' }))).toBe('');
    expect(stateSentence(judged({ state: { ...state, reading: 'cannotJudge' } }))).toBe('');
  });
});

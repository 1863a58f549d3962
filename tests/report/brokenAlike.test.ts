import { describe, expect, it } from 'vitest';
import type { Mark } from '../../src/core/condition/index.ts';
import type { Gate, Judgement } from '../../src/core/judge/index.ts';
import { panelLayout } from '../../src/core/report/figures/faces.ts';
import { makePlates } from '../../src/core/report/figures/plates.ts';
import { groundsOf } from '../../src/core/report/grounds.ts';
import { buildRecord, groundsInWords, makeFigures, makeReport, validateRecord } from '../../src/core/report/index.ts';
import { findingSentence } from '../../src/core/report/words/index.ts';
import { comparisonFixture, paradataFixture, shrinkage } from './fixture.ts';

const pair = comparisonFixture({ pitch: 0.5, bothPositive: true });
const edge = { lengthMm: 21.4, roughMm: 0.18, apartMm: 0.04, sigma: 6, stretches: [[0, 1.25, 0.5, 1.5, 1, 1.37]] };
const losses = { count: 3, atEdge: 1, areaMm2: 29.4, byChance: 0 };
const piece = { count: 1, atEdge: 1, areaMm2: 21.5, byChance: 0, floors: { sigma: 12, alike: 0.97, roughMm: 0.08 } };
const chip: Mark = { ...pair.judgement.damage[0], id: 'M9', carriedBy: 'both', shape: 'chip' };
const judged = (change: Partial<Judgement>) => ({
  ...pair,
  judgement: { ...pair.judgement, damage: [...pair.judgement.damage, chip], ...change },
});
const by = (common: Partial<Judgement['descentBy']>) => ({
  descentBy: { size: false, step: null, losses: null, edge: null, ...common },
});
const ground = (change: Partial<Judgement>) =>
  groundsInWords(judged(change)).find(({ code }) => code === 'brokenAlike');

describe('the ground of two that are broken alike', () => {
  it('stands exactly where the sentence of the finding tells of the edge or of the losses', () => {
    for (const finding of ['supported', 'undecided', 'against', 'otherDesign'] as const)
      for (const descent of ['oneDescent', 'subjectFromReference', null] as const)
        for (const common of [{}, { edge }, { losses, edge }, ...(finding === 'supported' ? [{ losses }] : [])]) {
          // Only of these two a descent is told at all.
          if (descent && finding !== 'supported' && finding !== 'undecided') continue;
          const change = { finding, descent, ...by(common) };
          const told = /broken along the same edge|lack the same/.test(findingSentence(judged(change).judgement));
          expect(ground(change) !== undefined, JSON.stringify(change)).toBe(told);
        }
  });

  it('says how and not whether, after what decided and before what was found besides', () => {
    const gate = { code: 'scoreFor', passed: true, value: 3, bound: 'atLeast', limit: 2 } as const;
    const gates: Gate[] = [{ group: 'support', ...gate }];
    const facts = groundsOf(judged({ finding: 'supported', gates, descent: 'oneDescent', ...by({ edge }) }));
    const at = facts.findIndex(({ code }) => code === 'brokenAlike');
    expect(facts[at]).toMatchObject({ speaks: 'neither', decided: false });
    expect(facts.slice(0, at).every(({ decided }) => decided)).toBe(true);
  });

  it('tells the edge by its length, the pieces by their number, and points at the pieces', () => {
    const told = { finding: 'supported', descent: 'oneDescent' } as const;
    expect(ground({ ...told, ...by({ edge }) })).toMatchObject({
      title: 'Both are broken along one edge',
      figure: '21 mm',
    });
    const pieces = ground({ ...told, ...by({ losses }) });
    expect(pieces).toMatchObject({ title: 'Both lack the same pieces', figure: '3 pieces', marks: ['M9'] });
    expect(ground({ ...told, ...by({ losses: piece }) })).toMatchObject({
      title: 'Both lack the same piece',
      figure: '1 piece',
    });
    for (const common of [{ edge }, { losses }, { losses: piece }, { edge, losses }]) {
      const { says, against, overturn, how } = ground({ ...told, ...by(common) }) ?? pieces ?? expect.fail();
      for (const text of [says, against, overturn]) expect(text.split(' ').length).toBeLessThan(64);
      for (const text of [says, against, overturn, how]) {
        expect(text).toMatch(/^[A-Z0-9].*\.$/s);
        expect(text).not.toMatch(/NaN|undefined|null|\b(reference|subject)\b/);
      }
    }
  });
});

describe('the record of a pair that is broken alike', () => {
  const record = buildRecord(judged({ descent: 'oneDescent', ...by({ edge, losses }) }), paradataFixture);

  it('keeps where they are, and survives writing and reading', () => {
    expect(record.judge.descentBy).toEqual({ size: false, step: null, losses, edge });
    expect(validateRecord(JSON.parse(JSON.stringify(record)))).toEqual(record);
  });

  it('keeps how surely one floor is the same', () => {
    const kept = buildRecord(judged({ descent: 'oneDescent', ...by({ losses: piece }) }), paradataFixture);
    expect(kept.judge.descentBy?.losses).toEqual(piece);
    expect(validateRecord(JSON.parse(JSON.stringify(kept)))).toEqual(kept);
  });

  it('is refused with a way that is no row of numbers, and read without any, as older ones are', () => {
    const broken = { ...edge, stretches: [['0']] };
    const { descentBy, ...judge } = record.judge;
    expect(() => validateRecord({ ...record, judge: { ...judge, descentBy: { ...descentBy, edge: broken } } })).toThrow(
      /descentBy\.edge\.stretches/,
    );
    expect(() => validateRecord({ ...record, judge })).not.toThrow();
    expect(buildRecord(judged({ descent: null, ...by({ edge }) }), paradataFixture).judge).not.toHaveProperty(
      'descentBy',
    );
  });
});

describe('the figure of a shared broken edge', () => {
  const told = judged({ finding: 'supported', descent: 'oneDescent', ...by({ edge }) });
  const across = 80;

  it('is drawn where a descent is told by an edge, and else not', () => {
    const drawn = (change: Partial<Judgement>) =>
      makeFigures(judged(change), undefined, across).some(({ id }) => id === 'brokenEdge');
    expect(drawn({ finding: 'supported', descent: 'oneDescent', ...by({ edge }) })).toBe(true);
    expect(drawn({ finding: 'supported', descent: null, ...by({ edge }) })).toBe(false);
    expect(drawn({ finding: 'supported', descent: 'oneDescent', ...by({ losses }) })).toBe(false);
  });

  it('shows the same places on both, on the second at its own size', () => {
    const { drawing } = makeFigures(told, undefined, across).find(({ id }) => id === 'brokenEdge') ?? expect.fail();
    const lines = drawing.marks.filter((mark) => mark.kind === 'line' && mark.points.length === 6);
    expect(lines).toHaveLength(4);
    const { grid } = makePlates(told, across).reference;
    const { corner, perMm } = panelLayout(2, grid);
    const placesOn = (panel: number, mark: (typeof lines)[number]) =>
      'points' in mark
        ? Array.from(mark.points, (at, i) => (at - corner(panel)[i % 2]) / perMm - grid.pitch / 2).map((mm, i) =>
            i % 2 === 0 ? mm + grid.left : grid.top - mm,
          )
        : [];
    const [first, second] = [placesOn(0, lines[0]), placesOn(1, lines[2])];
    first.forEach((mm, i) => {
      expect(mm).toBeCloseTo(edge.stretches[0][i], 6);
      expect(second[i]).toBeCloseTo(edge.stretches[0][i] * shrinkage, 6);
    });
  });

  it('stands small under its ground; no more than three grounds have a picture', () => {
    const { html } = makeReport(told, paradataFixture, { across });
    const grounds = html.slice(html.indexOf('id="grounds"'), html.indexOf('id="annex"'));
    expect(grounds).toContain('The edge along which both are broken');
    expect(grounds.match(/<figure>/g)?.length ?? 0).toBeLessThanOrEqual(3);
  });
});

import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../src/core/pipeline.ts';
import { makeReport, type ReportOptions } from '../../src/core/report/index.ts';
import { stepOf } from '../../src/core/report/page/strength.ts';
import { clockHour } from '../../src/core/report/words/phrases.ts';
import { comparisonFixture, paradataFixture, sectionFixture } from './fixture.ts';

const pitch = 0.4;
const small: ReportOptions = { across: 120, pngWidth: 300, section: sectionFixture() };
const of = (comparison: Comparison, options: ReportOptions = small): string =>
  makeReport(comparison, paradataFixture, options).html;
const renamed = (name: string): Comparison => {
  const comparison = comparisonFixture({ pitch });
  return { ...comparison, subject: { ...comparison.subject, scan: { ...comparison.subject.scan, name } } };
};

const found = of(comparisonFixture({ pitch }));
const apart = of(comparisonFixture({ pitch, found: false }));
const positives = of(comparisonFixture({ pitch, bothPositive: true }));
const pages = [found, apart, positives];

/** The page's words, without its styles, pictures and source. */
const wordsOf = (html: string): string =>
  html
    .replace(/<(style|script)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

describe('the page', () => {
  it('asks nothing of any other place', () => {
    for (const html of pages) {
      const targets = [...html.matchAll(/(?:src|href|srcset|action|data)\s*=\s*["']([^"']*)/g)].map(([, to]) => to);
      for (const to of targets) expect(to).toMatch(/^(data:|#)/);
      for (const [, to] of html.matchAll(/url\(([^)]*)\)/g)) expect(to).toMatch(/^data:/);
      expect(html).not.toMatch(/@import|<link[^>]*stylesheet|<script(?! type="application\/json")/);
      expect(html).toContain("default-src 'none'");
      const addresses = html.replaceAll('xmlns="http://www.w3.org/2000/svg"', '').match(/https?:/g);
      expect(addresses).toBeNull();
    }
  });

  it('never says what scans cannot show', () => {
    for (const html of pages) expect(wordsOf(html)).not.toMatch(/identical|\bprove[sdn]?\b|\bproof\b|\bcertain/i);
  });

  it('never says "this matrix" as the source without "or a faithful copy of it"', () => {
    const text = wordsOf(found);
    expect(text).toContain('this matrix or a faithful copy of it');
    expect(text).not.toMatch(/made from this matrix(?! or a faithful copy of it)/);
  });

  it('makes every word from outside safe', () => {
    const html = of(renamed(`<img src=x onerror="alert(1)">&'"</script>.ply`));
    expect(html).not.toContain('<img');
    expect(html).toContain('&lt;img src=x onerror=&quot;alert(1)&quot;&gt;');
    expect(html.match(/<\/script>/g)).toHaveLength(1);
  });

  it('carries its record, readable as it is', () => {
    const report = makeReport(comparisonFixture({ pitch }), paradataFixture, small);
    const [, json] = /<script type="application\/json" id="record">(.*?)<\/script>/s.exec(
      report.html,
    ) as RegExpExecArray;
    expect(JSON.parse(json)).toEqual(JSON.parse(JSON.stringify(report.record)));
  });

  it('closes every element that it opens', () => {
    const body = found.replace(/<(style|script)[\s\S]*?<\/\1>/g, '');
    const open: string[] = [];
    for (const [, end, name, attributes] of body.matchAll(/<(\/?)([a-z][a-z0-9]*)([^>]*)>/gi)) {
      if (/^(meta|link|wbr)$/.test(name) || attributes.endsWith('/')) continue;
      if (end) expect(open.pop()).toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
  });

  it('gives the finding, its rival, grounds, strength and limits', () => {
    const text = wordsOf(found);
    for (const part of ['Finding', 'Rival', 'Grounds for', 'Limits', 'Strength learnt on'])
      expect(text).toContain(part);
    expect(found).toMatch(/class="here"[^>]*><span>moderate</);
  });

  it('gives files with hashes, units and where they are from, what was mended, and the means to compute it again', () => {
    const text = wordsOf(found);
    for (const part of ['SHA-256', 'mm (assumed)', '12 triangles without area left out', 'Ectype 0.1.0', 'seed 1'])
      expect(text).toContain(part);
    expect(text.replaceAll(/\s+/g, ' ')).toContain('ectype compare simulated-priory-matrix.ply');
    expect(text).toContain('1.96 (√(σ₁²/n₁ + σ₂²/n₂) + registration)');
  });

  it('is honest where no fit was found: both faces, the reason, and no number that needs a fit', () => {
    const text = wordsOf(apart);
    expect(apart).toContain('id="figure-faces"');
    expect(text).toContain('The two faces agree no better than unrelated ones do.');
    expect(text).not.toMatch(/Level of detection at|Height kept|size of the warp|M, subject file/);
    expect(apart).toMatch(/class="here"[^>]*><span>undecided</);
  });

  it('asks the question that fits the pair', () => {
    expect(found).toContain('<h1>Was this impression made from this matrix or a faithful copy of it?</h1>');
    expect(positives).toContain('<h1>Were these two impressions made from one matrix?</h1>');
  });

  it('says "simulated" at its head, in every caption and at its foot, and only where it is so', () => {
    expect(found).toContain('class="notice"');
    const captions = found.match(/<figcaption>.*?<\/figcaption>/gs) ?? [];
    expect(captions.length).toBeGreaterThanOrEqual(6);
    for (const caption of captions) expect(caption).toContain('Simulated scans.');
    const real = of(renamed('wax.ply'), { ...small, simulated: false });
    expect(real).not.toContain('class="notice"');
    expect(real).not.toContain('Simulated scans.');
  });

  it('puts the reader’s own conclusion beside the tool’s', () => {
    const own = { text: 'I read the crack as older.', signed: 'A. Reader', date: '2025-03-05' };
    const text = wordsOf(of(comparisonFixture({ pitch }), { ...small, own }));
    expect(text).toContain('I read the crack as older.');
    expect(text).toContain('The evidence supports (moderate) that the impression or cast was made from');
  });

  it('prints no likelihood ratio unless one was calibrated', () => {
    expect(found).not.toContain('log₁₀ likelihood ratio');
    const comparison = comparisonFixture({ pitch });
    const { judgement } = comparison;
    const hypotheses = judgement.hypotheses.map((h, i) => ({ ...h, log10Lr: i === 0 ? 1.4 : null }));
    expect(of({ ...comparison, judgement: { ...judgement, hypotheses } })).toContain('log₁₀ likelihood ratio');
  });
});

describe('words for numbers', () => {
  it('put the finding on one of seven steps', () => {
    const step = (finding: 'supported' | 'against' | 'undecided', strength: string): number =>
      stepOf({ finding, strength } as Parameters<typeof stepOf>[0]);
    expect([step('supported', 'weak'), step('supported', 'strong')]).toEqual([4, 6]);
    expect([step('against', 'weak'), step('against', 'strong')]).toEqual([2, 0]);
    expect([step('undecided', 'none'), step('undecided', 'strong')]).toEqual([3, 3]);
  });
  it('say the clock hour as a clock does', () => {
    expect([0, 0.4, 0.6, 5.5, 11.4, 11.6, 12].map(clockHour)).toEqual([12, 12, 1, 6, 11, 12, 12]);
  });
});

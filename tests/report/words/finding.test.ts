import { describe, expect, it } from 'vitest';
import type { OnlyCopy } from '../../../src/core/compare/index.ts';
import type { ClaimCode, Counted, Finding, Judgement, SizeCaution, Strength } from '../../../src/core/judge/index.ts';
import { findingParts, findingSentence } from '../../../src/core/report/words/index.ts';
import { cautions } from './cautions.ts';
import { type ExamplesOf, expectSentence } from './said.ts';

const claims: Readonly<Record<ClaimCode, true>> = {
  ...{ madeFrom: true, oneMatrix: true, oneParent: true },
  ...{ oneFromOther: true, oneOrigin: true },
};
const findings: Readonly<Record<Finding, Strength>> = {
  ...{ supported: 'weak', against: 'strong', otherDesign: 'moderate', undecided: 'none' },
};
const cells = { compared: 18, congruent: 17 };
const places = { seen: 40, halfWithinMm: 0.0214, outsideEllipse: 2, ...cells };
const grounds: ExamplesOf<Counted> = {
  noFit: [{ code: 'noFit' }],
  fewPlaces: [{ code: 'fewPlaces' }],
  cells: [{ code: 'cells', ...cells }],
  places: [
    { code: 'places', ...places, unseen: 0 },
    { code: 'places', ...places, unseen: 3 },
  ],
};

const said = (claim: ClaimCode, finding: Finding, counted: Counted, caution: SizeCaution | null): string =>
  findingSentence({ claim, finding, strength: findings[finding], counted, caution });

describe('the sentence of the finding', () => {
  const all = (Object.keys(claims) as ClaimCode[]).flatMap((claim) =>
    (Object.keys(findings) as Finding[]).map((finding) => [claim, finding] as const),
  );

  it.each(all)('of %s, %s, is one whatever it rests on and whatever size says', (claim, finding) => {
    for (const ground of Object.values(grounds).flat())
      for (const caution of [null, ...cautions]) {
        const sentence = said(claim, finding, ground, caution);
        expectSentence(sentence);
        expect(sentence).not.toMatch(/made from this matrix(?! or a faithful copy of it)/);
      }
  });

  it.each(['supported', 'undecided', 'against', 'otherDesign'] as const)(
    'tells the state of two that are of one matrix alone, right after the plain answer (%s)',
    (finding) => {
      const state = 'The impression shows the state before the cut at 11 o’clock.';
      const told = {
        claim: 'madeFrom',
        finding,
        strength: findings[finding],
        counted: grounds.places[0],
        caution: null,
      } as const;
      const { plain, rest } = findingParts(told, state);
      expect(findingSentence(told, state)).toBe(`${plain} ${rest}`);
      expect(rest.startsWith(state)).toBe(finding === 'supported');
      expect(rest.includes(state)).toBe(finding === 'supported');
    },
  );

  it('counts what the ground counts', () => {
    expect(said('madeFrom', 'supported', grounds.places[1], null)).toMatch(
      /of 40 places .* within 21 µm .* 2 of them outside .*; 3 more .*; 17 of 18 cells/,
    );
  });

  it('of two that are not decided but broken along one edge says both', () => {
    const edge = { lengthMm: 21.4, roughMm: 0.18, apartMm: 0.04, sigma: 6, stretches: [] };
    const sentence = findingSentence({
      ...{ claim: 'oneOrigin', finding: 'undecided', strength: 'none', caution: null },
      ...{
        counted: grounds.cells[0],
        descent: 'oneDescent',
        descentBy: { size: false, step: null, losses: null, edge },
      },
    });
    expectSentence(sentence);
    expect(sentence).toMatch(
      /^Not decided\. .*broken along the same edge: over 21 mm.*Where that can be ruled out they are of one descent: one was cast/,
    );
  });

  it.each(['subjectFromReference', 'referenceFromSubject', 'oneDescent'] as const)(
    'of two of one descent (%s) says so first, and nowhere that the one was made from the other',
    (descent) => {
      const losses = { count: 3, atEdge: 1, areaMm2: 29.4, byChance: 0 };
      const edge = { lengthMm: 21.4, roughMm: 0.18, apartMm: 0.04, sigma: 6, stretches: [] };
      const sentence = findingSentence({
        ...{ claim: 'madeFrom', finding: 'supported', strength: 'strong', caution: null },
        ...{ counted: grounds.cells[0], descent, descentBy: { size: true, step: null, losses, edge } },
      });
      expectSentence(sentence);
      expect(sentence).toMatch(/^Of one descent: .*nearer the original/);
      expect(sentence).not.toContain('made from');
      expect(sentence).toContain('29.4 mm²');
      expect(sentence).toContain('over 21 mm, where it strays by 0.18 mm');
    },
  );

  it('of one descent by a broken edge alone says in the same breath what else would show it', () => {
    const edge = { lengthMm: 8.2, roughMm: 0.79, apartMm: 0.02, sigma: 9, stretches: [] };
    const sentence = findingSentence({
      ...{ claim: 'oneOrigin', finding: 'supported', strength: 'strong', caution: null },
      ...{
        counted: grounds.cells[0],
        descent: 'oneDescent',
        descentBy: { size: false, step: null, losses: null, edge },
      },
    });
    expectSentence(sentence);
    expect(sentence).toMatch(/^Of one descent, unless the matrix itself ends along this edge: one was cast/);
  });

  it('of one descent says why only one of the two can be the copy, and what that rests on', () => {
    const edge = { lengthMm: 8.2, roughMm: 0.79, apartMm: 0.02, sigma: 9, stretches: [] };
    const step = { copyIs: 'subject', largerPercent: 0.4, sdPercent: 0.14 } as const;
    const said = (more: Pick<OnlyCopy, 'mostPercent' | 'material'>): string =>
      findingSentence({
        ...{ claim: 'oneOrigin', finding: 'supported', strength: 'strong', caution: null },
        ...{ counted: grounds.cells[0], descent: 'subjectFromReference' },
        descentBy: { size: false, losses: null, edge, step: { ...step, ...more } },
      });
    expect(said({ mostPercent: 0.25, material: null })).toMatch(
      /The reference is larger by 0\.40 ± 0\.14 % \(1 σ\)\..* by 0\.25 % at most, in plaster.*the subject would be the copy\.$/,
    );
    expect(said({ mostPercent: -0.3, material: 'wax' })).toMatch(
      /wax shrinks as it sets: so the subject would be the copy, if the reference is what it is stated to be\.$/,
    );
  });

  it('of one descent by a single piece says it too, and by several pieces or a step of size nothing of the kind', () => {
    const losses = {
      count: 1,
      atEdge: 1,
      areaMm2: 29.4,
      byChance: 0,
      floors: { sigma: 12, alike: 0.97, roughMm: 0.08 },
    };
    const said = (descentBy: Partial<Judgement['descentBy']>): string =>
      findingSentence({
        ...{ claim: 'oneOrigin', finding: 'supported', strength: 'strong', caution: null },
        ...{ counted: grounds.cells[0], descent: 'oneDescent' },
        descentBy: { size: false, step: null, losses, edge: null, ...descentBy },
      });
    expectSentence(said({}));
    expect(said({})).toMatch(/^Of one descent, unless the matrix itself leaves this piece out: one was cast/);
    expect(said({})).toContain('Both lack the same piece (29.4 mm²)');
    expect(said({})).toContain('strays by 0.08 mm from a smooth form, on both alike');
    for (const plain of [{ losses: { ...losses, count: 3, floors: null } }, { size: true }])
      expect(said(plain)).toMatch(/^Of one descent: /);
  });
});

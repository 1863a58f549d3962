import { describe, expect, it } from 'vitest';
import type { ClaimCode, Counted, Finding, SizeCaution, Strength } from '../../../src/core/judge/index.ts';
import { findingSentence } from '../../../src/core/report/words/index.ts';
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

  it('counts what the ground counts', () => {
    expect(said('madeFrom', 'supported', grounds.places[1], null)).toMatch(
      /of 40 places .* within 21 µm .* 2 of them outside .*; 3 more .*; 17 of 18 cells/,
    );
  });
});

import { describe, expect, it } from 'vitest';
import type { Sense } from '../../src/core/face/index.ts';
import type { Fit } from '../../src/core/fit/index.ts';
import type { Features } from '../../src/core/judge/features.ts';
import { conclude } from '../../src/core/judge/finding.ts';
import { hypothesesOf } from '../../src/core/judge/hypotheses.ts';
import { limitsOf } from '../../src/core/judge/limits.ts';
import { questionOf, thisOrCopy } from '../../src/core/judge/question.ts';
import { findingDefaults } from '../../src/core/judge/thresholds.ts';
import { featuresWith, fitWith } from './features.ts';

const senses: readonly Sense[] = ['intaglio', 'relief'];
const pair = questionOf('intaglio', 'relief');
const fits: readonly Fit[] = [
  fitWith(),
  fitWith({ found: false, doubts: ['The two faces agree no better than unrelated ones do.'] }),
  fitWith({ mirrored: true }),
  fitWith({ overlap: 0.2 }),
  fitWith({ doubts: ['Another turn of the subject fits nearly as well.'] }),
];
const kinds: readonly Features[] = [
  featuresWith(),
  featuresWith({ outerShare: 0.3 }),
  featuresWith({ outerCompared: 0, outerShare: 0 }),
  featuresWith({ cells: { compared: 3, congruent: 3, cells: [] } }),
];
/** Landmarks of a copy. */
const apart = { ...featuresWith().constellation, smoothMm: 0.15, outside: 0.7 };
const scores = [-9, -2, -1, 0, 1, 2, 9];

/** Every sentence that any of these pairs would be given. */
function allWords(): Set<string> {
  const words = new Set<string>();
  for (const reference of senses)
    for (const subject of senses)
      for (const fit of fits)
        for (const features of kinds)
          for (const score of scores) {
            const conclusion = conclude(fit, features, score, questionOf(reference, subject));
            for (const line of [conclusion.sentence, ...limitsOf(fit, conclusion, 30), ...limitsOf(fit, conclusion, 4)])
              words.add(line);
            for (const { words: line } of hypothesesOf(conclusion, fit, 'copy words', null)) words.add(line);
          }
  return words;
}

describe('conclude', () => {
  it('never says identical, proves, certain, authentic or match', () => {
    for (const line of allWords()) {
      expect(line).not.toMatch(/identical|\bprove[sn]?\b(?! nothing)|certain|\bmatch(es|ed)?\b|genuine/i);
      expect(line.length).toBeGreaterThan(5);
    }
  });

  it('names the claim, the rival and the ground in every sentence', () => {
    const { sentence } = conclude(fitWith(), featuresWith(), 5, pair);
    expect(sentence).toContain(pair.claim);
    expect(sentence).toContain(pair.rival);
    expect(sentence).toContain('38 of 40 cells');
    expect(sentence).toContain('within 30 µm');
    expect(sentence).toContain('2 of them outside');
    expect(conclude(fitWith(), featuresWith(), -5, pair).sentence).toContain(pair.rival);
    expect(conclude(fitWith(), featuresWith(), 0, pair).sentence).toContain(pair.rival);
  });

  it('goes from against over undecided to supported as the score rises, and the strength with it', () => {
    const order = { against: 0, undecided: 1, supported: 2 };
    const strengths = { none: 0, weak: 1, moderate: 2, strong: 3 };
    let before = { rank: 0, signed: Number.NEGATIVE_INFINITY };
    for (let score = -4; score <= 4; score += 0.05) {
      const { finding, strength } = conclude(fitWith(), featuresWith(), score, pair);
      const rank = order[finding];
      const signed = Math.sign(rank - 1) * strengths[strength];
      expect(rank).toBeGreaterThanOrEqual(before.rank);
      expect(signed).toBeGreaterThanOrEqual(before.signed);
      expect(finding === 'undecided').toBe(strength === 'none');
      before = { rank, signed };
    }
    expect(before).toEqual({ rank: 2, signed: 3 });
  });

  it('includes the thresholds themselves', () => {
    // Landmarks off their places, so that there is a ground to speak against.
    const at = (score: number): string =>
      conclude(fitWith(), featuresWith({ constellation: apart }), score, pair).finding;
    expect(at(findingDefaults.support)).toBe('supported');
    expect(at(findingDefaults.support - 1e-9)).toBe('undecided');
    expect(at(findingDefaults.against)).toBe('against');
    expect(at(findingDefaults.against + 1e-9)).toBe('undecided');
  });

  it('speaks against nothing whose landmarks lie where they should, closer than the scans can place them, or that fits two ways', () => {
    const low = findingDefaults.against - 1;
    const off = featuresWith({ constellation: apart });
    const at = (features: Features): string => conclude(fitWith(), features, low, pair).finding;
    const rival = fitWith({ doubts: ['Another turn of the subject fits nearly as well.'] });
    expect(at(off)).toBe('against');
    expect(at(featuresWith({ constellation: { ...apart, outside: 0.1 } }))).toBe('undecided');
    expect(at(featuresWith({ constellation: { ...apart, smoothMm: 0.03 } }))).toBe('undecided');
    expect(at(featuresWith({ constellation: { ...apart, landmarks: apart.landmarks.slice(0, 10) } }))).toBe(
      'undecided',
    );
    expect(at({ ...off, spacingMm: 0.8 })).toBe('undecided');
    expect(conclude(rival, off, low, pair).finding).toBe('undecided');
    expect(at(featuresWith({ outerShare: 0.2 }))).toBe('against');
  });

  for (const [what, fit, features] of [
    ['the legend’s part of the face disagrees: a stock motif', fitWith(), featuresWith({ outerShare: 0.3 })],
    ['the legend’s part of the face is gone', fitWith(), featuresWith({ outerCompared: 3, outerShare: 1 })],
    [
      'hardly any cells could be compared',
      fitWith(),
      featuresWith({ cells: { compared: 7, congruent: 7, cells: [] } }),
    ],
    ['little of the face is there', fitWith({ overlap: 0.29 }), featuresWith()],
    [
      'another turn fits as well',
      fitWith({ doubts: ['Another turn of the subject fits nearly as well.'] }),
      featuresWith(),
    ],
    ['only a mirror image fits', fitWith({ mirrored: true }), featuresWith()],
  ] as const)
    it(`supports nothing, whatever the score, where ${what}; and says why`, () => {
      const conclusion = conclude(fit, features, 9, pair);
      expect(conclusion.finding).toBe('undecided');
      expect(conclusion.strength).toBe('none');
      expect(conclusion.reasons).toHaveLength(1);
      expect(limitsOf(fit, conclusion, 30)).toContain(conclusion.reasons[0]);
    });

  it('turns against nothing that is too small a piece to tell', () => {
    expect(conclude(fitWith({ overlap: 0.25 }), featuresWith(), -9, pair).finding).toBe('undecided');
    const few = featuresWith({ cells: { compared: 5, congruent: 0, cells: [] } });
    expect(conclude(fitWith(), few, -9, pair).finding).toBe('undecided');
  });

  it('says of a pair that was not laid together that this alone decides nothing', () => {
    const conclusion = conclude(fitWith({ found: false }), null, 0, pair);
    expect(conclusion).toMatchObject({ finding: 'undecided', strength: 'none' });
    expect(conclusion.sentence).toMatch(/unrelated seals look like this/);
    expect(conclusion.sentence).toMatch(/too worn or too broken/);
  });
});

describe('questionOf', () => {
  it('asks of a negative and a positive whether the one made the other, in the one phrase', () => {
    expect(questionOf('intaglio', 'relief').claim).toBe(`the subject was made from ${thisOrCopy}`);
    expect(questionOf('relief', 'intaglio').claim).toBe(`the reference was made from ${thisOrCopy}`);
    expect(thisOrCopy).toBe('this matrix or a faithful copy of it');
  });

  it('asks of two positives whether both were made from one matrix, a cast of the other being possible', () => {
    const { claim } = questionOf('relief', 'relief');
    expect(claim).toMatch(/both were made from one matrix/);
    expect(claim).toMatch(/cast of the other/);
  });

  it('asks of two negatives whether one is a copy of the other or both have one parent', () => {
    const { claim } = questionOf('intaglio', 'intaglio');
    expect(claim).toMatch(/one is a copy of the other/);
    expect(claim).toMatch(/one parent/);
  });
});

describe('hypothesesOf', () => {
  it('lists four hypotheses without likelihood ratios where nobody calibrated', () => {
    const conclusion = conclude(fitWith(), featuresWith(), 5, pair);
    const list = hypothesesOf(conclusion, fitWith(), 'size does not decide', null);
    expect(list.map((each) => each.id)).toEqual(['sameMatrix', 'copy', 'otherMatrix', 'unrelated']);
    for (const each of list) expect(each.log10Lr).toBeNull();
  });

  it('never tells a faithful copy apart in words', () => {
    for (const score of scores) {
      const conclusion = conclude(fitWith(), featuresWith(), score, pair);
      const copy = hypothesesOf(conclusion, fitWith(), 'size does not decide', null).find((each) => each.id === 'copy');
      expect(copy?.words).not.toMatch(/^(not )?supported/);
    }
  });
});

describe('limitsOf', () => {
  const conclusion = conclude(fitWith(), featuresWith(), 5, pair);

  it('always carries what scans cannot show', () => {
    const text = limitsOf(fitWith(), conclusion, 30).join(' ');
    for (const word of ['faithful cast', 'authenticity', 'date', 'absent proves nothing', 'simulated'])
      expect(text).toContain(word);
  });

  it('says that the scale of the score is not made for an object smaller than any seal', () => {
    expect(limitsOf(fitWith(), conclusion, 3.8).join(' ')).toMatch(/smaller than any seal/);
    expect(limitsOf(fitWith(), conclusion, 12).join(' ')).not.toMatch(/smaller than any seal/);
  });

  it('repeats no doubt that already stands among the reasons', () => {
    const fit = fitWith({ doubts: ['Another turn of the subject fits nearly as well.', 'Something else.'] });
    const limits = limitsOf(fit, conclude(fit, featuresWith(), 5, pair), 30);
    expect(new Set(limits).size).toBe(limits.length);
    expect(limits).toContain('Something else.');
  });
});

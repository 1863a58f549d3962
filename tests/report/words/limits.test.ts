import { describe, expect, it } from 'vitest';
import { type Limit, supportCodes } from '../../../src/core/judge/index.ts';
import { limitRecord } from '../../../src/core/report/record/limitRecord.ts';
import { doubtWords, limitWords } from '../../../src/core/report/words/index.ts';
import { cautions } from './cautions.ts';
import { doubts } from './doubtExamples.ts';
import { type ExamplesOf, expectSentence } from './said.ts';

const gate = { value: 0.2, limit: 0.3 };
const strike = { shiftMm: 0.62, towardDeg: 91, share: 0.4, contrast: 0.3 };

const limits: ExamplesOf<Limit> = {
  ...doubts,
  leftOutByHand: [
    { code: 'leftOutByHand', why: 'a repair in wax', by: 'A. Tester', areaMm2: 12.34 },
    { code: 'leftOutByHand', why: '', by: '', areaMm2: 3 },
  ],
  landmarksByHand: [{ code: 'landmarksByHand', landmarks: 14 }],
  startByHand: [
    { code: 'startByHand', pairs: 3 },
    { code: 'startByHand', turnDeg: 12.5 },
  ],
  struckTwice: [
    { code: 'struckTwice', kind: 'slip', turnDeg: 0, ...strike },
    { code: 'struckTwice', kind: 'doubleStrike', turnDeg: -3, ...strike },
  ],
  twoMatrices: [{ code: 'twoMatrices' }],
  statedAgainstFit: [{ code: 'statedAgainstFit' }],
  noFit: [{ code: 'noFit' }],
  copyPasses: [{ code: 'copyPasses' }],
  notShown: [{ code: 'notShown' }],
  absentMark: [{ code: 'absentMark' }],
  size: cautions.map((caution) => ({ code: 'size', ...caution }) as const),
  smallerThanSeals: [{ code: 'smallerThanSeals', sizeMm: 4.1, leastMm: 8 }],
  coarse: [{ code: 'coarse', pointsAcross: 91.6, finePoints: 150 }],
  calibration: [
    { code: 'calibration', known: null },
    { code: 'calibration', known: { name: 'own pairs', same: 12, different: 30 } },
  ],
  scoreFor: [{ code: 'scoreFor', ...gate }],
  leastWithoutASector: [{ code: 'leastWithoutASector', ...gate }],
  places: [{ code: 'places', ...gate }],
  outliers: [{ code: 'outliers', ...gate }],
  overLegendAnew: [{ code: 'overLegendAnew', ...gate }],
  overlap: [{ code: 'overlap', ...gate }],
  rivalTurns: [{ code: 'rivalTurns', ...gate }],
  mirroredFile: [{ code: 'mirroredFile', ...gate }],
};

describe('the words of limits', () => {
  it.each(Object.entries(limits))('%s is said in a sentence, and its numbers stand in the record', (_, examples) => {
    for (const limit of examples) {
      expectSentence(limitWords(limit));
      expect(JSON.parse(JSON.stringify(limitRecord(limit)))).toEqual({ ...limit, words: limitWords(limit) });
    }
  });

  it('say of a rival turn what the doubt says', () => {
    expect(limitWords(limits.rivalTurns[0])).toBe(doubtWords({ code: 'rivalTurn' }));
  });

  it('have a sentence for every threshold of support', () => {
    const said = supportCodes.map((code) => limitWords({ code, value: 0, limit: 1 }));
    expect(new Set(said).size).toBe(supportCodes.length);
  });

  it('have null in the record where a number was not measured', () => {
    expect(limitRecord({ code: 'coarse', pointsAcross: Number.NaN, finePoints: 150 }).pointsAcross).toBeNull();
  });
});

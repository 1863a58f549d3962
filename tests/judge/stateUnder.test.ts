import { describe, expect, it } from 'vitest';
import type { StateReading } from '../../src/core/condition/index.ts';
import { stateReading, stateWithoutFit } from '../../src/core/condition/states/state.ts';
import { stateUnder } from '../../src/core/judge/judge.ts';

const readings: StateReading[] = [
  { reading: 'subjectEarlier', marks: ['M1'], reason: { code: 'referenceHas' } },
  { reading: 'subjectLater', marks: ['M2'], reason: { code: 'subjectHas' } },
  { reading: 'sameState', marks: ['M3'], reason: { code: 'shared' } },
  { reading: 'cannotJudge', marks: ['M1', 'M2'], reason: { code: 'bothWays' } },
  { reading: 'cannotJudge', marks: [], reason: { code: 'tooLittleSound', soundFraction: 0.2 } },
  stateReading([], 1, 40),
  stateWithoutFit,
];

describe('the state of a pair', () => {
  it('is as it was read where both are of one matrix', () => {
    for (const read of readings) expect(stateUnder('supported', read)).toEqual(read);
  });

  it('is not to be judged where that is not supported, whatever the marks', () => {
    for (const finding of ['against', 'otherDesign', 'undecided'] as const)
      for (const read of readings) expect(stateUnder(finding, read).reading, finding).toBe('cannotJudge');
  });

  it('keeps the marks named where it is undecided, and that they speak both ways', () => {
    const [earlier, , , bothWays] = readings;
    expect(stateUnder('undecided', earlier)).toMatchObject({ marks: ['M1'], reason: { code: 'undecided' } });
    expect(stateUnder('undecided', bothWays)).toEqual(bothWays);
    expect(stateUnder('against', earlier)).toMatchObject({ marks: [], reason: { code: 'twoMatrices' } });
    expect(stateUnder('undecided', stateWithoutFit).reason.code).toBe('noFit');
  });
});

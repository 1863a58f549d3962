import { describe, expect, it } from 'vitest';
import { causesOf } from '../../../src/core/change/causes.ts';
import type { Change, ChangeCause, ChangeFound, ChangeLimit, ScanRequirement } from '../../../src/core/change/index.ts';
import {
  changeCauseWords,
  changeLimitWords,
  changeOfSizeWords,
  changeSentence,
  changeWords,
  requirementWords,
} from '../../../src/core/report/words/index.ts';
import { type ExamplesOf, expectPrintable, expectSentence } from './said.ts';

const at = { deg: 118, hour: 4, radiusMm: 11.2 };
const base = { id: 'c1', at, areaMm2: 8.4, meanMm: -0.061, farthestMm: -0.12, volumeSdMm3: 0.02, timesLeast: 4 };
const outline = Float64Array.from([0, 0, 1, 0, 1, 1]);
const area: Change = { ...base, direction: 'lowered', shape: 'area', volumeMm3: -0.51, causes: ['rubbed'], outline };
const line: Change = { ...area, shape: 'line', lengthMm: 7.2, widthMm: 0.31, goesOn: true, causes: ['crack'] };
const absent: Change = {
  ...area,
  direction: 'absent',
  volumeMm3: Number.NaN,
  meanMm: Number.NaN,
  causes: ['brokenOff'],
};

const found = (changes: Change[]): ChangeFound =>
  ({
    judged: true,
    changes,
    comparedShare: 0.93,
    sensitivity: [{ areaMm2: 4, heightMm: 0.012 }],
    total: {
      loweredMm3: changes.length > 0 ? -0.51 : 0,
      loweredSdMm3: 0.02,
      raisedMm3: 0,
      raisedSdMm3: 0,
      areaMm2: 8.4,
    },
  }) as unknown as ChangeFound;

describe('the words of a change', () => {
  it('are sentences, with the numbers of the change', () => {
    for (const change of [area, { ...area, direction: 'raised' as const, meanMm: 0.03 }, line, absent])
      expectSentence(changeWords(change));
    expect(changeWords(area)).toMatch(/Lower by 61 µm .* over 8\.4 mm², 0\.51 ± 0\.02 mm³ gone/);
    expect(changeWords(line)).toMatch(/7\.2 mm long.*goes on from a groove/s);
  });

  it('answer plainly, say what would have been found, and no cause', () => {
    expectSentence(changeSentence(found([])));
    expect(changeSentence(found([]))).toMatch(/^No change .* 93 %.*12 µm over 4 mm²/);
    expectSentence(changeSentence(found([area, line])));
    expect(changeSentence(found([area, line]))).toMatch(/^Two places changed.*0\.51 ± 0\.02 mm³ are gone.*4 o’clock/);
    for (const why of ['noFit', 'otherSense', 'mirrored', 'littleInCommon'] as const)
      expectSentence(changeSentence({ judged: false, why }));
  });

  it('say size apart', () => {
    for (const reading of ['same', 'larger', 'smaller', 'notStated'] as const)
      expectSentence(changeOfSizeWords({ ratio: 0.996, sd: 0.0007, reading }));
  });

  it('list bloom, dust, cleaning, consolidant, restored wax and handling among the causes', () => {
    const all = new Set<ChangeCause>();
    for (const direction of ['lowered', 'raised', 'absent'] as const)
      for (const shape of ['area', 'line'] as const)
        for (const mean of [0.02, 0.5]) for (const cause of causesOf(direction, shape, mean)) all.add(cause);
    for (const cause of all) expectPrintable(changeCauseWords(cause));
    for (const cause of [
      'bloom',
      'bloomTaken',
      'dust',
      'dirtTaken',
      'consolidant',
      'restored',
      'rubbed',
      'notScanned',
    ] as const)
      expect(all).toContain(cause);
  });

  const limits: ExamplesOf<ChangeLimit> = {
    noRepeat: [{ code: 'noRepeat' }],
    oneRepeat: [{ code: 'oneRepeat' }],
    evenChangeUnseen: [{ code: 'evenChangeUnseen' }],
    causesNotTold: [{ code: 'causesNotTold' }],
    translucent: [{ code: 'translucent' }],
    scaleNotStated: [{ code: 'scaleNotStated', whose: ['earlier', 'later'] }],
    sizeBeyondScales: [{ code: 'sizeBeyondScales', percent: 1.2, knownPercent: 0.4 }],
    notCompared: [{ code: 'notCompared', share: 0.2 }],
    littleUnchanged: [{ code: 'littleUnchanged', share: 0.4 }],
    bent: [{ code: 'bent', rmsMm: 0.012 }],
    blunter: [{ code: 'blunter', which: 'later', sigmaMm: 0.06 }],
  };
  it.each(Object.entries(limits))('say the limit %s in a sentence', (_, examples) => {
    for (const limit of examples) {
      expectSentence(changeLimitWords(limit));
      // On a screen nothing is named that only the command line has.
      expect(changeLimitWords(limit, 'screen')).not.toContain('--');
    }
  });
});

describe('the words of what a scan must be like', () => {
  const requirements: ExamplesOf<ScanRequirement> = {
    unit: [{ code: 'unit', passes: false, unit: 'mm' }],
    spacing: [{ code: 'spacing', passes: false, spacingMm: 0.2, strokeMm: 0.4, neededMm: 0.1 }],
    noise: [{ code: 'noise', passes: false, noiseMm: 0.03, reliefMm: 0.6, neededMm: 0.02 }],
    filled: [{ code: 'filled', passes: false, share: 0.9, holes: 4 }],
    bothSides: [{ code: 'bothSides', passes: false }],
    scaleCheck: [
      { code: 'scaleCheck', passes: false, percent: null, neededPercent: 0.1 },
      { code: 'scaleCheck', passes: false, percent: 0.3, neededPercent: 0.1 },
    ],
    repeat: [{ code: 'repeat', passes: false }],
    material: [
      { code: 'material', passes: false, material: null },
      { code: 'material', passes: null, material: 'beeswax' },
    ],
  };
  it.each(Object.entries(requirements))('%s: what was measured, and what to do where it fails', (_, examples) => {
    for (const requirement of examples) {
      const { says, remedy } = requirementWords(requirement);
      expectPrintable(says);
      expect(remedy).toMatch(/^[a-z].*\.$/s);
      expect(requirementWords({ ...requirement, passes: true } as ScanRequirement).remedy).toBeNull();
    }
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findingOf } from '../../src/core/judge/gates.ts';
import type { Gate, GateCode } from '../../src/core/judge/index.ts';

const codes = {
  support: [
    'scoreFor',
    'leastWithoutASector',
    'places',
    'outliers',
    'overLegendAnew',
    'overlap',
    'rivalTurns',
    'mirroredFile',
  ],
  against: [
    'scoreAgainst',
    'mostWithoutASector',
    'motifOff',
    'legendAnew',
    'places',
    'wholePlaces',
    'overlap',
    'growth',
    'rivalTurns',
    'struckTwice',
  ],
  otherDesign: [
    'nothingCorresponds',
    'nothingByHeight',
    'clear',
    'oneWhole',
    'facesTried',
    'areaShare',
    'pieceLength',
    'reliefEverywhere',
    'carriedShare',
    'onlyNoise',
    'oneWay',
  ],
} as const satisfies Record<Gate['group'], readonly GateCode[]>;

const gatesOf = (group: Gate['group'], passed = true): Gate[] =>
  codes[group].map((code) => ({ group, code, value: 1, bound: 'atLeast', limit: 1, passed }));

const findingFor = { support: 'supported', against: 'against', otherDesign: 'otherDesign' } as const;
const groups = ['support', 'against', 'otherDesign'] as const;

describe('the finding of the gates', () => {
  it('is that of a group whose every gate is passed, and undecided without gates', () => {
    for (const group of groups) expect(findingOf(gatesOf(group))).toBe(findingFor[group]);
    expect(findingOf([])).toBe('undecided');
  });

  it.each(groups)('changes with each gate of “%s” alone', (group) => {
    const rest = groups.filter((other) => other !== group).flatMap((other) => gatesOf(other, false));
    for (const code of codes[group]) {
      const failed = gatesOf(group).map((gate) => (gate.code === code ? { ...gate, passed: false } : gate));
      expect(findingOf([...failed, ...rest])).toBe('undecided');
    }
    expect(findingOf([...gatesOf(group), ...rest])).toBe(findingFor[group]);
  });

  it('does not depend on the order of the gates', () => {
    const some = fc.constantFrom(...groups.flatMap((group) => [...gatesOf(group), ...gatesOf(group, false)]));
    fc.assert(
      fc.property(fc.array(some, { maxLength: 20 }), (gates) => findingOf(gates) === findingOf([...gates].reverse())),
      { seed: 20261128 },
    );
  });
});

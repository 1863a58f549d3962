import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { conclude } from '../../src/core/judge/finding.ts';
import { gatesOf } from '../../src/core/judge/gates.ts';
import { questionOf } from '../../src/core/judge/question.ts';
import type { Gate } from '../../src/core/judge/types.ts';
import { featuresWith, fitWith } from './features.ts';

const question = questionOf('intaglio', 'relief');

/** A reader's way from the printed gates to the finding: numbers and limits alone. */
function findingFrom(gates: readonly Gate[]): string {
  const holds = ({ value, bound, limit }: Gate): boolean =>
    bound === 'atLeast' ? value >= limit : bound === 'atMost' ? value <= limit : value < limit;
  const all = (group: Gate['group']): boolean => gates.filter((gate) => gate.group === group).every(holds);
  if (gates.length === 0) return 'undecided';
  if (all('support')) return 'supported';
  return all('against') && (all('offPlace') || all('otherLegend')) ? 'against' : 'undecided';
}

describe('gatesOf', () => {
  it('lets a reader come to the finding that was given, on 6000 random pairs', () => {
    const random = seededRandom(31);
    const among = <T>(values: readonly T[]): T => values[Math.floor(random.next() * values.length)];
    const { constellation } = featuresWith();
    const seen = new Map<string, number>();
    for (let k = 0; k < 6000; k++) {
      const compared = among([7, 8, 30]);
      const features = featuresWith({
        resolution: 1 / among([80, 99, 100, 200, 200, 200]),
        spacingMm: among([0.1, 0.2, 0.6]),
        outerCompared: among([3, 4, 7, 8, 12, 12]),
        outerShare: among([0.3, 0.5, 0.55, 0.9]),
        cells: { compared, congruent: Math.floor(compared * random.next()), cells: [] },
        constellation: {
          ...constellation,
          landmarks: constellation.landmarks.slice(0, among([0, 14, 15, 40])),
          smoothMm: among([0.01, 0.06, 0.2, Number.NaN]),
          outside: among([0, 0.25, 0.8]),
        },
      });
      const fit = fitWith({
        overlap: among([0.29, 0.3, 0.8, 0.9]),
        mirrored: random.next() < 0.05,
        doubts: random.next() < 0.1 ? ['Another turn of the subject fits nearly as well.'] : [],
      });
      const score = among([-4, -1.5, -1.49, 0, 0.99, 1, 1.59, 1.6, 5]);
      const twice = random.next() < 0.1;
      const { finding } = conclude(fit, features, score, question, twice);
      const gates = gatesOf(fit, features, score, twice);
      expect(findingFrom(gates), `pair ${k}`).toBe(finding);
      seen.set(finding, (seen.get(finding) ?? 0) + 1);
    }
    for (const finding of ['supported', 'against', 'undecided']) expect(seen.get(finding)).toBeGreaterThan(50);
  });

  it('is empty where no fit was found', () => {
    expect(gatesOf(fitWith({ found: false }), null, 0, false)).toEqual([]);
  });
});

import type { Fit } from '../fit/index.ts';

import { type PairEvidence, strengthDefaults } from './gates.ts';
import {
  type Constellation,
  type Counted,
  type Finding,
  type Gate,
  type Limit,
  type Strength,
  supportCodes,
} from './types.ts';

export interface Conclusion {
  readonly finding: Finding;
  readonly strength: Strength;
  /** What was counted. */
  readonly counted: Counted;
  /** What kept the finding from going further; empty where nothing did. */
  readonly reasons: readonly Limit[];
}

/** From so many points across the face on, places are told well enough to part a copy of 60 µm from its original. */
export const finePoints = 150;

/** The finding of the gates, its strength, what was counted, and what kept it from going further. */
export function conclude(
  fit: Fit,
  { finding, gates, weighed, places }: PairEvidence,
  constellation: Constellation | null,
): Conclusion {
  const coarse = places !== null && finding === 'undecided' && places.pointsAcross < finePoints;
  const coarseLimit: Limit[] = coarse ? [{ code: 'coarse', pointsAcross: places.pointsAcross, finePoints }] : [];
  return {
    finding,
    strength: strengthOf(finding, weighed?.score ?? 0, gates),
    reasons: finding === 'undecided' ? [...reasonsOf(fit, gates), ...coarseLimit] : [],
    counted: fit.found ? countedOf(constellation, places?.tiles) : { code: 'noFit' },
  };
}

/** Steps of the score; for another design, of how far a common design would have stood above what was asked. */
function strengthOf(finding: Finding, score: number, gates: readonly Gate[]): Strength {
  if (finding === 'undecided') return 'none';
  const { moderate, strong, clearModerate, clearStrong } = strengthDefaults;
  const clear = gates.find(({ group, code }) => group === 'otherDesign' && code === 'clear');
  const [size, middle, most] =
    finding === 'otherDesign' && clear
      ? [clear.value / clear.limit, clearModerate, clearStrong]
      : [Math.abs(score), moderate, strong];
  return size >= most ? 'strong' : size >= middle ? 'moderate' : 'weak';
}

/** The counts behind the sentence; a half of the places lies within the median. */
function countedOf(constellation: Constellation | null, cells?: { compared: number; congruent: number }): Counted {
  if (!constellation || !cells) return { code: 'fewPlaces' };
  const { landmarks, outside, smoothMm, unseen } = constellation;
  const { compared, congruent } = cells;
  if (landmarks.length === 0) return { code: 'cells', compared, congruent };
  return {
    code: 'places',
    seen: landmarks.length,
    halfWithinMm: smoothMm,
    outsideEllipse: Math.round(outside * landmarks.length),
    unseen: unseen.length,
    compared,
    congruent,
  };
}

/** Why support was not given, gate by gate. */
function reasonsOf(fit: Fit, gates: readonly Gate[]): Limit[] {
  if (!fit.found) return [{ code: 'noFit' }];
  const missed = gates.filter(({ group, passed }) => group === 'support' && !passed);
  return supportCodes.flatMap((code) =>
    missed.filter((gate) => gate.code === code).map(({ value, limit }) => ({ code, value, limit })),
  );
}

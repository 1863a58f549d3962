import type { Fit } from '../fit/index.ts';
import type { Features } from './features.ts';
import { findingDefaults, hasRivalTurn, offPlaceMm, pointsAcross } from './thresholds.ts';
import type { Gate } from './types.ts';

/**
 * The finding's thresholds, each with the number that was held against it, so that a reader can go from the numbers to the
 * finding without the program:
 *
 *   supported  where every gate of group `support` is passed,
 *   against    where every gate of `against` is, and every one of `offPlace` or every one of `otherLegend`,
 *   undecided  else.
 *
 * A gate with `atLeast` or `atMost` is passed at its limit, one with `below` is not.
 */
export function gatesOf(
  fit: Fit,
  features: Features | null,
  score: number,
  struckTwice: boolean,
  options = findingDefaults,
): Gate[] {
  if (!fit.found || !features) return [];
  return [
    ...supportGates(fit, features, score, options),
    ...againstGates(fit, features, score, struckTwice, options),
    ...offPlaceGates(features, options),
    ...otherLegendGates(features, options),
  ];
}

/**
 * Against needs enough face, one clear turn, and a ground that worn or coarsely scanned wax does not give: landmarks
 * farther off than their ellipses and the scans leave open, or another legend.
 */
export function speaksAgainst(gates: readonly Gate[]): boolean {
  const all = (group: Gate['group']): boolean =>
    gates.filter((gate) => gate.group === group).every(({ passed }) => passed);
  return gates.length > 0 && all('against') && (all('offPlace') || all('otherLegend'));
}

type Options = typeof findingDefaults;
const gate = (group: Gate['group'], name: string, value: number, bound: Gate['bound'], limit: number, unit = '') => ({
  group,
  name,
  value,
  bound,
  limit,
  unit,
  passed: bound === 'atLeast' ? value >= limit : bound === 'below' ? value < limit : value <= limit,
});

function supportGates(fit: Fit, features: Features, score: number, options: Options): Gate[] {
  const coarse = pointsAcross(features) < options.leastPoints;
  return [
    gate('support', 'score', score, 'atLeast', coarse ? options.moderate : options.support),
    gate('support', 'cells compared', features.cells.compared, 'atLeast', options.leastCells),
    gate(
      'support',
      'share of the smaller face that kept weight in the fit',
      fit.overlap,
      'atLeast',
      options.leastOverlap,
    ),
    gate(
      'support',
      'cells compared where a legend stands',
      features.outerCompared,
      'atLeast',
      options.leastOuterCompared,
    ),
    gate('support', 'share of them congruent', features.outerShare, 'atLeast', options.leastOuterShare),
    gate('support', 'other turns that fit nearly as well', hasRivalTurn(fit) ? 1 : 0, 'atMost', 0),
    gate('support', 'mirrored files', fit.mirrored ? 1 : 0, 'atMost', 0),
  ];
}

function againstGates(fit: Fit, features: Features, score: number, struckTwice: boolean, options: Options): Gate[] {
  return [
    gate('against', 'score', score, 'atMost', options.against),
    gate('against', 'cells compared', features.cells.compared, 'atLeast', options.leastCells),
    gate(
      'against',
      'share of the smaller face that kept weight in the fit',
      fit.overlap,
      'atLeast',
      options.leastOverlap,
    ),
    gate(
      'against',
      'points of the coarser scan across the face',
      pointsAcross(features),
      'atLeast',
      options.leastPoints,
    ),
    gate('against', 'other turns that fit nearly as well', hasRivalTurn(fit) ? 1 : 0, 'atMost', 0),
    gate('against', 'second strikes or slips seen', struckTwice ? 1 : 0, 'atMost', 0),
  ];
}

function offPlaceGates(features: Features, options: Options): Gate[] {
  const { landmarks, outside, smoothMm } = features.constellation;
  return [
    gate('offPlace', 'landmarks seen on both', landmarks.length, 'atLeast', options.leastLandmarks),
    gate('offPlace', 'share of them outside their error ellipses', outside, 'atLeast', options.leastOutside),
    gate('offPlace', 'median distance from their places', smoothMm, 'atLeast', offPlaceMm(features, options), 'mm'),
  ];
}

const otherLegendGates = ({ outerCompared, outerShare }: Features, options: Options): Gate[] => [
  gate('otherLegend', 'cells compared where a legend stands', outerCompared, 'atLeast', options.leastOuterAgainst),
  gate('otherLegend', 'share of them congruent', outerShare, 'below', options.otherLegendShare),
];

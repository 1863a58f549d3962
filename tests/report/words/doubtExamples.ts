import type { Doubt, StartRefusal } from '../../../src/core/fit/index.ts';
import type { ExamplesOf } from './said.ts';

export const refusals: ExamplesOf<StartRefusal> = {
  scaleOutOfRange: [{ code: 'scaleOutOfRange', scale: 1.6, leastScale: 0.87, mostScale: 1.14 }],
  tooFewPairs: [{ code: 'tooFewPairs' }],
  placesTooNear: [{ code: 'placesTooNear' }],
  placesUnlike: [{ code: 'placesUnlike', restMm: 4.26 }],
};

export const doubts: ExamplesOf<Doubt> = {
  noBetterThanUnrelated: [{ code: 'noBetterThanUnrelated' }],
  rivalTurn: [{ code: 'rivalTurn' }],
  tooCoarse: [{ code: 'tooCoarse' }],
  notSettled: [{ code: 'notSettled' }],
  startDisagrees: [{ code: 'startDisagrees' }],
  littleOverlap: [{ code: 'littleOverlap', leastShare: 0.4 }],
  sizeOutOfRange: [{ code: 'sizeOutOfRange', leastScale: 0.9, mostScale: 1.1 }],
  hardlyResists: [{ code: 'hardlyResists', motions: ['turnZ', 'growth'] }],
  startRefused: Object.values(refusals).flatMap((all) => all.map((why) => ({ code: 'startRefused', why }) as const)),
  searchPrefersAnother: [{ code: 'searchPrefersAnother', searchSigma: 31.4, fitSigma: 0 }],
  leftMarkedPlaces: [{ code: 'leftMarkedPlaces', apartMm: 5.04 }],
  tooLittleLeft: [{ code: 'tooLittleLeft', leastShare: 0.2 }],
};

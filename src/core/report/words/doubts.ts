import type { Doubt, FreeMotion, StartRefusal } from '../../fit/index.ts';
import { percentWords } from './numbers.ts';

/** Said of a doubt and of a limit alike. */
export const rivalTurnWords = 'Another turn of the subject fits nearly as well.';

/** What makes a fit doubtful, in a sentence. */
export function doubtWords(doubt: Doubt): string {
  switch (doubt.code) {
    case 'noBetterThanUnrelated':
      return 'The two faces agree no better than unrelated ones do.';
    case 'rivalTurn':
      return rivalTurnWords;
    case 'littleOverlap':
      return `Less than ${percentWords(doubt.leastShare)} of the smaller face lies on the other.`;
    case 'tooCoarse':
      return 'The surfaces are too coarse to be fitted on one another: scan them finer.';
    case 'notSettled':
      return 'The fit had not settled when it was stopped.';
    case 'sizeOutOfRange':
      return `The size ratio lies outside ${doubt.leastScale.toFixed(2)} to ${doubt.mostScale.toFixed(2)}.`;
    case 'hardlyResists':
      return `The relief hardly resists: ${doubt.motions.map((motion) => freeMotionWords[motion]).join(', ')}.`;
    case 'tooLittleLeft':
      return `The regions left out leave less than ${percentWords(doubt.leastShare)} of the reference’s face; leave out less.`;
    case 'startRefused':
      return startRefusalWords(doubt.why);
    case 'startDisagrees':
      return 'The faces do not agree where the start by hand puts them.';
    case 'searchPrefersAnother':
      return `The search by itself prefers another turn: that one stands ${doubt.searchSigma.toFixed(0)} standard deviations above chance, this one ${doubt.fitSigma.toFixed(0)}.`;
    case 'leftMarkedPlaces':
      return `The fit has left the marked places: they lie ${doubt.apartMm.toFixed(1)} mm apart in it.`;
  }
}

/** Motions that a relief may hardly resist, as they are listed. */
export const freeMotionWords: Readonly<Record<FreeMotion, string>> = {
  turnX: 'turn about x',
  turnY: 'turn about y',
  turnZ: 'turn about z',
  slideX: 'slide along x',
  slideY: 'slide along y',
  slideZ: 'slide along z',
  growth: 'growth',
};

/** Why a start by hand was not taken, and what to do. */
export function startRefusalWords(why: StartRefusal): string {
  switch (why.code) {
    case 'scaleOutOfRange':
      return `The start by hand asks for a size ratio of ${why.scale.toFixed(2)}; only ${why.leastScale} to ${why.mostScale} can be fitted. Check the units and the marked places.`;
    case 'tooFewPairs':
      return 'A start by hand needs at least two pairs of places, better three.';
    case 'placesTooNear':
      return 'The marked places lie too near to one another to tell a turn; mark some that are far apart.';
    case 'placesUnlike':
      return `The marked places do not lie alike on the two faces: however one is turned, they stay ${why.restMm.toFixed(1)} mm apart. Check that each pair marks one place.`;
  }
}

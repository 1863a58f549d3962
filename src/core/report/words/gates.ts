import type { GateCode } from '../../judge/index.ts';

/** What is held against each threshold of the finding. */
export const gateWords: Readonly<Record<GateCode, { readonly name: string; readonly unit: string }>> = {
  scoreFor: { name: 'score', unit: '' },
  leastWithoutASector: { name: 'least score with an eighth of the face left out', unit: '' },
  places: { name: 'places of letters and ornaments seen on both', unit: '' },
  outliers: { name: 'share of them nowhere near where the others put them', unit: '' },
  overlap: { name: 'share of the smaller face that kept weight in the fit', unit: '' },
  rivalTurns: { name: 'other turns that fit nearly as well', unit: '' },
  mirroredFile: { name: 'mirrored files', unit: '' },
  scoreAgainst: { name: 'score over a copy by hand', unit: '' },
  mostWithoutASector: { name: 'greatest score over a copy by hand with an eighth of the face left out', unit: '' },
  motifOff: { name: 'score of the places in the middle, over a copy by hand', unit: '' },
  wholePlaces: { name: 'share of its patch that the middle place has', unit: '' },
  struckTwice: { name: 'second strikes or slips seen', unit: '' },
  nothingCorresponds: { name: 'agreement reached against what one design would reach', unit: '' },
  clear: { name: 'agreement that one design would reach at least', unit: 'σ' },
  reachedAnywhere: { name: 'agreement reached at the best of all turns, each looked at alone', unit: 'σ' },
  oneDesign: { name: 'likelihood of what all turns reach under one design, over chance', unit: '' },
  facesTried: { name: 'faces that are not the likeliest of their object', unit: '' },
  oneWhole: { name: 'faces that are whole', unit: '' },
  reliefEverywhere: { name: 'relief in the middle of its range, of the emptier face', unit: '' },
  deepSpots: { name: 'highest hundredth of the relief over its highest tenth, of the spottier face', unit: '' },
  onlyNoise: { name: 'faces of which nothing stands out of the scan’s noise', unit: '' },
  oneWay: { name: 'share of the relief that runs one way only, as on the side of a break', unit: '' },
  growth: { name: 'difference of size', unit: '' },
  areaShare: { name: 'area of the smaller face against the greater', unit: '' },
};

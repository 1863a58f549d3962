import { type Face, findOutline, finest, longSide, type Outline } from '../face/index.ts';
import { commonSize, type Fit, ownScaleGrids, reachedAtOwnScale, reachedByHeight, reachOf } from '../fit/index.ts';
import { clearDefaults, clearSignificance, shownRelief, turnByTurn } from './clear.ts';
import type { evidenceDefaults } from './evidenceDefaults.ts';
import { gate } from './gate.ts';
import type { Gate, GateCode } from './types.ts';
import { isWhole } from './whole.ts';

/** The images of a pair beside one another: how many are whole, area and length of the smaller against the greater. */
interface Images {
  readonly whole: number;
  readonly area: number;
  readonly smaller: Outline;
  readonly smallerMm: number;
  readonly ratio: number;
  /** Length of a piece over that of the whole image beside it; 0 where the two are not a piece and a whole. */
  readonly pieceLength: number;
}

function imagesOf(a: Face, b: Face): Images {
  const [one, other] = [a, b]
    .map(({ image }) => ({
      outline: findOutline(image, image.mask),
      area: image.mask.reduce((sum, m) => sum + m, 0) * image.pitch ** 2,
    }))
    .sort((p, q) => p.area - q.area);
  const sides = [one, other].map(longSide);
  const [first, second] = [one, other].map(({ outline }) => isWhole(outline));
  return {
    whole: Number(first) + Number(second),
    area: one.area / other.area,
    smaller: one.outline,
    smallerMm: sides[0],
    ratio: sides[1] / sides[0],
    pieceLength: first === second ? 0 : first ? sides[1] / sides[0] : sides[0] / sides[1],
  };
}

/** Whether the faces of a pair without a fit are clear to one another and nothing corresponds: at once, at the smaller one's own scale, or turn by turn. */
export function otherDesignGates(reference: Face, subject: Face, fit: Fit, options: typeof evidenceDefaults): Gate[] {
  const sizeMm = commonSize(reference, subject);
  const images = imagesOf(reference, subject);
  const { area, smaller } = images;
  const allButWhole = isWhole(smaller, options.mostMissing);
  const clear = clearSignificance(reference, subject, sizeMm);
  const little = fit.significance <= options.littleReached * clear;
  const least = {
    area: allButWhole ? options.leastAreaShare : options.leastAreaOfPiece,
    spread: little ? options.leastSpreadBesideLittle : options.leastSpread,
  };
  const faces = [
    ...facesGates(reference, subject, images, sizeMm, least, options),
    gate('otherDesign', 'pieceLength', images.pieceLength, 'atMost', options.mostLengthOfPiece),
  ];
  const atOnce = clearGates(fit, clear, options);
  if (all(atOnce) && all(faces)) return [...atOnce, byHeightGate(reference, subject, sizeMm, clear, options), ...faces];
  if (allButWhole && images.ratio >= options.leastRatioOwnScale) {
    const own = ownScaleGates(reference, subject, images, options);
    if (own) return own;
  }
  const pointsAcross = sizeMm / Math.max(reference.image.pitch, subject.image.pitch);
  if (all(atOnce) || !all(faces) || !onlyMissing(pointsAcross, fit, area, faces, options)) return [...atOnce, ...faces];
  const atEach = turnGates(reference, subject, fit, sizeMm, options);
  return [...(all(atEach) ? atEach : atOnce), ...faces];
}

/** Whether only what is missing of them can keep the faces from being clear, so that it is worth looking turn by turn. */
function onlyMissing(
  pointsAcross: number,
  fit: Fit,
  area: number,
  faces: readonly Gate[],
  options: typeof evidenceDefaults,
): boolean {
  const held = (code: GateCode): number => faces.find((one) => one.code === code)?.value ?? Number.NaN;
  return (
    held('reliefEverywhere') >= options.leastSpreadTurnByTurn &&
    area >= options.leastAreaTurnByTurn &&
    pointsAcross >= options.leastPointsTurnByTurn &&
    fit.significance <= options.mostReachedAnywhere &&
    held('carriedShare') >= options.leastCarriedTurnByTurn
  );
}

const all = (gates: readonly Gate[]): boolean => gates.every(({ passed }) => passed);

/**
 * Everything at the scale of the smaller image, which has next to no cells in bands that are scaled to the greater: searched anew, and given where
 * all of it passes, else null.
 */
function ownScaleGates(
  reference: Face,
  subject: Face,
  images: Images,
  options: typeof evidenceDefaults,
): Gate[] | null {
  const { smallerMm, ratio } = images;
  const least = { area: options.leastAreaOwnScale, spread: options.leastSpread };
  const faces = facesGates(reference, subject, images, smallerMm, least, options);
  if (!all(faces)) return null;
  const clear = clearSignificance(reference, subject, smallerMm, clearDefaults, ownScaleGrids(ratio).overlaps);
  const reached = reachedAtOwnScale(finest(reference), finest(subject), smallerMm, ratio);
  const gates = [...clearGates(reached, clear, options, options.mostReachedOwnScale), ...faces];
  return all(gates) ? gates : null;
}

/** What has to hold of the faces themselves, in the bands of this size. */
function facesGates(
  reference: Face,
  subject: Face,
  { whole, area }: Images,
  sizeMm: number,
  least: { readonly area: number; readonly spread: number },
  options: typeof evidenceDefaults,
): Gate[] {
  const both = [reference, subject];
  const shown = both.map((face) => shownRelief(face, sizeMm));
  const spread = Math.min(...shown.map((relief) => relief.spread));
  const carried = Math.min(...shown.map((relief) => relief.carried));
  const directed = Math.max(...shown.map((relief) => relief.oneWay));
  const noise = shown.filter((relief) => relief.onlyNoise).length;
  return [
    gate('otherDesign', 'oneWhole', whole, 'atLeast', 1),
    gate('otherDesign', 'facesTried', both.filter(({ tried }) => tried).length, 'atMost', 0),
    gate('otherDesign', 'areaShare', area, 'atLeast', least.area),
    gate('otherDesign', 'reliefEverywhere', spread, 'atLeast', least.spread),
    gate('otherDesign', 'carriedShare', carried, 'atLeast', options.leastCarried),
    gate('otherDesign', 'onlyNoise', noise, 'atMost', 0),
    gate('otherDesign', 'oneWay', directed, 'atMost', options.mostOneWay),
  ];
}

/** Clear to one another at every turn, and nothing corresponds. */
function clearGates(
  { significance, chance }: Pick<Fit, 'significance' | 'chance'>,
  clear: number,
  options: typeof evidenceDefaults,
  mostReached = options.mostReached,
): Gate[] {
  const need = Math.max(reachOf(chance, options.log10Chance), options.overMirror * chance.mirror);
  return [
    gate('otherDesign', 'nothingCorresponds', significance / clear, 'atMost', mostReached),
    gate('otherDesign', 'clear', clear, 'atLeast', need),
  ];
}

/** Nothing corresponds among the deep forms either: looked at where all else passes, as it takes another search. */
function byHeightGate(a: Face, b: Face, sizeMm: number, clear: number, options: typeof evidenceDefaults): Gate {
  const reached = reachedByHeight(finest(a), finest(b), sizeMm);
  return gate('otherDesign', 'nothingByHeight', reached / clear, 'atMost', options.mostReachedByHeight);
}

/** Clear at most turns: what is reached at each is held against what one design would reach there. */
function turnGates(a: Face, b: Face, fit: Fit, sizeMm: number, options: typeof evidenceDefaults): Gate[] {
  const { reached, likelihoodRatio } = turnByTurn(a, b, sizeMm);
  const anywhere = Math.max(reached, fit.significance);
  return [
    gate('otherDesign', 'reachedAnywhere', anywhere, 'atMost', options.mostReachedAnywhere),
    gate('otherDesign', 'oneDesign', likelihoodRatio, 'atMost', options.mostOneDesign),
  ];
}

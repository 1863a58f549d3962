import type { SizeTest } from '../compare/index.ts';
import type { EdgeInCommon, LossesInCommon, WavelengthBand } from '../condition/index.ts';
import type { Sense } from '../face/index.ts';
import type { DescentBy, DescentCode, Evidence, Finding, SizeCaution, SizeSays, Verdict } from './types.ts';

/** What size and sharpness say of a copy: a cast, a recast matrix. */
export interface Descent {
  readonly verdict: Verdict;
  readonly evidence: readonly Evidence[];
  /** What size says against the plain reading of a finding of one matrix; null where it says nothing. */
  readonly caution: SizeCaution | null;
  readonly code: DescentCode;
  readonly by: DescentBy;
}

export const descentDefaults = {
  /** A band tells sharpness where the two agree at least so well in it. */
  leastCoherence: 0.5,
  /** Finest relief lower than this share of the coarse relief's height is blunter. */
  blunt: 0.8,
  /** No positive grows beyond its negative by more: plaster, the only material of the chain that grows at all. */
  mostGrown: 1.0035,
  /** Losses shared edge against edge that tell of one impression, and so many more than chance lays on one another. */
  leastLosses: 2,
  overChance: 2,
  /**
   * … or one more than chance at the edge, where their floors are so surely one broken surface, standard deviations, so like one another beyond smooth forms, correlation, and stray so far from these, mm. Losses of
   * independent impressions of one matrix that lie on one another reach 5.1, and 0.71.
   */
  floorSigma: 5,
  floorAlike: 0.8,
  floorRoughMm: 0.05,
  /** Standard deviations by which a broken edge is the same on both, how far it must stray from smooth curves, mm, and the two at most from one another, as a share of that. */
  edgeSigma: 4,
  edgeRoughMm: 0.05,
  edgeApart: 0.77,
};

/** What two positives lack alike; null where none is seen. */
export interface InCommon {
  readonly losses: LossesInCommon | null;
  readonly edge: EdgeInCommon | null;
}

const nothingInCommon: InCommon = { losses: null, edge: null };

/**
 * Whether one of the two may be a copy of the other. Size speaks by the ranges of the materials, and only it gives a direction;
 * sharpness is shown and gives none, since wear blunts as casting does. Two positives that share losses edge against edge, or one
 * whose broken floor is surely the same, or run alike along a broken edge, descend from one impression: dirt on a matrix is shared too, so one of the losses at
 * least must break the edge. Then the smaller is the copy, where it is smaller than any original of its copy could be. How much either has lost gives
 * no direction: the original may have broken after it was cast. `known`: which of the two is the negative, without which nobody can say that the positive grew.
 */
export function descentOf(
  reference: Sense,
  subject: Sense,
  size: SizeTest | undefined,
  bands: readonly WavelengthBand[],
  common = nothingInCommon,
  known = true,
  options = descentDefaults,
): Descent {
  const by = readFrom(size, common, options);
  const code = codeOf(by, size);
  if (!size) return { verdict: { code: 'notWeighed' }, evidence: [], caution: null, code, by };
  const sharpness = relativeSharpness(bands, options);
  const { favours, copyIs, ratio, sd } = size;
  const says: SizeSays = { favours, copyIs, oneSense: reference === subject, ratio, sd };
  return {
    verdict: { code: 'bySize', size: says, blunter: blunterOf(sharpness, options) },
    caution: known ? sizeCaution(says, subject, options) : null,
    code,
    by,
    evidence: [
      { code: 'size', ...sidesOf(favours), value: ratio, sd },
      ...(Number.isNaN(sharpness)
        ? []
        : [{ code: 'sharpness' as const, favours: 'neither' as const, over: 'neither' as const, value: sharpness }]),
    ],
  };
}

function readFrom(size: SizeTest | undefined, common: InCommon, options: typeof descentDefaults): DescentBy {
  const losses = sharesLosses(common.losses, options) ? withTellingFloors(common.losses, options) : null;
  const edge = sharesEdge(common.edge, options) ? common.edge : null;
  const speaks = size?.favours === 'copy' && size.copyIs !== 'either';
  return {
    size: size?.favours === 'copy',
    losses,
    edge,
    step: (!speaks && (losses || edge) && size?.onlyCopy) || null,
  };
}

/**
 * Descent is said of what is supported; and where the places of letters leave the matrix undecided, of two that are broken along one
 * edge, which says more of the pair than places do.
 */
export const saysDescent = (finding: Finding, { by }: Descent): boolean =>
  finding === 'supported' || (finding === 'undecided' && by.edge !== null);

function sharesLosses(common: LossesInCommon | null, options: typeof descentDefaults): common is LossesInCommon {
  if (!common || common.atEdge === 0) return false;
  const over = common.count - common.byChance;
  return (
    (common.count >= options.leastLosses && over >= options.overChance) || (over > 0 && isOneFloor(common, options))
  );
}

const withTellingFloors = (losses: LossesInCommon, options: typeof descentDefaults): LossesInCommon => ({
  ...losses,
  floors: isOneFloor(losses, options) ? losses.floors : null,
});

// Surfaces judged by an earlier program know of no floors.
const isOneFloor = (
  { floors }: LossesInCommon,
  { floorSigma, floorAlike, floorRoughMm }: typeof descentDefaults,
): boolean => !!floors && floors.sigma >= floorSigma && floors.alike >= floorAlike && floors.roughMm >= floorRoughMm;

const sharesEdge = (
  edge: EdgeInCommon | null | undefined,
  { edgeSigma, edgeRoughMm, edgeApart }: typeof descentDefaults,
): edge is EdgeInCommon =>
  // Surfaces judged by an earlier program know of no edge.
  !!edge && edge.sigma >= edgeSigma && edge.roughMm >= edgeRoughMm && edge.apartMm <= edgeApart * edge.roughMm;

function codeOf({ size, losses, edge, step }: DescentBy, test: SizeTest | undefined): DescentCode {
  if (!size && !losses && !edge) return 'cannotJudge';
  const copyIs = step?.copyIs ?? (size ? test?.copyIs : undefined);
  if (copyIs === 'subject') return 'subjectFromReference';
  return copyIs === 'reference' ? 'referenceFromSubject' : 'oneDescent';
}

function sidesOf(favours: SizeTest['favours']): Pick<Evidence, 'favours' | 'over'> {
  if (favours === 'neither') return { favours: 'neither', over: 'neither' };
  return favours === 'direct' ? { favours: 'sameMatrix', over: 'copy' } : { favours: 'copy', over: 'sameMatrix' };
}

/** Gain of the finest octave that both show over that of the coarsest; NaN where there are not two. */
function relativeSharpness(bands: readonly WavelengthBand[], { leastCoherence }: typeof descentDefaults): number {
  const shown = bands.filter(({ coherence }) => coherence >= leastCoherence);
  return shown.length < 2 ? Number.NaN : shown[0].gain / shown[shown.length - 1].gain;
}

/**
 * Two cases that a reader of the finding alone would miss: size speaks for a copy; or the positive is larger than its
 * negative by more than any material grows, at 95 %, though nobody stated how true to scale the scans are.
 */
function sizeCaution(says: SizeSays, subject: Sense, { mostGrown }: typeof descentDefaults): SizeCaution | null {
  if (says.favours === 'copy') return { kind: 'copy', ...says };
  if (says.oneSense) return null;
  const { ratio } = says;
  const [grown, sd] = subject === 'relief' ? [ratio, says.sd] : [1 / ratio, says.sd / ratio ** 2];
  if (!(grown - 1.96 * sd > mostGrown)) return null;
  return { kind: 'grown', grownPercent: 100 * (grown - 1), sdPercent: 100 * sd };
}

function blunterOf(sharpness: number, { blunt }: typeof descentDefaults): 'reference' | 'subject' | null {
  if (sharpness < blunt) return 'subject';
  return sharpness > 1 / blunt ? 'reference' : null;
}

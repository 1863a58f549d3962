import type { Mark, WearZone } from '../condition/index.ts';
import { constellationDefaults, type Gate, type GateCode, isOutside } from '../judge/index.ts';
import type { Comparison } from './input.ts';

/** One piece of evidence that can be pointed at on the seals. */
export type GroundCode =
  | 'places'
  | 'missing'
  | 'legend'
  | 'cells'
  | 'state'
  | 'shared'
  | 'brokenAlike'
  | 'size'
  | 'wear'
  | 'noDesign'
  | 'overlap'
  | 'turns'
  | 'mirrored'
  | 'struckTwice'
  | 'noFit';

/** Whether it speaks for one matrix, against it, for neither, or only says what stood in the way. */
export type Speaks = 'for' | 'against' | 'neither' | 'inTheWay';

/** A ground in numbers; its words are in `words/grounds.ts`. */
export interface GroundFact {
  readonly code: GroundCode;
  readonly speaks: Speaks;
  /** A gate of the finding rests on it: without it the finding would be another. */
  readonly decided: boolean;
  /** The gates that rest on it, with the numbers held against them. */
  readonly gates: readonly Gate[];
  /** The marks of which it speaks. */
  readonly marks: readonly Mark[];
}

const groundOfGate: Readonly<Record<GateCode, GroundCode>> = {
  scoreFor: 'places',
  leastWithoutASector: 'places',
  places: 'places',
  outliers: 'missing',
  overLegendAnew: 'legend',
  scoreAgainst: 'places',
  mostWithoutASector: 'places',
  motifOff: 'places',
  legendAnew: 'places',
  overlap: 'overlap',
  rivalTurns: 'turns',
  mirroredFile: 'mirrored',
  wholePlaces: 'places',
  struckTwice: 'struckTwice',
  nothingCorresponds: 'noDesign',
  nothingByHeight: 'noDesign',
  clear: 'noDesign',
  reachedAnywhere: 'noDesign',
  oneDesign: 'noDesign',
  oneWhole: 'noDesign',
  facesTried: 'noDesign',
  reliefEverywhere: 'noDesign',
  carriedShare: 'noDesign',
  onlyNoise: 'noDesign',
  oneWay: 'noDesign',
  growth: 'size',
  areaShare: 'noDesign',
  pieceLength: 'noDesign',
};

/** Gates that weigh; the others only ask that there be enough to weigh, and decide where they are not passed. */
const weighing = new Set<GateCode>([
  'scoreFor',
  'leastWithoutASector',
  'scoreAgainst',
  'mostWithoutASector',
  'motifOff',
  'legendAnew',
  'nothingCorresponds',
  'nothingByHeight',
  'clear',
  'reachedAnywhere',
  'oneDesign',
]);

/** At most so many are told; the rest stands in the tables. */
export const mostGrounds = 6;

/** A share of the places that lacks its counterpart from which on that is a ground of its own. */
const tellingShare = 0.1;

/** Shapes that no engraver means: see the weighing of accidents. */
const accidental = new Set<Mark['shape']>(['cut', 'crack', 'scratch', 'line', 'pit']);

/**
 * The grounds of a finding in the order of their weight: those whose gates decided or stood in its way, then what was found besides.
 * Decided by codes and gates alone.
 */
export function groundsOf({ fit, difference, judgement }: Comparison): GroundFact[] {
  const { finding, gates, constellation, cells, state, damage, wear, limits } = judgement;
  const group = ({ supported: 'support', undecided: 'support' } as Record<string, string>)[finding] ?? finding;
  const weighed = gates.filter((gate) => gate.group === group);
  const failed = weighed.filter(({ passed }) => !passed);
  const fact = (code: GroundCode, speaks: Speaks, marks: readonly Mark[] = []): GroundFact => {
    const own = weighed.filter((gate) => groundOfGate[gate.code] === code);
    return {
      code,
      speaks,
      decided: own.some(({ code: gate, passed }) => (finding === 'undecided' ? !passed : weighing.has(gate))),
      gates: own,
      marks,
    };
  };
  if (!fit.found)
    return [fact(finding === 'otherDesign' ? 'noDesign' : 'noFit', finding === 'otherDesign' ? 'against' : 'inTheWay')];
  const side: Speaks = finding === 'supported' ? 'for' : finding === 'against' ? 'against' : 'neither';
  const facts: GroundFact[] = failed
    .map(({ code }) => groundOfGate[code])
    .filter((code, i, all) => all.indexOf(code) === i && inTheWay.has(code))
    .map((code) => fact(code, 'inTheWay'));
  const all = (constellation?.landmarks.length ?? 0) + (constellation?.unseen.length ?? 0);
  // Something else may stand in the way of a finding while every gate of the places is passed.
  const ofPlaces = weighed.filter(({ code }) => groundOfGate[code] === 'places');
  const placesPass = finding === 'undecided' && ofPlaces.length > 0 && ofPlaces.every(({ passed }) => passed);
  if (constellation && constellation.landmarks.length > 0) facts.push(fact('places', placesPass ? 'for' : side));
  if (constellation && all > 0 && constellation.unseen.length / all >= tellingShare)
    facts.push(fact('missing', 'against'));
  if (cells.compared > 0) facts.push(fact('cells', cellsSpeak(cells.congruent / cells.compared)));
  const shared = damage.filter(({ carriedBy, shape }) => carriedBy === 'both' && accidental.has(shape));
  if (shared.length > 0) facts.push(fact('shared', 'for', shared));
  const telling = damage.filter(({ id }) => state.marks.includes(id));
  if (telling.length > 0 && state.reading !== 'cannotJudge') facts.push(fact('state', 'neither', telling));
  if (brokenAlike(judgement)) facts.push(fact('brokenAlike', 'neither', damage.filter(isLostOnBoth)));
  // A size that no material gives stands as a limit of the finding.
  const doubted = limits.some(({ code }) => code === 'size');
  if (difference) facts.push(fact('size', doubted || difference.size.favours === 'copy' ? 'against' : 'neither'));
  // Height that is left of another matrix's letters says nothing.
  const sameLetters = finding !== 'against' && !facts.some(({ code }) => code === 'legend');
  if (sameLetters && heightKeptIn(wear.zones)) facts.push(fact('wear', 'neither'));
  return [...facts].sort((a, b) => rank(a) - rank(b)).slice(0, mostGrounds);
}

/** Whether the finding tells of a broken edge or of losses that both share: of how the two descend, not of one matrix or two. */
const brokenAlike = ({ descent, descentBy: { edge, losses } }: Comparison['judgement']): boolean =>
  descent !== null && (edge !== null || losses !== null);

/** A piece that both lack stands among the damage as one mark. */
const isLostOnBoth = ({ carriedBy, shape }: Mark): boolean => carriedBy === 'both' && shape === 'chip';

/** Most cells of one matrix are congruent, few of two; between the two, cells say neither. */
const cellsSpeak = (share: number): Speaks => (share >= 0.75 ? 'for' : share <= 0.4 ? 'against' : 'neither');

/** What stood in the way first, then what decided, then what the sentence of the finding tells besides, then the rest as it was found. */
const rank = ({ code, speaks, decided }: GroundFact): number => {
  if (speaks === 'inTheWay') return 0;
  if (decided) return 1;
  return code === 'brokenAlike' || (code === 'size' && speaks === 'against') ? 2 : 3;
};

const inTheWay = new Set<GroundCode>(['legend', 'overlap', 'turns', 'mirrored', 'struckTwice']);

/** The zone by which the relief that is left is told: the legend, or the whole where the legend's is not known. */
export const heightKeptIn = (zones: readonly WearZone[]): WearZone | undefined =>
  (['legend', 'whole'] as const)
    .map((name) => zones.find(({ zone }) => zone === name))
    .find((zone) => zone && zone.state !== 'cannotJudge' && Number.isFinite(zone.heightKept));

/** Why cells of the reference are not congruent: shifted or turned away, or unlike though in place. */
export function cellsApart({ judgement: { cells } }: Pick<Comparison, 'judgement'>): {
  readonly shifted: number;
  readonly unlike: number;
} {
  const apart = cells.cells.filter(({ congruent }) => !congruent);
  const unlike = apart.filter(({ correlation }) => correlation < (cells.leastCorrelation ?? 0.5)).length;
  return { unlike, shifted: apart.length - unlike };
}

/** Places outside their own error, flow included. */
export const placesOutside = ({ judgement: { constellation } }: Pick<Comparison, 'judgement'>): number =>
  (constellation?.landmarks ?? []).filter((one) => isOutside(one.aloneSmooth, one, constellationDefaults.flowMm))
    .length;

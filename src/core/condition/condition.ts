import { type FaceZones, findZones } from '../design/index.ts';
import type { Face } from '../face/index.ts';
import type { Fit } from '../fit/index.ts';
import { type HeightGrid, withHeights } from '../geometry/index.ts';
import { sharedEdge } from './losses/sharedEdge.ts';
import { type SharedLosses, sharedLosses } from './losses/sharedLosses.ts';
import { cellsOfMark, type FoundMark, findMarks, marksWithin } from './marks/index.ts';
import type { OwnFaces } from './marks/lines/carrierSurface.ts';
import { type SecondStrike, secondStrike } from './marks/secondStrike.ts';
import { type LossField, lossField } from './relief/loss.ts';
import { ofImage } from './relief/ofImage.ts';
import { type WearRelief, wearRelief } from './relief/relief.ts';
import { wavelengthBands } from './relief/wavelength.ts';
import { stateReading, stateWithoutFit } from './states/state.ts';
import { tellingMarks } from './states/tellingMarks.ts';
import type { EdgeInCommon, LossesInCommon, StateReading, Wear } from './types.ts';
import { wearAreas, zoneOutlines } from './wear/areas.ts';
import { groundOfMarks, type WearMap, wearLabel, wearLabels, withinCells, withoutMarks } from './wear/labels.ts';
import { wearZones, zoneCells } from './wear/zones.ts';

/** What a pair shows of wear, filling, damage and state. */
export interface WearAndDamage {
  readonly wear: Wear;
  /** Label of every cell of the reference's face, in the impression's sense, as marks and states are held against it. */
  readonly wearMap: WearMap;
  /** The same as it is told by zone and drawn: low ground that is lower is called so. */
  readonly toldMap: WearMap;
  readonly marks: readonly FoundMark[];
  readonly state: StateReading;
  /** Ids of the marks that tell of the matrix's state: those that `state` was read from. */
  readonly telling: readonly string[];
  /** Pieces that both lack; null but for two positives. */
  readonly lossesInCommon: LossesInCommon | null;
  /** Broken edge along which both run alike; null but for two positives that do. */
  readonly edgeInCommon: EdgeInCommon | null;
  /** A slip or double strike of the subject; null where none is seen. */
  readonly secondStrike: SecondStrike | null;
}

/**
 * Wear, filling and damage of a fitted pair, over the reference as it is today. The senses are the faces' own. Where no fit was found nothing is said.
 * Marks are sought and measured on all that both show, and told of the reference's image; wear is measured on that. `zones`: those of the reference's face,
 * where they are at hand. Lengths in mm.
 */
export function judgeSurfaces(
  reference: Face,
  subject: Face,
  fit: Fit,
  zones: FaceZones = findZones(reference),
): WearAndDamage {
  if (!fit.found) return withoutFit;
  const pair = { reference, subject, fit };
  const relief = wearRelief(reference, subject, fit);
  const loss = lossField(relief);
  const twoPositives = reference.sense === 'relief' && !fit.turnedOver;
  const common = twoPositives ? sharedLosses(relief, loss) : null;
  const { labels, found } = marksOfAll(relief, loss, pair, zones, common);
  const onImage = ofImage(relief, reference);
  const marks = marksWithin(relief, found, onImage.inside);
  const worn = wearOfImage(onImage, labels, marks, pair, zones);
  return {
    ...worn,
    marks,
    state: stateReading(marks, soundFraction(worn.wearMap), relief.sizeMm),
    telling: tellingMarks(marks, relief.sizeMm).map(({ id }) => id),
    lossesInCommon: common && lossesInCommon(common, relief.reference.pitch),
    edgeInCommon: twoPositives ? sharedEdge(reference, subject, fit) : null,
    secondStrike: struckTwice(subject, relief, loss),
  };
}

/** A slip or double strike that the subject shows, as `judgeSurfaces` tells it, and nothing else; null where none is seen. */
export function secondStrikeOf(reference: Face, subject: Face, fit: Fit): SecondStrike | null {
  if (!fit.found) return null;
  const relief = wearRelief(reference, subject, fit);
  return struckTwice(subject, relief, lossField(relief));
}

/** A blow that came twice is seen on what was pressed, not on what pressed it. */
const struckTwice = (subject: Face, relief: WearRelief, loss: LossField): SecondStrike | null =>
  subject.sense === 'relief' ? secondStrike(relief, loss) : null;

/** Marks on all that both show, and the labels that they are held against. */
function marksOfAll(
  relief: WearRelief,
  loss: LossField,
  pair: OwnFaces,
  zones: FaceZones,
  common: SharedLosses | null,
): { readonly labels: WearMap; readonly found: readonly FoundMark[] } {
  const labels = groundOfMarks(relief, loss, wearLabels(relief, loss));
  const legend = zoneCells(relief, pair.reference, zones).get('legend') ?? relief.inside;
  const lostOnBoth = common?.losses.map((each) => each.cells);
  return { labels, found: findMarks(relief, loss, labels, legend, pair, lostOnBoth) };
}

/** Wear of the image, by label, zone and wavelength; what marks of the reference alone hide stays unjudged. `labels`: of all that both show. */
function wearOfImage(
  image: WearRelief,
  labels: WearMap,
  marks: readonly FoundMark[],
  { reference, subject }: OwnFaces,
  zones: FaceZones,
): Pick<WearAndDamage, 'wear' | 'wearMap' | 'toldMap'> {
  const cells = zoneCells(image, reference, zones);
  const loss = lossField(image);
  const ofReference = marks.filter(({ carriedBy, raised }) => carriedBy === 'reference' && raised);
  const hidden = ofReference.map((mark) => [...cellsOfMark(image, mark)]);
  const wearMap = withoutMarks(withinCells(labels, image.inside), hidden);
  const toldMap = withoutMarks(wearLabels(image, loss), hidden);
  const [kept, shown] = [image.reference, image.subject].map((grid) => withoutLosses(grid, wearMap));
  const noise = { reference: reference.noiseMm, subject: subject.noiseMm };
  const byWavelength = wavelengthBands(kept, shown, image.sizeMm, undefined, noise);
  const wear = {
    zones: wearZones(image, loss, toldMap, cells, byWavelength),
    byWavelength,
    zoneOutlines: zoneOutlines(toldMap, cells),
    areas: wearAreas(toldMap, cells),
    gone: goneShare(image, wearMap),
  };
  return { wear, wearMap, toldMap };
}

const noCells: WearMap = { width: 0, height: 0, pitch: 1, left: 0, top: 0, turned: false, labels: new Uint8Array() };

/** Two faces that do not fit say nothing about one another's wear. */
export const withoutFit: WearAndDamage = {
  wear: {
    zones: [{ zone: 'whole', state: 'cannotJudge', heightKept: Number.NaN, heightKeptSd: Number.NaN, fraction: 1 }],
    byWavelength: [],
    zoneOutlines: [],
    areas: [],
    gone: Number.NaN,
  },
  wearMap: noCells,
  toldMap: noCells,
  marks: [],
  state: stateWithoutFit,
  telling: [],
  lossesInCommon: null,
  edgeInCommon: null,
  secondStrike: null,
};

/** Of two matrices nothing is worn or damaged beside the other: every difference of the designs would read as one of these. */
export const ofTwoDies = { wear: withoutFit.wear, marks: withoutFit.marks } as const;

/** The cells whose surface both faces share: a chip's edge holds every wavelength and would drown the design's. */
function withoutLosses(grid: HeightGrid, { labels }: WearMap): HeightGrid {
  const out = new Set([0, wearLabel('lost'), wearLabel('added'), wearLabel('cannotJudge')]);
  return withHeights(
    grid,
    grid.z,
    grid.mask.map((m, i) => (m && !out.has(labels[i]) ? 1 : 0)),
  );
}

/** Share of the reference's surface over which the subject has none, in gaps that are labelled lost: they reach the edge. */
function goneShare({ reference, subject }: WearRelief, { labels }: WearMap): number {
  const lost = wearLabel('lost');
  let [all, gone] = [0, 0];
  for (let i = 0; i < labels.length; i++) {
    if (!labels[i] || !reference.mask[i]) continue;
    all++;
    if (labels[i] === lost && !subject.mask[i]) gone++;
  }
  return all > 0 ? gone / all : Number.NaN;
}

const lossesInCommon = ({ losses, byChance, floors }: SharedLosses, pitchMm: number): LossesInCommon => ({
  count: losses.length,
  atEdge: losses.filter(({ atEdge }) => atEdge).length,
  areaMm2: losses.reduce((sum, { cells }) => sum + cells.length, 0) * pitchMm ** 2,
  byChance,
  floors,
});

/** Share of the face whose surface is as the reference would make it. */
function soundFraction({ labels }: WearMap): number {
  let [all, sound] = [0, 0];
  for (const label of labels) {
    if (label === 0) continue;
    all++;
    if (label === wearLabel('sharp')) sound++;
  }
  return all > 0 ? sound / all : 0;
}

import { type FaceZones, findZones, type ZoneName, zoneNames } from '../../design/index.ts';
import type { Face } from '../../face/index.ts';
import { columnOf, rowOf, withHeights, xOf, yOf } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import { softened, type WearRelief } from '../relief/relief.ts';
import type { WavelengthBand, WearState, WearZone } from '../types.ts';
import { isAnotherDesign } from './anotherDesign.ts';
import { typicalOf, type WearMap, wearStates } from './labels.ts';

export const zoneDefaults = {
  /** A cell is raised from this share of the face's typical exposure. */
  raised: 0.25,
  /** A zone is in a state other than sharp when this share of its judged cells is. */
  leastShare: 0.12,
  /** No statement where less than this share of a zone can be judged. */
  leastJudged: 0.3,
  /** Blur: the shortest octave keeps at most this much of what the longest keeps … */
  blurGain: 0.6,
  /** … while the two still agree at least so well, and no more than so many cells are worn. */
  blurCoherence: 0.5,
  /** … or where so many octaves, in which at least this share of the reference is relief, are gone from the subject altogether. */
  goneBands: 2,
  goneSignal: 0.5,
  /** Distance over which errors of the levelled difference hang together, mm. */
  correlationMm: 1.2,
  /** What levelling leaves of a height offset between the faces, mm (1 σ). */
  levelMm: 0.008,
  /** What so many blurs by one linear interpolation take off narrow forms counts as 1 σ: the two scans' cells need not meet them alike. */
  blurs: 1,
  /** A height kept that is known no better than this (1 σ) is none. */
  mostSd: 0.5,
  /** A zone is called lower only where it lacks more than so many standard deviations. */
  sds: 2,
  /** What lacks more than this share of its height is not called sharp, though few of its cells are lower one by one. */
  goodPart: 0.15,
};

/**
 * State and height kept of each zone of the reference's face and of the whole.
 *
 *   height kept = Σ (h + d) / Σ h over the zone's raised cells, h height of the reference over the ground, d difference
 *
 * so it is the share of the relief's volume that the subject still has there, against the reference as it is today.
 * Cells without data, lost or added do not enter, and nothing is said of a zone that bears another design. sd: scan noise and registration with one independent cell per
 * `correlationMm`², the offset that levelling leaves, and what narrow forms owe to the scans' resolution. `state` is the commonest state but sharp, if it takes
 * `leastShare`; `fraction` its share of the judged cells.
 */
export function wearZones(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  zones: ReadonlyMap<ZoneName, Uint8Array>,
  bands: readonly WavelengthBand[],
  options = zoneDefaults,
): WearZone[] {
  const { height } = loss;
  const typical = typicalOf(height, relief);
  const raised = Uint8Array.from(height, (value) => (value > options.raised * typical ? 1 : 0));
  const blur = blurOf(bands, options);
  const soft = softened(withHeights(relief.reference, height, relief.reference.mask), options.blurs).z;
  const subject = height.map((h, i) => h + relief.difference[i]);
  return [...zones].map(([zone, cells]): WearZone => {
    if (isAnotherDesign(height, subject, map, cells)) return { zone, state: 'cannotJudge', fraction: 1, ...unmeasured };
    const kept = keptOf(relief, loss, map, cells, { height, soft, raised }, options);
    const { state, fraction, lowerShare, judgedShare } = stateOf(map, cells, blur, options);
    const known = judgedShare >= options.leastJudged && kept.heightKeptSd <= options.mostSd;
    const measured = known ? kept : unmeasured;
    const said = heldAgainst(kept, known, state, options);
    return { zone, state: said, fraction: said === 'lower' ? lowerShare : fraction, ...measured };
  });
}

/** Where too little of a zone is judged, or its relief is no higher than what levelling leaves, nothing is said of its height. */
const unmeasured = { heightKept: Number.NaN, heightKeptSd: Number.NaN };

/** That height is gone is not said where no more is gone than the uncertainty of it. */
const isBelow = (
  { heightKept, heightKeptSd }: Pick<WearZone, 'heightKept' | 'heightKeptSd'>,
  { sds }: typeof zoneDefaults,
): boolean => 1 - heightKept > sds * heightKeptSd;

/** A word and a number of one zone do not contradict: what kept its height is not lower, and what surely lost a good part of it is not sharp. */
function heldAgainst(
  kept: Pick<WearZone, 'heightKept' | 'heightKeptSd'>,
  known: boolean,
  state: WearState,
  options: typeof zoneDefaults,
): WearState {
  if (state === 'lower' && !isBelow(kept, options)) return 'cannotJudge';
  const gone = known && isBelow(kept, options) && 1 - kept.heightKept > options.goodPart;
  return state === 'sharp' && gone ? 'lower' : state;
}

/** Which share of the zone is in which state; the judged cells are those with a label other than cannot judge. */
function stateOf(
  map: WearMap,
  cells: Uint8Array,
  blur: 'none' | 'soft' | 'gone',
  options: typeof zoneDefaults,
): { state: WearState; fraction: number; lowerShare: number; judgedShare: number } {
  const count = labelsAmong(map.labels, cells);
  const share = (state: WearState): number => count[wearStates.indexOf(state) + 1];
  const all = count.reduce((sum, value) => sum + value, 0);
  const judged = all - share('cannotJudge');
  const judgedShare = all > 0 ? judged / all : 0;
  const lowerShare = judged > 0 ? share('lower') / judged : 0;
  const said = (state: WearState, fraction: number) => ({ state, fraction, lowerShare, judgedShare });
  if (all === 0 || judged < options.leastJudged * all)
    return said('cannotJudge', all > 0 ? share('cannotJudge') / all : 0);
  const changed = wearStates.filter((state) => state !== 'sharp' && state !== 'cannotJudge');
  const most = changed.reduce((best, state) => (share(state) > share(best) ? state : best));
  // A hand that rubs leaves edges elsewhere; where whole octaves are gone everywhere, what lies lower is blurred first.
  const explained = blur === 'gone' && most === 'lower';
  if (share(most) >= options.leastShare * judged && !explained) return said(most, share(most) / judged);
  const left = share('sharp') + (explained ? share('lower') : 0);
  return said(blur === 'none' ? 'sharp' : 'blurred', left / judged);
}

/** How many of the cells have each label; of those without one, 0. */
function labelsAmong(labels: Uint8Array, cells: Uint8Array): Float64Array {
  const count = new Float64Array(wearStates.length + 1);
  for (let i = 0; i < cells.length; i++) if (cells[i]) count[labels[i]]++;
  count[0] = 0;
  return count;
}

/** Short wavelengths are gone, weakened or altogether, although the long ones are there and the two faces agree: the whole is soft. */
function blurOf(
  bands: readonly WavelengthBand[],
  { blurGain, blurCoherence, goneBands, goneSignal }: typeof zoneDefaults,
): 'none' | 'soft' | 'gone' {
  const sound = bands.filter(({ coherence }) => coherence >= blurCoherence);
  if (sound.length === 0) return 'none';
  // A blur takes whole octaves away, which then agree with nothing: what is left there is small, not merely elsewhere.
  const most = Math.max(...sound.map(({ gain }) => gain));
  const gone = bands.filter(
    ({ toMm, signal = 0, amplitude = 1, coherence }) =>
      toMm <= sound[0].fromMm && coherence < blurCoherence && signal >= goneSignal && amplitude < blurGain * most,
  );
  if (gone.length >= goneBands) return 'gone';
  const long = Math.max(...sound.slice(1).map(({ gain }) => gain));
  return sound.length > 1 && sound[0].gain < blurGain * long ? 'soft' : 'none';
}

function keptOf(
  relief: WearRelief,
  loss: LossField,
  map: WearMap,
  cells: Uint8Array,
  { height, soft, raised }: { height: Float32Array; soft: Float32Array; raised: Uint8Array },
  options: typeof zoneDefaults,
): { heightKept: number; heightKeptSd: number } {
  const { difference: d, reference } = relief;
  const skip = new Set((['lost', 'added', 'cannotJudge'] as const).map((state) => wearStates.indexOf(state) + 1));
  let [n, sumHeight, sumSoft, sumDifference, square] = [0, 0, 0, 0, 0];
  for (let i = 0; i < cells.length; i++) {
    if (!cells[i] || !raised[i] || Number.isNaN(d[i]) || map.labels[i] === 0 || skip.has(map.labels[i])) continue;
    n++;
    sumHeight += height[i];
    sumSoft += soft[i];
    sumDifference += d[i];
    square += loss.sigma[i] ** 2;
  }
  if (n < 10) return { heightKept: Number.NaN, heightKeptSd: Number.NaN };
  const independent = Math.max(1, n * Math.min(1, (reference.pitch / options.correlationMm) ** 2));
  const meanSd = Math.sqrt(square / n / independent + options.levelMm ** 2);
  const resolutionSd = Math.max(0, sumHeight - sumSoft) / sumHeight;
  return {
    heightKept: 1 + sumDifference / sumHeight,
    heightKeptSd: Math.hypot(meanSd / (sumHeight / n), resolutionSd),
  };
}

/** The zones of the reference's face on the relief's cells, the whole first. */
export function zoneCells(
  relief: WearRelief,
  face: Face,
  found: FaceZones = findZones(face),
): Map<ZoneName, Uint8Array> {
  const { reference, inside, turned } = relief;
  const zones = new Map<ZoneName, Uint8Array>([['whole', inside]]);
  for (const zone of zoneNames) zones.set(zone, new Uint8Array(inside.length));
  for (let row = 0, i = 0; row < reference.height; row++)
    for (let col = 0; col < reference.width; col++, i++) {
      if (!inside[i]) continue;
      const x = turned ? -xOf(reference, col) : xOf(reference, col);
      const c = Math.round(columnOf(found.grid, x));
      const r = Math.round(rowOf(found.grid, yOf(reference, row)));
      if (c < 0 || r < 0 || c >= found.grid.width || r >= found.grid.height) continue;
      const label = found.labels[r * found.grid.width + c];
      if (label > 0) (zones.get(zoneNames[label - 1]) as Uint8Array)[i] = 1;
    }
  return zones;
}

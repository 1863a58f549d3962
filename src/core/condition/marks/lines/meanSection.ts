import { median, sigmaFromMad } from '../../../geometry/index.ts';
import { type LineProfiles, meanWithin } from './lineProfiles.ts';
import type { MeanSection } from './lineTypes.ts';

export const sectionDefaults = {
  /** The line is averaged over pieces of so much length, which count as independent. */
  pieceMm: 1,
  /** Least share of `tallMm` from which a step belongs to the line. */
  standing: 0.25,
  /** Share cut off at either end of the values of the pieces before they are averaged. */
  trim: 0.2,
  /** A foot is where the section has fallen to this share of its depth. */
  foot: 0.1,
  /** Lips are looked for from where it has fallen to this share, at most so many widths from the middle. */
  lipFoot: 0.02,
  lipWithin: 1.1,
  /** The bottom's form is read from so many cells of width; fullness up to which it is a V, from which round, and from which flat. */
  formCells: 4,
  vee: 0.46,
  round: 0.52,
  flat: 0.78,
};

/** Mean section over the steps at which the line stands; null where there are fewer than four of them or two pieces. */
export function meanSection(profiles: LineProfiles, pitchMm: number, options = sectionDefaults): MeanSection | null {
  const { aside, crest, tallMm } = profiles;
  const standing = crest.reduce<number[]>((list, value, k) => {
    if (value > options.standing * tallMm) list.push(k);
    return list;
  }, []);
  if (standing.length < 4) return null;
  const pieces = piecesOf(profiles, standing, options.pieceMm);
  if (pieces.length < 2) return null;
  const heightMm = new Float64Array(aside.length);
  const heightSdMm = new Float64Array(aside.length);
  for (let t = 0; t < aside.length; t++) {
    const { mean, sd } = trimmed(
      pieces.map((piece) => piece[t]),
      options.trim,
    );
    heightMm[t] = mean;
    heightSdMm[t] = sd;
  }
  const half = (aside.length - 1) / 2;
  const depthMm = heightMm[half];
  if (!(depthMm > 0)) return null;
  const feet = [-1, 1].map((way) => crossing(heightMm, half, way, options.foot * depthMm));
  const widths = pieces.map((piece) => widthAt(piece, half, 0.5)).filter((value) => !Number.isNaN(value));
  const stepMm = aside[1] - aside[0];
  const widthMm = widthAt(heightMm, half, 0.5) * stepMm;
  const areas = pieces.map((piece) => areaOf(piece, half, feet) * stepMm);
  const lips = [-1, 1].map((way, side) => {
    const foot = crossing(heightMm, half, way, options.lipFoot * depthMm) * stepMm;
    const from = Math.max(feet[side] * stepMm, Math.min(foot, options.lipWithin * widthMm));
    const reach = Math.max(0.6 * widthMm, 2 * pitchMm);
    const values = pieces.map((piece) => -sideMean(piece, aside, way, from, from + reach));
    return trimmed(values, options.trim);
  });
  const fullness = widthAt(heightMm, half, 0.75) / widthAt(heightMm, half, 0.25);
  const root = Math.sqrt(Math.max(1, widths.length));
  return {
    asideMm: aside,
    heightMm,
    heightSdMm,
    depthMm,
    depthSdMm: heightSdMm[half],
    mostMm: heightMm.reduce((most, value) => Math.max(most, value), 0),
    widthMm,
    widthSdMm: (spread(widths) * stepMm) / root,
    areaMm2: areaOf(heightMm, half, feet) * stepMm,
    areaSdMm2: trimmed(areas, options.trim).sd,
    flankDeg: [flank(heightMm, half, -1, stepMm), flank(heightMm, half, 1, stepMm)],
    fullness,
    bottom: bottomOf(fullness, widthMm / pitchMm, options),
    lipMm: [lips[0].mean, lips[1].mean],
    lipSdMm: [lips[0].sd, lips[1].sd],
    widthSpread: (spread(widths) * stepMm) / widthMm,
    pieces: pieces.length,
  };
}

function bottomOf(fullness: number, cells: number, options: typeof sectionDefaults): MeanSection['bottom'] {
  if (!(cells >= options.formCells)) return 'unresolved';
  if (fullness <= options.vee) return 'vee';
  if (fullness < options.round) return 'unresolved';
  return fullness < options.flat ? 'round' : 'flat';
}

/** Means of the rows of every `pieceMm` of the line that hold at least a third of their steps. */
function piecesOf({ rows, along }: LineProfiles, standing: readonly number[], pieceMm: number): Float64Array[] {
  const groups = new Map<number, number[]>();
  for (const k of standing) {
    const piece = Math.floor((along[k] - along[0]) / pieceMm);
    groups.set(piece, [...(groups.get(piece) ?? []), k]);
  }
  const perPiece = pieceMm / Math.max(1e-9, along[1] - along[0]);
  const full = [...groups.values()].filter((group) => group.length >= perPiece / 3);
  return full.map((group) =>
    Float64Array.from(rows[0], (_, t) => {
      let [sum, n] = [0, 0];
      for (const k of group)
        if (!Number.isNaN(rows[k][t])) {
          sum += rows[k][t];
          n++;
        }
      return n > 0 ? sum / n : Number.NaN;
    }),
  );
}

/** Mean without the ends, and its standard deviation from the spread (median absolute deviation) over √n. */
function trimmed(values: readonly number[], trim: number): { mean: number; sd: number } {
  const kept = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
  if (kept.length === 0) return { mean: Number.NaN, sd: Number.NaN };
  const cut = Math.floor(trim * kept.length);
  const inner = kept.slice(cut, kept.length - cut);
  return {
    mean: inner.reduce((sum, value) => sum + value, 0) / inner.length,
    // A mean trimmed by a fifth of normal values scatters 1.06 times as much as the plain one.
    sd: kept.length > 1 ? (1.06 * spread(kept)) / Math.sqrt(kept.length) : Number.NaN,
  };
}

function spread(values: readonly number[]): number {
  const centre = median(values);
  return sigmaFromMad * median(values.map((value) => Math.abs(value - centre)));
}

/** Steps from the middle outward at which the section first falls below `height`, linear between steps; the end where it never does. */
function crossing(section: Float64Array, half: number, way: number, height: number): number {
  for (let t = 1; t <= half; t++) {
    const before = section[half + way * (t - 1)];
    const at = section[half + way * t];
    if (at < height) return t - 1 + (before - height) / Math.max(1e-12, before - at);
  }
  return half;
}

/** Full width in steps at a share of the middle's height. */
const widthAt = (section: Float64Array, half: number, share: number): number => {
  const height = share * section[half];
  if (!(height > 0)) return Number.NaN;
  return crossing(section, half, -1, height) + crossing(section, half, 1, height);
};

/** Sum of the heights between the feet, in mm × steps. */
function areaOf(section: Float64Array, half: number, feet: readonly number[]): number {
  let sum = 0;
  for (let t = -Math.round(feet[0]); t <= Math.round(feet[1]); t++) sum += section[half + t] || 0;
  return sum;
}

/** Angle of the straight through the flank from three quarters of the depth down to one. */
function flank(section: Float64Array, half: number, way: number, stepMm: number): number {
  const depth = section[half];
  const run = (crossing(section, half, way, 0.25 * depth) - crossing(section, half, way, 0.75 * depth)) * stepMm;
  return (Math.atan2(0.5 * depth, run) * 180) / Math.PI;
}

function sideMean(piece: Float64Array, aside: Float64Array, way: number, from: number, to: number): number {
  const middle = (way * (from + to)) / 2;
  return meanWithin(
    piece,
    aside.map((value) => value - middle),
    (to - from) / 2,
  );
}

import { type Band, type BandFace, findLegendBands, readingGrid } from '../../design/index.ts';
import { type HeightGrid, sampleGrid } from '../../geometry/index.ts';
import { findCross } from './initialCross.ts';
import { placeDeg } from './readStrip.ts';
import { unroll } from './unroll.ts';

export const topDefaults = {
  /** Likeness of the motif's two sides, −1 to 1, from which its axis is taken for upright, and its lead over every other axis. */
  leastLikeness: 0.72,
  leastLead: 0.15,
  /** Axes nearer than this are one and the same, degrees. */
  sameAxisDeg: 20,
  /** The sign at the beginning of a legend stands at most so far from the top of an axis, degrees. */
  mostFromCrossDeg: 15,
};

/** Where the top of a face seems to be, degrees clockwise from its 12 o'clock in the impression's sense, and from what. */
export interface LikelyTop {
  readonly deg: number;
  readonly from: 'motif' | 'cross';
}

/**
 * The top of a design that neither its owner nor its outline tells: the axis about which the motif is most alike on both sides,
 * the end of it where the legend's cross stands, else the end nearer to the top as scanned; else the cross alone. A guess; null where
 * neither is seen. Likeness about θ: Σ f(r, θ+φ) f(r, θ−φ) / Σ f², f the heights without each ring's mean.
 */
export function likelyTop(face: BandFace, options = topDefaults): LikelyTop | null {
  const [band] = findLegendBands(face);
  if (!band) return null;
  const cross = crossFrom(face, band);
  const axis = motifAxis(readingGrid(face.sense, face.detail), band, options);
  const ends = axis === null ? [] : [axis, axis + 180].map(signed);
  const nearest = ends.sort((p, q) => apart(p, cross ?? 0) - apart(q, cross ?? 0))[0];
  if (nearest !== undefined && (cross === null || apart(nearest, cross) <= options.mostFromCrossDeg))
    return { deg: nearest, from: 'motif' };
  return cross === null ? null : { deg: signed(cross), from: 'cross' };
}

/** Direction of the cross with which the legend begins; its looks do not depend on how letters face. */
function crossFrom({ detail }: BandFace, band: Band): number | null {
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  // Overlapped by more than a letter, so that a cross at the seam is seen whole.
  const strip = unroll(detail, band, { facing: 'inward', startDeg: 0, overlapMm: 1.3 * letterMm });
  const found = findCross(strip);
  return found && placeDeg(strip, found.column);
}

const signed = (deg: number): number => ((deg + 540) % 360) - 180;
const apart = (a: number, b: number): number => Math.abs(signed(a - b));

const rings = 28;
const stepDeg = 2;
const sectors = 360 / stepDeg;

/** Axis of the motif within the band, degrees clockwise, 0 to 180; null where none stands out. */
function motifAxis(grid: HeightGrid, band: Band, options: typeof topDefaults): number | null {
  const f = motifInPolar(grid, band);
  if (!f) return null;
  const likeness = Array.from({ length: sectors }, (_, k) => likenessAbout(f, k));
  const best = likeness.indexOf(Math.max(...likeness));
  // The two sides of an axis sum to twice its direction: k sectors.
  const others = likeness.filter((_, k) => apart(k * stepDeg, best * stepDeg) > 2 * options.sameAxisDeg);
  if (likeness[best] < options.leastLikeness || likeness[best] - Math.max(...others) < options.leastLead) return null;
  return (best * stepDeg) / 2;
}

/** f over rings and sectors, weighted by the ring's length; null where too much of the motif is missing. */
function motifInPolar(grid: HeightGrid, { cx, cy, base, innerMm }: Band): Float32Array | null {
  let reach = Number.POSITIVE_INFINITY;
  for (let i = 0; i < base.length; i += 2) reach = Math.min(reach, Math.hypot(base[i] - cx, base[i + 1] - cy));
  reach -= innerMm;
  const f = new Float32Array(rings * sectors);
  let seen = 0;
  for (let ring = 0; ring < rings; ring++) {
    const r = (reach * (ring + 1)) / (rings + 1);
    const row = f.subarray(ring * sectors, (ring + 1) * sectors);
    let [sum, n] = [0, 0];
    row.forEach((_, k) => {
      const a = (k * stepDeg * Math.PI) / 180;
      row[k] = sampleGrid(grid, cx + r * Math.sin(a), cy + r * Math.cos(a));
      if (Number.isNaN(row[k])) return;
      sum += row[k];
      n++;
    });
    seen += n;
    row.forEach((value, k) => {
      row[k] = Number.isNaN(value) ? 0 : (value - sum / n) * Math.sqrt(r);
    });
  }
  return reach > 0 && seen > 0.7 * f.length ? f : null;
}

function likenessAbout(f: Float32Array, k: number): number {
  let [both, all] = [0, 0];
  for (let ring = 0; ring < rings; ring++)
    for (let i = 0; i < sectors; i++) {
      const value = f[ring * sectors + i];
      both += value * f[ring * sectors + ((k - i + 2 * sectors) % sectors)];
      all += value * value;
    }
  return all > 0 ? both / all : 0;
}

import { type Band, readingGrid, readingX } from '../../design/index.ts';
import { type HeightGrid, rowOf, sampleCubic } from '../../geometry/index.ts';
import { type Midline, midlineOf } from './midline.ts';
import { type FacingArc, type Piece, piecesOf } from './pieces.ts';

export interface UnrollOptions {
  /** Side of a cell, mm; the scan's own, or a 64th of the letters' height where that is finer, unless stated. */
  readonly pitchMm?: number;
  /** Shown beyond both edges of the band, mm. */
  readonly marginMm?: number;
  /** Where the strip begins: clockwise from 12 o'clock in the impression's sense, degrees about the band's centre. */
  readonly startDeg?: number;
  /** Feet of the letters toward the centre, or toward the rim (then the strip runs against the clock). */
  readonly facing?: 'inward' | 'outward';
  /**
   * Arcs whose letters face two ways, clockwise round the ring: each is laid out in its own sense, after one another from
   * the start on. Then `facing`, `lengthMm` and `overlapMm` say nothing.
   */
  readonly arcs?: readonly FacingArc[];
  /** Length to unroll, mm, for a legend that breaks off; all round unless stated. */
  readonly lengthMm?: number;
  /** Shown again at the end after a full round, mm, so that a word across the start can be read. */
  readonly overlapMm?: number;
}

export const unrollDefaults = { marginMm: 0.4, startDeg: 0, facing: 'inward', overlapMm: 0 } as const;

/** Columns `from` to `to` (not included) of a strip, that run one way round the ring. */
export interface StripPiece {
  readonly facing: 'inward' | 'outward';
  readonly from: number;
  readonly to: number;
}

/** A legend laid out straight: letters upright, readable from left to right, all of one height. */
export interface Strip {
  readonly band: Band;
  /** Which way the letters face; of several arcs those of the first. */
  readonly facing: 'inward' | 'outward';
  /** Stretches of columns that each run one way, in the strip's order; between two there is a gap without data. */
  readonly pieces: readonly StripPiece[];
  /** Heights in the impression's sense; x runs along the middle line from the start, y up the letters, both mm. */
  readonly grid: HeightGrid;
  /** Middle line under each column, impression's sense, mm, and the letters' upward direction there. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly upX: Float64Array;
  readonly upY: Float64Array;
  /** Length of one full round, mm. */
  readonly roundMm: number;
}

/**
 * Unrolls the band of a face: column ↔ arc length along the middle of the letters, row ↔ distance across the band,
 * both in mm at one scale. `relief`: heights in the object's own face frame; an intaglio is turned over first, so that
 * strip and letters read as on the impression. Nothing is ever mirrored to make letters look right.
 */
export function unroll(relief: HeightGrid, band: Band, options: UnrollOptions = {}): Strip {
  const { frame, pitch } = stripFrame(band, relief.pitch, options);
  const surface = readingGrid(band.sense, relief);
  return stripOver(band, frame, pitch, (x, y) => sampleCubic(surface, x, y));
}

/** Where the columns and rows of a strip lie. */
export interface StripFrame {
  readonly facing: 'inward' | 'outward';
  readonly pieces: readonly StripPiece[];
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly upX: Float64Array;
  readonly upY: Float64Array;
  readonly roundMm: number;
  readonly stepMm: number;
  /** Rows reach this far above and below the middle line, mm. */
  readonly aboveMm: number;
  readonly belowMm: number;
}

/** Left bare between two pieces, in letters' heights. */
const betweenPieces = 0.5;

export function stripFrame(
  band: Band,
  gridPitch: number,
  options: UnrollOptions,
): { readonly frame: StripFrame; readonly pitch: number } {
  const { marginMm } = { ...unrollDefaults, ...options };
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const pitch = options.pitchMm ?? Math.min(gridPitch, letterMm / 64);
  const middle = (band.lettersOuterMm + band.lettersInnerMm) / 2;
  const midline = midlineOf(band, pitch);
  const pieces = orderedPieces(midline, band, options);
  const outside = middle - band.outerMm + marginMm;
  const inside = band.innerMm - middle + marginMm;
  const has = (facing: Piece['facing']): boolean => pieces.some((piece) => piece.facing === facing);
  return {
    pitch: midline.stepMm,
    frame: {
      facing: pieces[0].facing,
      ...columnsOf(midline, pieces, Math.round((betweenPieces * letterMm) / midline.stepMm)),
      roundMm: midline.lengthMm,
      stepMm: midline.stepMm,
      aboveMm: Math.max(has('inward') ? outside : 0, has('outward') ? inside : 0),
      belowMm: Math.max(has('inward') ? inside : 0, has('outward') ? outside : 0),
    },
  };
}

function orderedPieces(midline: Midline, band: Band, options: UnrollOptions): Piece[] {
  const { startDeg, facing, overlapMm, arcs = [] } = { ...unrollDefaults, ...options };
  const first = indexAt(midline, band, startDeg);
  if (arcs.length > 1) {
    const ends = arcs.map((arc) => ({ facing: arc.facing, first: indexAt(midline, band, arc.fromDeg) }));
    return piecesOf(ends, first, midline.x.length);
  }
  const columns = Math.round(Math.min(options.lengthMm ?? midline.lengthMm, midline.lengthMm) / midline.stepMm);
  const extra = options.lengthMm === undefined ? Math.round(overlapMm / midline.stepMm) : 0;
  return [{ facing, first, count: columns + extra }];
}

/** Letters with feet toward the rim stand head inward and run against the clock: right and up turn together. */
function columnsOf(line: Midline, pieces: readonly Piece[], gap: number) {
  const n = line.x.length;
  const count = pieces.reduce((sum, piece) => sum + piece.count, 0) + gap * (pieces.length - 1);
  const [x, y, upX, upY] = [0, 0, 0, 0].map(() => new Float64Array(count));
  const laid: StripPiece[] = [];
  let at = 0;
  for (const { facing, first, count } of pieces) {
    const way = facing === 'inward' ? 1 : -1;
    // The gap stands at the last place before it.
    for (const values of [x, y, upX, upY]) if (at > 0) values.fill(values[at - gap - 1], at - gap, at);
    for (let k = 0; k < count; k++) {
      const i = (((first + way * k) % n) + n) % n;
      x[at + k] = line.x[i];
      y[at + k] = line.y[i];
      upX[at + k] = way * line.outX[i];
      upY[at + k] = way * line.outY[i];
    }
    laid.push({ facing, from: at, to: at + count });
    at += count + gap;
  }
  return { x, y, upX, upY, pieces: laid };
}

/** The point of the middle line in this direction from the band's centre. */
function indexAt(line: Midline, band: Band, deg: number): number {
  if (deg % 360 === 0) return 0;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < line.x.length; i++) {
    const off = Math.abs(turnBetween(clockDeg(line.x[i] - band.cx, line.y[i] - band.cy), deg));
    if (off < least) {
      least = off;
      best = i;
    }
  }
  return best;
}

/** Direction clockwise from 12 o'clock, degrees, 0 to 360. */
export const clockDeg = (x: number, y: number): number => ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360;

const turnBetween = (a: number, b: number): number => ((((a - b + 180) % 360) + 360) % 360) - 180;

/** Fills a strip from heights given at (x, y) in the impression's sense, NaN where there are none. */
export function stripOver(
  band: Band,
  frame: StripFrame,
  pitch: number,
  heightAt: (x: number, y: number) => number,
): Strip {
  const width = frame.x.length;
  const height = Math.max(2, Math.round((frame.aboveMm + frame.belowMm) / pitch) + 1);
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  const grid: HeightGrid = { width, height, pitch, left: 0, top: frame.aboveMm, z, mask };
  for (let r = 0; r < height; r++) {
    const up = grid.top - r * pitch;
    for (const { from, to } of frame.pieces)
      for (let c = from; c < to; c++) {
        const value = heightAt(frame.x[c] + up * frame.upX[c], frame.y[c] + up * frame.upY[c]);
        if (Number.isNaN(value)) continue;
        z[r * width + c] = value;
        mask[r * width + c] = 1;
      }
  }
  const { facing, pieces, x, y, upX, upY, roundMm } = frame;
  return { band, facing, pieces, grid, x, y, upX, upY, roundMm };
}

/** A point of the strip on the object: x, y of its own face frame, mm. Column and row may be fractions. */
export function faceFromStrip(strip: Strip, column: number, row: number): [number, number] {
  const last = strip.x.length - 1;
  const c0 = Math.max(0, Math.min(last - 1, Math.floor(column)));
  const t = column - c0;
  const up = strip.grid.top - row * strip.grid.pitch;
  const at = (k: number): [number, number] => [strip.x[k] + up * strip.upX[k], strip.y[k] + up * strip.upY[k]];
  const [ax, ay] = at(c0);
  const [bx, by] = at(Math.min(last, c0 + 1));
  return [readingX(strip.band.sense, ax + t * (bx - ax)), ay + t * (by - ay)];
}

/**
 * Where a point of the object's own face frame, mm, lies on the strip: the nearest point of the middle line gives the column, the
 * distance along the letters' upward direction the row. Null where it is off the strip.
 */
export function stripFromFace(strip: Strip, x: number, y: number): { column: number; row: number } | null {
  const px = readingX(strip.band.sense, x);
  const n = strip.x.length;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let c = 0; c < n; c++) {
    // Distance off the column's own line, so that points far out are matched along the fan of a corner.
    const dx = px - strip.x[c];
    const dy = y - strip.y[c];
    const up = dx * strip.upX[c] + dy * strip.upY[c];
    const side = Math.abs(dx * strip.upY[c] - dy * strip.upX[c]);
    const row = rowOf(strip.grid, up);
    if (row < -0.5 || row > strip.grid.height - 0.5) continue;
    if (side < least) {
      least = side;
      best = c;
    }
  }
  if (least > 2 * strip.grid.pitch) return null;
  const dx = px - strip.x[best];
  const dy = y - strip.y[best];
  const side = (dx * strip.upY[best] - dy * strip.upX[best]) / strip.grid.pitch;
  return { column: best + side, row: rowOf(strip.grid, dx * strip.upX[best] + dy * strip.upY[best]) };
}

/** Place on the seal of a point of the strip, as seals are described. */
export interface SealPlace {
  /** Clockwise from 12 o'clock in the impression's sense, about the face's centre. */
  readonly deg: number;
  /** The same as a clock hour, 0 to 12 (12 o'clock is 0). */
  readonly hour: number;
  readonly radiusMm: number;
  /** Along the band from the strip's start, mm. */
  readonly alongMm: number;
}

export function placeOnSeal(strip: Strip, column: number, row = rowOf(strip.grid, 0)): SealPlace {
  const [x, y] = faceFromStrip(strip, column, row);
  const deg = clockDeg(readingX(strip.band.sense, x), y);
  return { deg, hour: deg / 30, radiusMm: Math.hypot(x, y), alongMm: column * strip.grid.pitch };
}

import { cellAt, type Lattice, stencilAt } from './lattice.ts';
import type { Outline } from './outline.ts';
import { conditionCode, type MarkKind } from './types.ts';

/** A mark as it was made, in the design's plane. */
export interface Mark {
  readonly id: number;
  readonly kind: MarkKind;
  readonly shape: 'line' | 'spot' | 'area';
  /** x, y pairs. */
  readonly path: readonly number[];
  readonly widthMm: number;
  readonly depthMm: number;
  /** Whether the common surface went toward the impression's outside (+1: raised on a positive) or away (−1). */
  readonly up: 1 | -1;
}

/** Displacement at (x, y), mm, written into `out` by adding. */
export type Bend = (x: number, y: number, out: Float64Array) => void;

/**
 * An object as material: the surface over the design's plane with the impression's outside up. A positive's solid lies
 * below it, a negative's above; turning over is thus a matter of which side is looked at, and the plane never mirrored.
 * The material point (x, y) stands at scale · ((x, y, z(x, y)) + Σ bends).
 */
export interface Made {
  readonly lattice: Lattice;
  readonly outline: Outline;
  /** How far the plane goes on beyond the outline before a bevel falls away, mm; 0 of what ends in wax. */
  readonly edgeMm: number;
  /** Distance outside the outline, mm, per cell. */
  readonly outside: Float32Array;
  readonly z: Float32Array;
  /** One code of `conditions` per cell. */
  readonly condition: Uint8Array;
  readonly negative: boolean;
  readonly scale: readonly [number, number, number];
  readonly bends: readonly Bend[];
  readonly marks: readonly Mark[];
  /** 1 where a trimmed or closed object is. */
  readonly piece: Uint8Array;
  readonly thicknessMm: number;
}

const scratch = new Float64Array(3);

/** Where the material point (x, y) with height z stands, before the object is laid anywhere. */
export function placeOf(made: Made, x: number, y: number, z: number, out: Float64Array, at: number): void {
  scratch.fill(0);
  for (const bend of made.bends) bend(x, y, scratch);
  const [sx, sy, sz] = made.scale;
  out[at] = sx * (x + scratch[0]);
  out[at + 1] = sy * (y + scratch[1]);
  out[at + 2] = sz * (z + scratch[2]);
}

/**
 * What became of the surface at (x, y): lost where the height rests on a lost cell at all, sound only where it rests on
 * sound cells alone, else as at the closest cell.
 */
export function conditionAt({ lattice, condition }: Made, x: number, y: number): number {
  const i = stencilAt(lattice, x, y);
  const j = i + lattice.width;
  const four = [condition[i], condition[i + 1], condition[j], condition[j + 1]];
  const { lost, sound } = conditionCode;
  if (four.includes(lost)) return lost;
  const here = condition[cellAt(lattice, x, y)];
  return here === sound ? (four.find((code) => code !== sound) ?? sound) : here;
}

/** Whether the piece carries the whole height at (x, y). */
export function onPiece({ lattice, piece }: Made, x: number, y: number): boolean {
  const i = stencilAt(lattice, x, y);
  const j = i + lattice.width;
  return (piece[i] & piece[i + 1] & piece[j] & piece[j + 1]) === 1;
}

/// <reference path="./wasm.d.ts" />
import type { PlacedPicture } from './form.ts';
import bytes from './ghosts.wasm';
import { hasRoom, instantiate, type KernelMemory } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  agreement(
    cellsAt: number,
    count: number,
    every: number,
    width: number,
    height: number,
    pitch: number,
    left: number,
    top: number,
    dx: number,
    dy: number,
    cos: number,
    sin: number,
    weaker: number,
    clear: number,
  ): number;
}

/** Cells that are looked at. */
export interface GhostCells {
  /** What stands up there, mm. */
  readonly excess: Float32Array;
  /** Where each lies, mm, and the height over its ground, above which a ghost must rise. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly height: Float64Array;
}

/** How a ghost lies beside the relief, mm and degrees counter-clockwise. */
export interface GhostWay {
  readonly dx: number;
  readonly dy: number;
  readonly turnDeg: number;
}

/** What a ghost has of the relief's height, and how far it must rise over a cell, mm. */
export interface GhostHeight {
  readonly weaker: number;
  readonly clear: number;
}

/** Correlation e·p / √(e·e p·p) of excess and ghost over every so-manyth cell, 0 to 1. */
export type GhostAgreements = (way: GhostWay, every: number) => number;

// The same number stands in assembly/ghosts.ts.
const heightsAt = 1024;

/** `relief`: heights over its ground, mm. Null where there is no WebAssembly, or no memory for it. */
export function ghostAgreements(
  { width, height, pitch, left, top, z, mask }: PlacedPicture,
  cells: GhostCells,
  { weaker, clear }: GhostHeight,
): GhostAgreements | null {
  const kernel = instantiate<Exports>(bytes);
  const count = cells.x.length;
  const cellsAt = 8 * Math.ceil((heightsAt + 5 * z.length) / 8);
  if (!kernel || !hasRoom(kernel.memory, cellsAt + 32 * count)) return null;
  const { buffer } = kernel.memory;
  new Float32Array(buffer, heightsAt, z.length).set(z);
  new Uint8Array(buffer, heightsAt + 4 * z.length, mask.length).set(mask);
  layCells(new Float64Array(buffer, cellsAt, 4 * count), cells);
  return ({ dx, dy, turnDeg }, every) => {
    const turn = (turnDeg * Math.PI) / 180;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    return kernel.agreement(cellsAt, count, every, width, height, pitch, left, top, dx, dy, cos, sin, weaker, clear);
  };
}

function layCells(laid: Float64Array, { x, y, height, excess }: GhostCells): void {
  for (let k = 0; k < x.length; k++) {
    laid[4 * k] = x[k];
    laid[4 * k + 1] = y[k];
    laid[4 * k + 2] = height[k];
    laid[4 * k + 3] = excess[k];
  }
}

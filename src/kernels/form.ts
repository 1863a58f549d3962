/// <reference path="./wasm.d.ts" />
import bytes from './form.wasm';
import type { MaskedPicture } from './gaussian.ts';
import { type KeptKernel, type KernelMemory, kernelWithRoom, pageBytes } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  sample(
    width: number,
    height: number,
    stride: number,
    left: number,
    top: number,
    pitch: number,
    cx: number,
    cy: number,
    radius: number,
  ): number;
  weigh(terms: number, tukey: number, sigmaFromMad: number): number;
  equations(terms: number, weighted: number): void;
  remove(
    width: number,
    height: number,
    fromRow: number,
    toRow: number,
    terms: number,
    left: number,
    top: number,
    pitch: number,
  ): void;
}

/** A picture whose cell (row, col) is centred at x = left + col · pitch, y = top − row · pitch. */
export interface PlacedPicture extends MaskedPicture {
  readonly left: number;
  readonly top: number;
  readonly pitch: number;
}

/** Cells of a picture to fit a form to: as (x − cx)/R, (y − cy)/R and height. */
export interface FormCells {
  readonly count: number;
  /** Weights of Huber, or of Tukey, about the form of these coefficients; false where it is exact already. */
  weigh(coefficients: Float64Array, tukey: boolean): boolean;
  /** Matrix of the normal equations, row after row and below the diagonal alone, and their right side. */
  equations(terms: number, weighted: boolean): { readonly normal: Float64Array; readonly right: Float64Array };
}

/** How many cells apart, and in which frame. */
export interface FormSampling {
  readonly stride: number;
  readonly cx: number;
  readonly cy: number;
  readonly radius: number;
}

// Where things stand in the memory: the same numbers stand in assembly/form.ts.
const formAt = 1024;
const rightAt = 1088;
const normalAt = 1152;
const mostSampled = 16_384;
const reliefAt = pageBytes + 5 * 8 * mostSampled;

const kept: KeptKernel<Exports> = { bytes, mostKept: 16_000_000, kernel: null };

function layOut({ memory: { buffer } }: Exports, { z, mask }: MaskedPicture): Float32Array {
  const heights = new Float32Array(buffer, reliefAt, z.length);
  heights.set(z);
  new Uint8Array(buffer, reliefAt + 4 * z.length, mask.length).set(mask);
  return heights;
}

/** Good until the next picture is laid out; null where there is no WebAssembly, or where it is too much for the kernel. */
export function formCells(
  picture: PlacedPicture,
  { stride, cx, cy, radius }: FormSampling,
  sigmaFromMad: number,
): FormCells | null {
  const { width, height, left, top, pitch } = picture;
  if (Math.ceil(width / stride) * Math.ceil(height / stride) > mostSampled) return null;
  const kernel = kernelWithRoom(kept, reliefAt + 5 * width * height + 16);
  if (!kernel) return null;
  layOut(kernel, picture);
  const count = kernel.sample(width, height, stride, left, top, pitch, cx, cy, radius);
  const { buffer } = kernel.memory;
  return {
    count,
    weigh(coefficients, tukey) {
      new Float64Array(buffer, formAt).set(coefficients);
      return kernel.weigh(coefficients.length, tukey ? 1 : 0, sigmaFromMad) === 1;
    },
    equations(terms, weighted) {
      kernel.equations(terms, weighted ? 1 : 0);
      return {
        normal: new Float64Array(buffer, normalAt, terms * terms).slice(),
        right: new Float64Array(buffer, rightAt, terms).slice(),
      };
    },
  };
}

/** Heights less the form, 0 where there is no data; null where there is no WebAssembly. */
export function withoutForm(picture: PlacedPicture, coefficients: Float64Array): Float32Array | null {
  const { width, height, left, top, pitch } = picture;
  const kernel = kernelWithRoom(kept, reliefAt + 5 * width * height + 16);
  if (!kernel) return null;
  const heights = layOut(kernel, picture);
  new Float64Array(kernel.memory.buffer, formAt).set(coefficients);
  for (let row = 0; row < height; row += 64)
    kernel.remove(width, height, row, Math.min(height, row + 64), coefficients.length, left, top, pitch);
  return heights.slice();
}

/// <reference path="./wasm.d.ts" />
import bytes from './turnedCorrelation.wasm';
import { hasRoom, instantiate, type KernelMemory } from './webAssembly.ts';

/** A square picture, row-major. */
export interface SquareArrays {
  readonly size: number;
  readonly value: Float32Array;
}

interface Exports {
  readonly memory: KernelMemory;
  take(side: number, planes: number, waves: number, signals: number, size: number): void;
  takeReference(): void;
  correlate(cos: number, sin: number): void;
}

// Where things stand in the memory: the same number stands in assembly/turnedCorrelation.ts.
const outAt = 1024;
const dataAt = 65_536;
const padding = 16;

/**
 * Lays two signals out in a kernel of its own, for transforms of side n (a multiple of 16, a power of two); null where there is no
 * WebAssembly, or no memory for it. The function it gives takes cosine and sine over the size, and leaves in `out`: greatest real part and its place,
 * least real part and its place, the same of the imaginary part, and the root energy of the turned signal.
 */
export function turnedCorrelationKernel(
  reference: SquareArrays,
  subject: SquareArrays,
  n: number,
): { readonly out: Float64Array; correlate(cos: number, sin: number): void } | null {
  const kernel = n % 16 === 0 ? instantiate<Exports>(bytes) : null;
  const row = n + padding;
  const planes = dataAt;
  const waves = planes + 4 * 4 * row * n;
  const signals = waves + 4 * n;
  const end = signals + 2 * 4 * subject.size ** 2;
  if (!kernel || !hasRoom(kernel.memory, end)) return null;
  const { buffer } = kernel.memory;
  kernel.take(n, planes, waves, signals, subject.size);
  const angles = Array.from({ length: n / 2 }, (_, k) => (2 * Math.PI * k) / n);
  new Float32Array(buffer, waves, n).set([...angles.map(Math.cos), ...angles.map(Math.sin)]);
  new Float32Array(buffer, signals, subject.size ** 2).set(subject.value);
  const plane = new Float32Array(buffer, planes, row * n);
  for (let r = 0; r < reference.size; r++)
    plane.set(reference.value.subarray(r * reference.size, (r + 1) * reference.size), r * row);
  kernel.takeReference();
  return { out: new Float64Array(buffer, outAt, 9), correlate: kernel.correlate };
}

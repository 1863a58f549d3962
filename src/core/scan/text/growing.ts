/** A copy of `array` with room for at least `needed` values, at least twice as long: appending stays linear in time. */
export function grownFloat64(array: Float64Array, needed: number): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(Math.max(needed, array.length * 2, 1024));
  larger.set(array);
  return larger;
}

/** The same for whole numbers. */
export function grownUint32(array: Uint32Array, needed: number): Uint32Array<ArrayBuffer> {
  const larger = new Uint32Array(Math.max(needed, array.length * 2, 1024));
  larger.set(array);
  return larger;
}

/** Plain JSON for results that hold typed arrays and NaN. */
interface Packed {
  readonly floats: ReadonlyArray<number | null>;
}

export function toPlain(value: unknown): unknown {
  if (value instanceof Float64Array || value instanceof Float32Array)
    return {
      floats: Array.from(value, (one) => (Number.isFinite(one) ? Number(one.toPrecision(9)) : null)),
    } satisfies Packed;
  if (typeof value === 'number') return Number.isFinite(value) ? value : null;
  if (Array.isArray(value)) return value.map(toPlain);
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, toPlain(one)]));
  return value;
}

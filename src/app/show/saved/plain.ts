/** Plain JSON for results that hold typed arrays and NaN, and back. */
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

export function fromPlain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(fromPlain);
  if (value === null || typeof value !== 'object') return value;
  const { floats } = value as Partial<Packed>;
  if (Array.isArray(floats)) return Float64Array.from(floats, (one) => one ?? Number.NaN);
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, fromPlain(one)]));
}

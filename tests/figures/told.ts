/**
 * Every figure of a result, one line each: `judgement.score 4.123`. Numbers to five figures, so that another order of summing
 * passes and a slip does not. Long rows of numbers as their length, how many are finite, and three sums that see a sign, a
 * scale and an order; long lists of alike things column by column; what stands in a result twice, once.
 */
export function told(value: unknown, path = '', seen = new Set<unknown>()): string[] {
  if (typeof value === 'number') return [`${path} ${rounded(value)}`];
  if (typeof value === 'function' || value === undefined || seen.has(value)) return [];
  if (value === null || typeof value !== 'object') return [`${path} ${String(value)}`];
  seen.add(value);
  if (ArrayBuffer.isView(value)) return [`${path} ${summed(Array.from(value as Float64Array))}`];
  if (Array.isArray(value) && value.length > 8) return toldOfList(value, path, seen);
  return Object.entries(value).flatMap(([key, part]) => told(part, path ? `${path}.${key}` : key, seen));
}

function toldOfList(list: readonly unknown[], path: string, seen: Set<unknown>): string[] {
  if (list.every((part) => typeof part === 'number')) return [`${path} ${summed(list as number[])}`];
  if (list.every(isRow))
    return toldOfList(
      list.flatMap((row) => Array.from(row)),
      path,
      seen,
    );
  if (list.every((part) => part === null || typeof part !== 'object')) return [`${path} ${counted(list)}`];
  const keys = [...new Set(list.flatMap((part) => Object.keys(part ?? {})))];
  return keys.flatMap((key) => {
    const column = list.map((part) => (part as Record<string, unknown> | null)?.[key]);
    return toldOfList(column, `${path}[].${key}`, seen);
  });
}

const isRow = (value: unknown): value is ArrayLike<unknown> => Array.isArray(value) || ArrayBuffer.isView(value);

/** How often each value stands in a list, with the sum of its places: `true×8 (31), false×12 (47)`. */
function counted(list: readonly unknown[]): string {
  const places = new Map<string, number[]>();
  for (const [k, value] of list.entries()) {
    const word = typeof value === 'number' ? rounded(value) : String(value);
    places.set(word, [...(places.get(word) ?? []), k]);
  }
  return [...places].map(([value, at]) => `${value}×${at.length} (${at.reduce((a, b) => a + b, 0)})`).join(', ');
}

const rounded = (value: number): string => {
  if (!Number.isFinite(value)) return String(value);
  return Math.abs(value) < 1e-9 ? '0' : String(Number(value.toPrecision(5)));
};

function summed(values: readonly number[]): string {
  const finite = values.filter((value) => Number.isFinite(value));
  const sum = finite.reduce((a, b) => a + b, 0);
  const squares = finite.reduce((a, b) => a + b * b, 0);
  // The place weighs from −1 to 1: two rows exchanged, or one shifted, is another sum.
  const placed = values.reduce((a, b, k) => (Number.isFinite(b) ? a + b * ((2 * k) / values.length - 1) : a), 0);
  return `${values.length} long, ${finite.length} finite: ${[sum, squares, placed].map(rounded).join(', ')}`;
}

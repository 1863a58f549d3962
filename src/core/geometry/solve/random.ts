/** A seeded source of chance: the only one the core knows. */
export interface Random {
  /** Uniform in [0, 1). */
  next(): number;
  /** Uniform in [low, high). */
  between(low: number, high: number): number;
  /** Whole number in [0, count). */
  below(count: number): number;
  /** Normal, mean 0, standard deviation 1. */
  normal(): number;
  pick<T>(items: readonly T[]): T;
}

/**
 * Mulberry32: 32-bit state, period 2³², enough for samples and simulations here and the same on every machine.
 * Source: the public-domain generator of that name, T. Ettinger 2017 (from memory).
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
  const below = (count: number): number => Math.floor(next() * count);
  return {
    next,
    between: (low, high) => low + next() * (high - low),
    below,
    // Box and Muller; 1 − u keeps the logarithm finite.
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    pick: (items) => items[below(items.length)],
  };
}

/** A seeded source of chance that splits into named branches, so that one part of a pair can be redrawn and no other. */
export interface Chance {
  /** Uniform in [0, 1). */
  unit(): number;
  range(low: number, high: number): number;
  /** Uniform in the logarithm. */
  logRange(low: number, high: number): number;
  /** Whole number in [0, count). */
  whole(count: number): number;
  /** Normal, mean 0, standard deviation 1. */
  gauss(): number;
  choose<T>(items: readonly T[]): T;
  yes(probability: number): boolean;
  /** The same branch of the same seed is the same sequence, whatever was drawn before. */
  branch(name: string): Chance;
}

/** Small fast counting generator, 128-bit state (C. Doty-Humphrey's, public domain, from memory). */
export function chanceOf(name: string): Chance {
  const word = textHash(name);
  let a = word(1);
  let b = word(2);
  let c = word(3);
  let counter = 1;
  const unit = (): number => {
    const t = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + t;
    c |= 0;
    return (t >>> 0) / 4_294_967_296;
  };
  for (let i = 0; i < 15; i++) unit();
  const range = (low: number, high: number): number => low + unit() * (high - low);
  const whole = (count: number): number => Math.floor(unit() * count);
  return {
    unit,
    range,
    logRange: (low, high) => Math.exp(range(Math.log(low), Math.log(high))),
    whole,
    gauss: polarGauss(unit),
    choose: (items) => items[whole(items.length)],
    yes: (probability) => unit() < probability,
    branch: (child) => chanceOf(`${name}/${child}`),
  };
}

/** Marsaglia's polar method; both numbers are used. */
function polarGauss(unit: () => number): () => number {
  let kept = Number.NaN;
  return () => {
    if (!Number.isNaN(kept)) {
      const value = kept;
      kept = Number.NaN;
      return value;
    }
    for (;;) {
      const x = 2 * unit() - 1;
      const y = 2 * unit() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      kept = y * factor;
      return x * factor;
    }
  };
}

/** 32-bit words out of a name: FNV-1a, salted, then mixed. */
function textHash(name: string): (salt: number) => number {
  return (salt) => {
    let h = 0x811c9dc5 ^ Math.imul(salt, 0x9e3779b1);
    for (let i = 0; i < name.length; i++) h = Math.imul(h ^ name.charCodeAt(i), 0x01000193);
    h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
    return h ^ (h >>> 13);
  };
}

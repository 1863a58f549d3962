import type { Random } from '../../src/core/geometry/index.ts';
import { roughField } from './chance.ts';
import { depthInside, type Ring } from './outline.ts';

/** What is left of a broken face: a test, and a point from which all of it can be seen. */
export interface Remains {
  readonly kept: (x: number, y: number) => boolean;
  readonly centre: readonly [number, number];
  readonly kind: 'none' | 'chord' | 'wedge' | 'bite';
}

/**
 * Breaks a piece off so that `coverage` of the outline's area is left: a chord, a wedge with its point near the
 * centre, or a bite from the rim, with a rough broken edge. The amount is found by halving.
 */
export function breakOff(outline: Ring, sizeMm: number, coverage: number, random: Random): Remains {
  if (coverage >= 0.995) return { kept: () => true, centre: [0, 0], kind: 'none' };
  const kind = random.pick(
    coverage > 0.75
      ? (['chord', 'wedge', 'bite'] as const)
      : coverage > 0.55
        ? (['chord', 'wedge'] as const)
        : (['chord'] as const),
  );
  const angle = random.between(0, 2 * Math.PI);
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const rough = roughField(random, sizeMm * 0.12, 4, 0.55);
  const roughMm = sizeMm * 0.025;
  const wander = random.between(-0.12, 0.12) * sizeMm;
  const samples = sunflower(outline, sizeMm);
  const test =
    (amount: number) =>
    (x: number, y: number): boolean => {
      const u = c * x + s * y + roughMm * rough(x, y);
      const v = c * y - s * x;
      if (kind === 'chord') return u < amount;
      if (kind === 'bite') return Math.hypot(u - 0.5 * sizeMm, v - wander) > sizeMm * 0.75 - amount;
      return (
        Math.abs(Math.atan2(v + 0.4 * roughMm * rough(y, x), u - 0.1 * sizeMm)) > Math.PI * (0.5 - amount / sizeMm)
      );
    };
  let low = -0.75 * sizeMm;
  let high = 0.75 * sizeMm;
  for (let step = 0; step < 24; step++) {
    const middle = (low + high) / 2;
    const kept = test(middle);
    let count = 0;
    for (let i = 0; i < samples.length; i += 2) if (kept(samples[i], samples[i + 1])) count++;
    if (count / (samples.length / 2) < coverage) low = middle;
    else high = middle;
  }
  const kept = test(high);
  return { kept, centre: deepest(samples, kept, c, s), kind };
}

function sunflower(outline: Ring, sizeMm: number): Float64Array {
  const points: number[] = [];
  for (let i = 0; i < 2500; i++) {
    const r = 0.55 * sizeMm * Math.sqrt((i + 0.5) / 2500);
    const x = r * Math.cos(2.399963 * i);
    const y = r * Math.sin(2.399963 * i);
    if (depthInside(outline, x, y) > 0) points.push(x, y);
  }
  return Float64Array.from(points);
}

/** A point well away from the break: the mean of what is kept, moved against the break's direction. */
function deepest(
  samples: Float64Array,
  kept: (x: number, y: number) => boolean,
  c: number,
  s: number,
): [number, number] {
  let x = 0;
  let y = 0;
  let n = 0;
  let farthest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < samples.length; i += 2) {
    if (!kept(samples[i], samples[i + 1])) continue;
    x += samples[i];
    y += samples[i + 1];
    n++;
    farthest = Math.min(farthest, c * samples[i] + s * samples[i + 1]);
  }
  const along = (c * x + s * y) / n;
  const move = 0.35 * (farthest - along);
  return [x / n + c * move, y / n + s * move];
}

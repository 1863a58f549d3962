import type { Chance } from './chance.ts';
import type { Made } from './made.ts';
import { conditionCode } from './types.ts';
import { type Counter, marked } from './wounds.ts';

/**
 * Breaks pieces off until `left` of the image stays: one or two edges, straight in the large and broken by midpoint
 * displacement down to 0.3 mm. The broken ground lies at the table.
 */
export function breakOff(object: Made, left: number, chance: Chance, counter: Counter): Made {
  if (left > 0.985) return object;
  const z = object.z.slice();
  const condition = object.condition.slice();
  const piece = object.piece.slice();
  let out: Made = { ...object, z, condition, piece };
  const parts = left < 0.7 && chance.yes(0.5) ? 2 : 1;
  const first = chance.range(0, 2 * Math.PI);
  for (let k = 0; k < parts; k++) {
    const share = left ** (1 / parts);
    const angle = first + k * chance.range(1.2, 3.2);
    const bound = breakEdge(out, angle, share, chance.branch(`edge ${k}`));
    let deepest = 0;
    const { width, height, pitch, left: x0, bottom } = object.lattice;
    for (let row = 0, i = 0; row < height; row++)
      for (let column = 0; column < width; column++, i++) {
        if (bound(x0 + column * pitch, bottom + row * pitch) <= 0) continue;
        if (object.outside[i] <= 0) condition[i] = conditionCode.lost;
        piece[i] = 0;
        deepest = object.thicknessMm;
        z[i] = object.negative ? object.thicknessMm : -object.thicknessMm;
      }
    const c = bound.offset;
    const path = [c * Math.sin(angle), c * Math.cos(angle)];
    out = marked(out, counter, { kind: 'break', shape: 'area', path, widthMm: 0, depthMm: deepest, up: -1 });
  }
  return out;
}

/** Positive where the piece is gone; the offset leaves `share` of the image that is there now. */
function breakEdge(object: Made, angle: number, share: number, chance: Chance) {
  const reach = 1.6 * object.outline.halfHeight + 8;
  const fractal = midpointLine(reach, chance.range(0.04, 0.12), chance);
  const signed = (x: number, y: number): number =>
    x * Math.sin(angle) + y * Math.cos(angle) - fractal(x * Math.cos(angle) - y * Math.sin(angle));
  const { width, height, pitch, left, bottom } = object.lattice;
  const values: number[] = [];
  for (let row = 0; row < height; row += 5)
    for (let column = 0; column < width; column += 5) {
      const i = row * width + column;
      if (object.outside[i] <= 0 && object.condition[i] !== conditionCode.lost)
        values.push(signed(left + column * pitch, bottom + row * pitch));
    }
  const sorted = Float64Array.from(values).sort();
  const offset = sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0;
  return Object.assign((x: number, y: number): number => signed(x, y) - offset, { offset });
}

function midpointLine(reach: number, roughness: number, chance: Chance): (t: number) => number {
  let values = [0, 0];
  let step = 2 * reach;
  while (step > 0.3) {
    const next: number[] = [];
    for (let i = 0; i < values.length - 1; i++)
      next.push(values[i], (values[i] + values[i + 1]) / 2 + roughness * step ** 0.85 * chance.gauss());
    next.push(values[values.length - 1]);
    values = next;
    step /= 2;
  }
  return (t) => {
    const at = Math.min(values.length - 1.001, Math.max(0, (t + reach) / step));
    const i = Math.floor(at);
    return values[i] + (at - i) * (values[i + 1] - values[i]);
  };
}

import { chanceFor, roughField, smoothField } from './chance.ts';
import { chatterSeed, type Design } from './design.ts';
import { engraver } from './engraver.ts';
import { eachCell, emptyField, type Field } from './field.ts';

/** An engraved die: depth below the face plane, mm, over the design plane in the impression's sense. */
export interface Die {
  readonly design: Design;
  readonly depth: Field;
}

/** Margin of the field beyond the die's outline, mm. */
export const fieldMarginMm = 1;

/**
 * Cuts a design. `handSeed` fixes everything that the hand adds: tool marks, the face's unevenness from filing, the
 * fine polishing lines. The same design with another `handSeed` is another die.
 */
export function engrave(design: Design, handSeed: number, pitchMm: number): Die {
  let halfWidth = 0;
  let halfHeight = 0;
  for (let i = 0; i < design.outline.length; i += 2) {
    halfWidth = Math.max(halfWidth, Math.abs(design.outline[i]));
    halfHeight = Math.max(halfHeight, Math.abs(design.outline[i + 1]));
  }
  const depth = emptyField(halfWidth + fieldMarginMm, halfHeight + fieldMarginMm, pitchMm);
  const tool = engraver(depth);
  design.cuts.forEach((cut, index) => {
    tool.cut(cut, chatterSeed(handSeed, index));
  });
  finishFace(depth, design.sizeMm, handSeed);
  return { design, depth };
}

function finishFace(depth: Field, sizeMm: number, handSeed: number): void {
  const filed = filedFace(sizeMm, handSeed);
  eachCell(depth, (index, x, y) => {
    depth.z[index] += filed(x, y);
  });
}

/** How the face lies before it is cut, mm: filing leaves it a little domed and uneven; polishing leaves lines of a few micrometres. */
export function filedFace(sizeMm: number, handSeed: number): (x: number, y: number) => number {
  const random = chanceFor(handSeed, 'face');
  const uneven = smoothField(random, sizeMm * 0.3);
  const grain = roughField(random, 0.7, 2, 0.6);
  const dome = (random.between(-0.05, 0.12) * 4) / (sizeMm * sizeMm);
  const tilt = random.between(0, Math.PI);
  const c = Math.cos(tilt);
  const s = Math.sin(tilt);
  const unevenMm = random.between(0.015, 0.05);
  const grainMm = random.between(0.004, 0.01);
  return (x, y) => {
    // Lines run along one direction: the grain is stretched fivefold along it.
    const u = (c * x + s * y) * 0.25;
    const v = (c * y - s * x) * 1.3;
    return unevenMm * uneven(x, y) + grainMm * grain(u, v) + dome * (x * x + y * y);
  };
}

import type { HeightGrid } from '../../geometry/index.ts';
import { type Lamp, light } from '../../read/index.ts';
import type { Picture } from '../drawing/index.ts';
import { lampWords } from '../words/index.ts';

/**
 * The lamps of every plate: the chief one from the upper left, as seals have long been drawn and photographed, and a
 * weak one across it, without which a stroke that runs toward the first would not be seen.
 */
export const plateLamps = [
  { azimuthDeg: 315, heightDeg: 35 },
  { azimuthDeg: 50, heightDeg: 35, strength: 0.35 },
] as const satisfies readonly Lamp[];
/** Grey of the level field under those lamps. */
export const fieldGrey = 150;

/** The lamps in a caption's words. */
export const lampPhrase = `lit from ${plateLamps.map((lamp) => lampWords(lamp)).join(' and from ')} (azimuth clockwise from the top of the picture, height above the face plane)`;

/** What is drawn on a picture of a relief: it stays what it is, on a dark page too. */
export const onRelief = { ink: '#1d1a15', halo: '#ffffff', stroke: '#8a2f1c' } as const;

/** A relief under the plates' lamps: the relief, its grey values, 0 to 255, and the picture of them. */
export interface LitRelief {
  readonly grid: HeightGrid;
  readonly grey: Uint8ClampedArray;
  readonly picture: Picture;
}

export function lit(grid: HeightGrid): LitRelief {
  const { grey } = light(grid, plateLamps, { fieldGrey });
  return { grid, grey, picture: litPicture(grid, grey) };
}

/** The lit relief as a picture, clear where there is no data and half clear along the edge. */
function litPicture(grid: HeightGrid, grey: Uint8ClampedArray): Picture {
  const { width, height, mask } = grid;
  const data = new Uint8Array(2 * grey.length);
  for (let i = 0; i < grey.length; i++) {
    if (!mask[i]) continue;
    const neighbours = mask[i - 1] + mask[i + 1] + (mask[i - width] ?? 0) + (mask[i + width] ?? 0);
    data[2 * i] = grey[i];
    data[2 * i + 1] = neighbours === 4 ? 255 : 80 + 44 * neighbours;
  }
  return { width, height, channels: 2, data };
}

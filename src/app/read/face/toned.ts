import { rgb } from '../../look/rgb.ts';
import type { Tones } from '../../scene/Painter.tsx';

export interface Grey {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8ClampedArray;
  readonly mask: Uint8Array;
}

/** Grey 0 to 255 in the tone in which the seals are printed, from its dark to its light end; clear where there is no data. */
export function toned({ width, height, grey, mask }: Grey, tones: Pick<Tones, 'dark' | 'light'>): ImageData {
  const [low, high] = [rgb(tones.dark), rgb(tones.light)];
  const image = new ImageData(width, height);
  const ramp = new Uint32Array(256);
  const bytes = new Uint8ClampedArray(ramp.buffer);
  for (let g = 0; g < 256; g++) {
    for (let c = 0; c < 3; c++) bytes[4 * g + c] = 255 * (low[c] + ((high[c] - low[c]) * g) / 255);
    bytes[4 * g + 3] = 255;
  }
  const cells = new Uint32Array(image.data.buffer);
  for (let i = 0; i < cells.length; i++) cells[i] = mask[i] ? ramp[grey[i]] : 0;
  return image;
}

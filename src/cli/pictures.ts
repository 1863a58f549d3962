import { encode } from 'fast-png';
import type { LitPicture } from '../core/read/index.ts';

/** Grey PNG; the caption with its angles goes into the file as text. */
export function pngOf({ width, height, grey, caption }: LitPicture): Uint8Array {
  const data = new Uint8Array(grey.buffer, grey.byteOffset, grey.length);
  const text = { Description: caption.replaceAll('°', ' degrees') };
  return encode({ width, height, data, channels: 1, depth: 8, text });
}

/** "face.png" → "face-003.png". */
export const numbered = (path: string, k: number): string =>
  path.replace(/(\.png)?$/i, `-${String(k).padStart(3, '0')}.png`);

/** Strips of one width, one under another with a narrow gap. */
export function underOneAnother(pictures: readonly LitPicture[]): LitPicture {
  const gap = pictures.length > 1 ? 6 : 0;
  const width = Math.max(...pictures.map((picture) => picture.width));
  const height = pictures.reduce((sum, picture) => sum + picture.height + gap, -gap);
  const grey = new Uint8ClampedArray(width * height).fill(255);
  let top = 0;
  for (const picture of pictures) {
    for (let row = 0; row < picture.height; row++)
      grey.set(picture.grey.subarray(row * picture.width, (row + 1) * picture.width), (top + row) * width);
    top += picture.height + gap;
  }
  return { width, height, grey, caption: pictures.map((picture) => picture.caption).join(' ') };
}

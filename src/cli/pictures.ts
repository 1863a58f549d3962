import { encode } from 'fast-png';
import type { LitPicture } from '../core/read/index.ts';
import { pictureWords } from '../core/report/words/index.ts';

/** Grey PNG; the caption with its angles goes into the file as text. */
export function pngOf({ width, height, grey, shown }: LitPicture): Uint8Array {
  const data = new Uint8Array(grey.buffer, grey.byteOffset, grey.length);
  const text = { Description: pictureWords(shown).replaceAll('°', ' degrees') };
  return encode({ width, height, data, channels: 1, depth: 8, text });
}

/** "face.png" → "face-003.png". */
export const numbered = (path: string, k: number): string =>
  path.replace(/(\.png)?$/i, `-${String(k).padStart(3, '0')}.png`);

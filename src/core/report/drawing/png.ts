import { encode } from 'fast-png';
import type { Drawing } from './drawing.ts';
import { toSvg } from './svg.ts';

/** Red, green, blue and opacity, row 0 at the top. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
}

/** Paints an SVG so many pixels across. Who calls the core gives it, since it brings typefaces and compiled code. */
export type Rasterise = (svg: string, pixelsAcross: number) => Pixels;

/** The drawing as PNG on paper, red, green and blue. `caption` stands inside the file as its description. */
export function toPng(drawing: Drawing, rasterise: Rasterise, pixelsAcross = 900, caption = drawing.title): Uint8Array {
  const { width, height, rgba } = rasterise(toSvg(drawing, { paper: true }), pixelsAcross);
  const data = new Uint8Array(width * height * 3);
  for (let i = 0, at = 0; at < data.length; i += 4, at += 3) {
    data[at] = rgba[i];
    data[at + 1] = rgba[i + 1];
    data[at + 2] = rgba[i + 2];
  }
  const text = { Description: plainLatin(caption) };
  return encode({ width, height, channels: 3, depth: 8, data, text }, { zlib: { level: 1 } });
}

/** A PNG's text is ISO 8859-1 of at most one paragraph. */
const plainLatin = (text: string): string =>
  text
    .replaceAll('−', '-')
    .replaceAll(/[–—]/g, '-')
    .replaceAll(/[“”]/g, '"')
    .replaceAll('’', "'")
    .replaceAll('\u202f', ' ')
    .replaceAll(/[^\x20-\x7e\xa0-\xff]/g, '?');

import { type Drawing, type PictureMark, paperTones } from './drawing.ts';
import { layPicture } from './layPicture.ts';
import { toSvg } from './svg.ts';
import { type Deflate, writePng } from './writePng.ts';

/** Red, green, blue, each times its opacity, and opacity; row 0 at the top. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
}

/** Paints an SVG so many pixels across. Who calls the core gives it, since it brings typefaces and compiled code. */
export type Rasterise = (svg: string, pixelsAcross: number) => Pixels;

/**
 * The drawing as PNG on paper, red, green and blue. `caption` stands inside the file as its description. Pictures under all other marks
 * are laid here: an SVG's painter would be handed them packed, and samples them ten times as slowly (docs/tried/speed.md).
 */
export function toPng(
  drawing: Drawing,
  rasterise: Rasterise,
  pixelsAcross = 900,
  caption = drawing.title,
  deflate?: Deflate,
): Uint8Array {
  const under = picturesUnder(drawing.marks);
  const marks = drawing.marks.slice(under.length);
  const painted = rasterise(toSvg({ ...drawing, marks }, { paper: true, clear: true }), pixelsAcross);
  const { width, height } = painted;
  const rgb = paperSheet(width * height);
  for (const picture of under) layPicture({ width, height, rgb }, picture, width / drawing.width);
  layOver(rgb, painted.rgba);
  return writePng({ width, height, channels: 3, data: rgb, description: plainLatin(caption) }, deflate);
}

function picturesUnder(marks: Drawing['marks']): PictureMark[] {
  const under: PictureMark[] = [];
  for (const mark of marks) {
    if (mark.kind !== 'picture') break;
    under.push(mark);
  }
  return under;
}

function paperSheet(pixels: number): Uint8Array {
  const paper = Number.parseInt(paperTones.paper.slice(1), 16);
  const rgb = new Uint8Array(3 * pixels);
  for (let at = 0; at < rgb.length; at += 3) {
    rgb[at] = paper >> 16;
    rgb[at + 1] = (paper >> 8) & 255;
    rgb[at + 2] = paper & 255;
  }
  return rgb;
}

/** Lays pixels, their colours times their opacity, over others: c + (1 − opacity) · under. */
function layOver(rgb: Uint8Array, over: Uint8Array): void {
  for (let i = 0, at = 0; at < rgb.length; i += 4, at += 3) {
    if (over[i + 3] === 0) continue;
    const under = 255 - over[i + 3];
    rgb[at] = over[i] + Math.round((under * rgb[at]) / 255);
    rgb[at + 1] = over[i + 1] + Math.round((under * rgb[at + 1]) / 255);
    rgb[at + 2] = over[i + 2] + Math.round((under * rgb[at + 2]) / 255);
  }
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

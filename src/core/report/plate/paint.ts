import { encode } from 'fast-png';
import { base64 } from '../drawing/base64.ts';
import { type Picture, type Rasterise, toSvg } from '../drawing/index.ts';
import type { PlacedPicture } from './litDots.ts';
import { pngResolution } from './pngResolution.ts';
import type { PrintPlate } from './printPlate.ts';
import { writeTiff } from './writeTiff.ts';

/** Ends of names that a plate can be written under. */
export const plateFormats = ['png', 'tif', 'tiff', 'svg'] as const;
export type PlateFormat = (typeof plateFormats)[number];

/** The plate as a file: grey, 8 bits a dot, with its resolution; SVG with the pictures inside and its size in mm. */
export function paintPlate(plate: PrintPlate, format: PlateFormat, rasterise: Rasterise): Uint8Array | string {
  if (format === 'svg') return plateSvg(plate);
  const { width, height, grey } = paintDots(plate, rasterise);
  if (format !== 'png') return writeTiff({ width, height, grey, dpi: plate.dpi, description: plate.caption });
  return pngResolution(encode({ width, height, channels: 1, depth: 8, data: grey }), plate.dpi);
}

/** Paper, bars and words as the rasteriser paints them; the pictures dot by dot, so that nothing samples them again. */
export function paintDots(plate: PrintPlate, rasterise: Rasterise) {
  const across = Math.round((plate.drawing.width * plate.dpi) / 72);
  const { width, height, rgba } = rasterise(toSvg(onWhite(plate), { paper: true }), across);
  const grey = new Uint8Array(width * height);
  // Rec. 601 luma, as baseline grey pictures take it.
  for (let i = 0; i < grey.length; i++)
    grey[i] = Math.round(0.299 * rgba[4 * i] + 0.587 * rgba[4 * i + 1] + 0.114 * rgba[4 * i + 2]);
  for (const picture of plate.pictures)
    for (let row = 0; row < picture.height; row++)
      for (let col = 0; col < picture.width; col++) {
        const from = row * picture.width + col;
        if (picture.mask[from]) grey[(picture.top + row) * width + picture.left + col] = picture.grey[from];
      }
  return { width, height, grey };
}

/** Print has white paper. */
const onWhite = ({ drawing }: PrintPlate) => {
  const { width, height } = drawing;
  const sheet = { kind: 'area', points: [0, 0, width, 0, width, height, 0, height], tone: '#ffffff' } as const;
  return { ...drawing, marks: [sheet, ...drawing.marks] };
};

function plateSvg(plate: PrintPlate): string {
  const { width, height } = plate.drawing;
  const mm = (points: number): string => `${((points * 25.4) / 72).toFixed(2)}mm`;
  const points = (dots: number): string => ((dots * 72) / plate.dpi).toFixed(4);
  const images = plate.pictures.map(
    (picture) =>
      `<image x="${points(picture.left)}" y="${points(picture.top)}" width="${points(picture.width)}" height="${points(picture.height)}" preserveAspectRatio="none" href="data:image/png;base64,${base64(pngOf(picture))}"/>`,
  );
  return toSvg(onWhite(plate), { paper: true })
    .replace(/ width="[^"]*" height="[^"]*" role/, ` width="${mm(width)}" height="${mm(height)}" role`)
    .replace('</svg>', `${images.join('\n')}\n</svg>`);
}

function pngOf({ width, height, grey, mask }: PlacedPicture): Uint8Array {
  const data = new Uint8Array(2 * grey.length);
  for (let i = 0; i < grey.length; i++) {
    data[2 * i] = grey[i];
    data[2 * i + 1] = mask[i] ? 255 : 0;
  }
  const picture: Picture = { width, height, channels: 2, data };
  return encode({ ...picture, depth: 8 });
}

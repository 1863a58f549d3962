export * from './drawing.ts';
export { type Pixels, type Rasterise, toPng } from './png.ts';
export { packPictures, serifs, toSvg } from './svg.ts';
export type { Deflate } from './writePng.ts';

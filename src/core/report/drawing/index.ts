export * from './drawing.ts';
export { type Pixels, type Rasterise, toPng } from './png.ts';
export { serifs, toSvg } from './svg.ts';

export * from './drawing.ts';
export { type Pixels, type Rasterise, toPng } from './png.ts';
export { escapeXml, serifs, toSvg } from './svg.ts';

export * from './drawing.ts';
export { toPng } from './png.ts';
export { serifs, toSvg } from './svg.ts';

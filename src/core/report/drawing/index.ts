export * from './drawing.ts';
export { toPng } from './png.ts';
export { escapeXml, serifs, toSvg } from './svg.ts';

import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import type { Rasterise } from '../core/report/index.ts';
import { seldomCompiled } from './engine.ts';
import { unpackedFont } from './fontFile.ts';

/** Latin with and without the further accents, upright and italic. */
const typefaces = ['latin', 'latin-ext'].flatMap((script) =>
  ['normal', 'italic'].map((style) => `@fontsource-variable/alegreya/files/alegreya-${script}-wght-${style}.woff2`),
);

let painter: Promise<Rasterise> | undefined;

/** Figures as pixels by resvg in WebAssembly, which the built command line carries beside itself; made once. */
export function rasteriser(): Promise<Rasterise> {
  painter ??= make();
  return painter;
}

async function make(): Promise<Rasterise> {
  const beside = new URL('./resvg.wasm', import.meta.url);
  const resolved = (): string => createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm');
  await seldomCompiled(() => initWasm(readFileSync(existsSync(beside) ? beside : resolved())));
  const font = { fontBuffers: typefaces.map(unpackedFont), defaultFontFamily: 'Alegreya', serifFamily: 'Alegreya' };
  return (svg, pixelsAcross) => {
    const image = new Resvg(svg, { fitTo: { mode: 'width', value: pixelsAcross }, font });
    const drawn = image.render();
    try {
      return { width: drawn.width, height: drawn.height, rgba: drawn.pixels };
    } finally {
      drawn.free();
      image.free();
    }
  };
}

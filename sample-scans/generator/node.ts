import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type GeneratedPair, type HandName, loadHands, makePair as makeFrom, type Recipe } from './index.ts';
import { makeSamples as samplesFrom } from './samples/index.ts';

const require = createRequire(import.meta.url);

/** The hands' outlines from the installed font packages. */
export const handOf = loadHands((name: HandName) =>
  readFileSync(require.resolve(`@fontsource/${name}/files/${name}-latin-400-normal.woff`)),
);

/** `makePair` with the fonts read from disk: what tests, benches and the command line call. */
export const makePair = (recipe: Recipe): GeneratedPair => makeFrom(recipe, handOf);
export { randomRecipe } from './recipe.ts';

/** The sample scans by file name. */
export const makeSamples = (): Promise<Map<string, Uint8Array>> => samplesFrom(handOf);

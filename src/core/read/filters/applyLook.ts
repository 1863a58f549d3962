import {
  bandPass,
  formRemoved,
  gaussianFilter,
  type HeightGrid,
  localHeight,
  removeForm,
  withHeights,
} from '../../geometry/index.ts';
import { light, lightAcross, openness, skyView, type View, viewGrid } from '../light/index.ts';
import type { LitPicture } from '../picture.ts';
import { curvatures } from './curvature.ts';
import { edgeAwareBase, edgeAwareDetail } from './edgeAware.ts';
import { exaggeratedShading } from './exaggeratedShading.ts';
import { type LookInput, type LookStep, parseLook } from './look.ts';
import { principalShading } from './principalShading.ts';
import { toneOf } from './tone.ts';

export interface LookOptions {
  readonly view?: View;
  readonly sense?: 'intaglio' | 'relief';
  /** Grey where there is no data. */
  readonly emptyGrey?: number;
  /** Lamps leave nothing pure white, as `light` does it. */
  readonly holdHighlights?: boolean;
}

type PictureStep = Extract<LookStep, { over: string }>;
type ReliefStep = Exclude<LookStep, PictureStep>;

/**
 * Carries out the steps of a look on a relief and gives the picture, 0 to 255. Where no step draws, the heights themselves are drawn. Throws RangeError for a look that is not valid.
 */
export function applyLook(grid: HeightGrid, look: LookInput, options: LookOptions = {}): LitPicture {
  const { view = 'asItIs', sense, emptyGrey = 0, holdHighlights = false } = options;
  const { name, steps } = parseLook(look);
  const start = viewGrid(grid, view);
  let relief = start;
  let picture: Float32Array | null = null;
  for (const step of steps) {
    if (step.do === 'fromStart') relief = start;
    else if ('over' in step) picture = laidOver(picture, draw(relief, step, holdHighlights), step);
    else relief = changed(relief, step);
  }
  picture ??= toneOf(relief.z, relief.mask);
  const grey = new Uint8ClampedArray(picture.length);
  for (let i = 0; i < grey.length; i++) grey[i] = start.mask[i] ? 255 * picture[i] : emptyGrey;
  return { width: start.width, height: start.height, grey, shown: { code: 'look', name, steps, view, sense } };
}

/** The relief after the steps that change heights only; what a strip or a measurement may go on with. */
export function reliefOfLook(grid: HeightGrid, look: LookInput): HeightGrid {
  let relief = grid;
  for (const step of parseLook(look).steps)
    if (step.do === 'fromStart') relief = grid;
    else if (!('over' in step)) relief = changed(relief, step);
  return relief;
}

function changed(relief: HeightGrid, step: ReliefStep): HeightGrid {
  switch (step.do) {
    case 'fromStart':
      return relief;
    case 'removeForm':
      return removeForm(relief, step.order).detail;
    case 'formRemoved':
      return formRemoved(relief, step.wavelengthMm);
    case 'smooth':
      return gaussianFilter(relief, step.wavelengthMm);
    case 'bandPass':
      return bandPass(relief, step.fromMm, step.toMm);
    case 'edgeAwareBase':
      return edgeAwareBase(relief, step);
    case 'edgeAwareDetail':
      return edgeAwareDetail(relief, step);
    case 'localHeight':
      return times(localHeight(relief, step), step.asMm);
    case 'exaggerate':
      return times(relief, step.factor);
  }
}

const times = (grid: HeightGrid, factor: number): HeightGrid =>
  withHeights(
    grid,
    grid.z.map((value) => value * factor),
  );

/** The step's own picture, 0 to 1. */
function draw(relief: HeightGrid, step: PictureStep, holdHighlights: boolean): Float32Array {
  const { mask } = relief;
  switch (step.do) {
    case 'light':
      return fromBytes(light(relief, step.lamps, { ...step, view: 'asItIs', holdHighlights }).grey);
    case 'lightAcross':
      return fromBytes(lightAcross(relief, { ...step, view: 'asItIs', holdHighlights }).grey);
    case 'skyView':
      return skyView(relief, step);
    case 'openness':
      return toneOf(openness(relief, step), mask);
    case 'heights':
      return toneOf(relief.z, mask, step.lowMm, step.highMm);
    case 'curvature':
      return drawCurvature(relief, step.scaleMm, step.show);
    case 'principalShading':
      return toneOf(principalShading(relief, step).components[step.component - 1], mask);
    case 'exaggeratedShading':
      return exaggeratedShading(relief, step);
  }
}

const fromBytes = (grey: Uint8ClampedArray): Float32Array => Float32Array.from(grey, (value) => value / 255);

/** Ridges light, valleys dark, level ground mid-grey (or black where only one of them is shown). */
function drawCurvature(relief: HeightGrid, scaleMm: number, show: 'ridges' | 'valleys' | 'both'): Float32Array {
  const { ridge, valley } = curvatures(relief, scaleMm);
  if (show === 'ridges') return toneOf(ridge, relief.mask);
  if (show === 'valleys') return toneOf(valley, relief.mask);
  const both = toneOf(
    ridge.map((value, i) => Math.abs(value - valley[i])),
    relief.mask,
  );
  return both.map((value, i) => (relief.mask[i] ? 0.5 + (ridge[i] >= valley[i] ? 0.5 : -0.5) * value : 0));
}

function laidOver(below: Float32Array | null, above: Float32Array, { over, share }: PictureStep): Float32Array {
  if (!below || (over === 'replace' && share === 1)) return above;
  return above.map((value, i) => {
    const under = below[i];
    const result =
      over === 'multiply'
        ? under * value
        : over === 'lighten'
          ? Math.max(under, value)
          : over === 'darken'
            ? Math.min(under, value)
            : value;
    return (1 - share) * under + share * result;
  });
}

import type { HeightGrid } from '../../geometry/index.ts';
import type { LampsShown, LitPicture } from '../picture.ts';
import { castShadow } from './castShadow.ts';
import { heldBelowWhite } from './highlights.ts';
import { type Lamp, towardLamp } from './lamp.ts';
import { type Normals, normalsOf } from './normals.ts';
import { skyView } from './skyView.ts';
import { type View, viewGrid } from './view.ts';

export interface LightOptions {
  /** As it is, mirrored, or turned over. */
  readonly view?: View;
  /** The object's own sense, for what turning over makes of it. */
  readonly sense?: 'intaglio' | 'relief';
  /** Heights are multiplied by this; 1 is true. */
  readonly exaggeration?: number;
  /** Shadows that high parts throw. */
  readonly castShadows?: boolean;
  /** Share of even sky light, 0 to 1. */
  readonly soft?: number;
  /** How far the sky's horizon is looked for, mm. */
  readonly softRadiusMm?: number;
  /** Grey of the level field under the lamps, 0 to 255; `plain` leaves Lambert's value × 255. */
  readonly fieldGrey?: number | 'plain';
  /** Grey where there is no data. */
  readonly emptyGrey?: number;
  /** Slopes brighter than the level field are held below white, not clipped; not with `plain`, which never clips. */
  readonly holdHighlights?: boolean;
}

export const lightDefaults = {
  view: 'asItIs',
  exaggeration: 1,
  castShadows: false,
  soft: 0,
  softRadiusMm: 2,
  fieldGrey: 110,
  emptyGrey: 0,
  holdHighlights: false,
} as const satisfies Partial<LightOptions>;

/** What does not depend on the lamps: made once, lit many times. */
export interface PreparedLight {
  /** The relief as shown. */
  readonly grid: HeightGrid;
  readonly normals: Normals;
  /** Sky-view factor, where soft light was asked for. */
  readonly sky?: Float32Array;
  readonly options: LightOptions;
}

/** Turns the relief as it is to be shown and works out its normals (and its sky, where soft light is asked for). */
export function prepareLight(grid: HeightGrid, options: LightOptions = {}): PreparedLight {
  const { view, exaggeration, soft, softRadiusMm } = { ...lightDefaults, ...options };
  const shown = viewGrid(grid, view);
  const sky = soft > 0 ? skyView(shown, { radiusMm: softRadiusMm, exaggeration }) : undefined;
  return { grid: shown, normals: normalsOf(shown, exaggeration), sky, options };
}

/**
 * The relief under the lamps, as grey 0 to 255:
 *   fieldGrey · Σ s max(0, n · l) v / Σ s sin h,   s strength, l direction, h height of a lamp, v what the cell sees
 * of it (1, or 0 in a cast shadow), so that the level field keeps its grey whatever the lamp's height; with `plain`,
 * 255 · Σ s max(0, n · l) v / Σ s. Soft light: (1 − soft) × that + soft × 255 × sky-view factor.
 * With no lamp only the soft light is left. `out` may be given to be filled again.
 * Source of the shading: Horn, Proc. IEEE 69(1), 1981.
 */
export function lightPrepared(prepared: PreparedLight, lamps: readonly Lamp[], out?: Uint8ClampedArray): LitPicture {
  const { grid, normals, sky } = prepared;
  const options = { ...lightDefaults, ...prepared.options };
  const soft = lamps.length === 0 ? 1 : options.soft;
  const grey = out ?? new Uint8ClampedArray(grid.z.length);
  const gain = (1 - (sky ? soft : 0)) * lampGain(lamps, options.fieldGrey);
  const { fieldGrey, holdHighlights } = options;
  const level =
    holdHighlights && fieldGrey !== 'plain' ? (1 - (sky ? soft : 0)) * fieldGrey + (sky ? soft * 255 : 0) : null;
  if (lamps.length === 1 && !sky && level === null) oneLamp(grid, normals, lamps[0], gain, options, grey);
  else {
    const sum = sky ? sky.map((value) => 255 * soft * value) : new Float32Array(grid.z.length);
    for (const lamp of lamps) addLamp(grid, normals, lamp, gain, options, sum);
    grey.set(level === null ? sum : sum.map((value) => heldBelowWhite(value, level)));
  }
  if (options.emptyGrey !== 0) for (let i = 0; i < grey.length; i++) if (!grid.mask[i]) grey[i] = options.emptyGrey;
  return { width: grid.width, height: grid.height, grey, shown: lampsShown(lamps, options) };
}

const lampsShown = (
  lamps: readonly Lamp[],
  { view, sense, exaggeration, castShadows, soft, softRadiusMm }: Omit<LampsShown, 'code' | 'lamps'>,
): LampsShown => ({ code: 'lamps', lamps, view, sense, exaggeration, castShadows, soft, softRadiusMm });

/** `prepareLight` and `lightPrepared` at once. */
export const light = (grid: HeightGrid, lamps: readonly Lamp[], options: LightOptions = {}): LitPicture =>
  lightPrepared(prepareLight(grid, options), lamps);

function lampGain(lamps: readonly Lamp[], fieldGrey: number | 'plain'): number {
  let total = 0;
  for (const lamp of lamps) {
    const onField = fieldGrey === 'plain' ? 1 : Math.sin((lamp.heightDeg * Math.PI) / 180);
    total += (lamp.strength ?? 1) * onField;
  }
  return (fieldGrey === 'plain' ? 255 : fieldGrey) / Math.max(total, 1e-3);
}

interface ShadowOptions {
  readonly castShadows: boolean;
  readonly exaggeration: number;
}

/** The common case on its own: no sum to keep, clamping by the array itself. */
function oneLamp(
  grid: HeightGrid,
  n: Normals,
  lamp: Lamp,
  gain: number,
  options: ShadowOptions,
  grey: Uint8ClampedArray,
): void {
  const strength = lamp.strength ?? 1;
  const [lx, ly, lz] = towardLamp(lamp).map((value) => value * gain * strength);
  const count = grid.z.length;
  const { x, y, z } = n;
  if (!options.castShadows) {
    for (let i = 0; i < count; i++) grey[i] = lx * x[i] + ly * y[i] + lz * z[i];
    return;
  }
  const seen = castShadow(grid, lamp, undefined, options.exaggeration);
  for (let i = 0; i < count; i++) grey[i] = (lx * x[i] + ly * y[i] + lz * z[i]) * (seen[i] * (1 / 255));
}

function addLamp(
  grid: HeightGrid,
  n: Normals,
  lamp: Lamp,
  gain: number,
  options: ShadowOptions,
  sum: Float32Array,
): void {
  const strength = lamp.strength ?? 1;
  const [lx, ly, lz] = towardLamp(lamp).map((value) => value * gain * strength);
  const { x, y, z } = n;
  if (!options.castShadows) {
    for (let i = 0; i < sum.length; i++) sum[i] += Math.max(0, lx * x[i] + ly * y[i] + lz * z[i]);
    return;
  }
  const seen = castShadow(grid, lamp, undefined, options.exaggeration);
  for (let i = 0; i < sum.length; i++) sum[i] += Math.max(0, lx * x[i] + ly * y[i] + lz * z[i]) * (seen[i] / 255);
}

import type { LookStep } from './filters/look.ts';
import type { Lamp } from './light/lamp.ts';
import type { View } from './light/view.ts';

/** Which way an object is shown; its own sense says what turning over makes of it. */
export interface ShownWay {
  readonly view: View;
  readonly sense?: 'intaglio' | 'relief' | undefined;
}

/** Lit by lamps, or by an even sky alone where there is none. */
export interface LampsShown extends ShownWay {
  readonly code: 'lamps';
  readonly lamps: readonly Lamp[];
  /** Heights are multiplied by this. */
  readonly exaggeration: number;
  readonly castShadows: boolean;
  /** Share of even sky light, 0 to 1, and how far its horizon is looked for, mm. */
  readonly soft: number;
  readonly softRadiusMm: number;
}

/** Lit across each stroke, the lamp within 90° of the middle azimuth. */
export interface AcrossShown extends ShownWay {
  readonly code: 'across';
  readonly strokeMm: number;
  readonly middleAzimuthDeg: number;
  readonly heightDeg: number;
  readonly exaggeration: number;
}

/** Made by the steps of a look. */
export interface LookShown extends ShownWay {
  readonly code: 'look';
  readonly name: string;
  readonly steps: readonly LookStep[];
}

/** Ridges on a back, or, not sharp, only where they lie. */
export interface RidgesShown {
  readonly code: 'ridges';
  readonly sharp: boolean;
  readonly proposal: 'present' | 'absent' | 'notJudged';
  readonly areaMm2: number;
}

/** What a picture shows and how it was made: all that its caption says. */
export type PictureShown = LampsShown | AcrossShown | LookShown | RidgesShown;

/** A grey picture, row 0 at the top, one byte a cell. */
export interface LitPicture {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8ClampedArray;
  readonly shown: PictureShown;
}

/** A lamp so far away that its rays are parallel; locked to the picture. */
export interface Lamp {
  /** Clockwise from the top of the picture, degrees; 315 is upper left. */
  readonly azimuthDeg: number;
  /** Above the face plane, degrees. */
  readonly heightDeg: number;
  /** Share of the light against the other lamps; 1 unless stated. */
  readonly strength?: number;
}

/** Unit vector toward the lamp, x right, y up the picture, z out of the face. */
export function towardLamp(lamp: Lamp): [number, number, number] {
  const azimuth = (lamp.azimuthDeg * Math.PI) / 180;
  const height = (lamp.heightDeg * Math.PI) / 180;
  return [Math.sin(azimuth) * Math.cos(height), Math.cos(azimuth) * Math.cos(height), Math.sin(height)];
}

/** `count` lamps evenly round the picture, first at `startDeg`, clockwise: one frame each makes a slow sweep. */
export const lampsRound = (count: number, heightDeg: number, startDeg = 315): Lamp[] =>
  Array.from({ length: count }, (_, k) => ({
    azimuthDeg: (((startDeg + (360 * k) / count) % 360) + 360) % 360,
    heightDeg,
  }));

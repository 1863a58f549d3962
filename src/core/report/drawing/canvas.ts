/** Red, green and blue bytes on an opaque ground, row 0 at the top. */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  readonly rgb: Uint8Array;
}

export type Rgb = readonly [number, number, number];

export const rgbOf = (hex: string): Rgb => [
  Number.parseInt(hex.slice(1, 3), 16),
  Number.parseInt(hex.slice(3, 5), 16),
  Number.parseInt(hex.slice(5, 7), 16),
];

export function blankCanvas(width: number, height: number, ground: Rgb): Canvas {
  const rgb = new Uint8Array(width * height * 3);
  rgb.set(ground);
  for (let done = 3; done < rgb.length; done *= 2) rgb.copyWithin(done, 0, done);
  return { width, height, rgb };
}

/** Lays a colour over one pixel: new = old + opacity (colour − old). */
export function lay({ rgb }: Canvas, pixel: number, colour: Rgb, opacity: number): void {
  const i = pixel * 3;
  for (let c = 0; c < 3; c++) rgb[i + c] += Math.round((colour[c] - rgb[i + c]) * opacity);
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Whole pixels that the points touch, with a margin, held inside the canvas; right and bottom excluded. */
export function boxOf(points: ArrayLike<number>, margin: number, canvas: Canvas): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i + 1 < points.length; i += 2) {
    left = Math.min(left, points[i]);
    right = Math.max(right, points[i]);
    top = Math.min(top, points[i + 1]);
    bottom = Math.max(bottom, points[i + 1]);
  }
  return {
    left: Math.max(0, Math.floor(left - margin)),
    right: Math.min(canvas.width, Math.ceil(right + margin)),
    top: Math.max(0, Math.floor(top - margin)),
    bottom: Math.min(canvas.height, Math.ceil(bottom + margin)),
  };
}

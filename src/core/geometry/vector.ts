/** Small fixed-size vectors; plain tuples, so that results stay transferable and comparable. */
export type Vec2 = readonly [number, number];
export type Vec3 = readonly [number, number, number];

export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const length = (a: Vec3): number => Math.sqrt(dot(a, a));

export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Unit vector along `a`; the zero vector stays zero. */
export function normalise(a: Vec3): Vec3 {
  const l = length(a);
  return l === 0 ? a : times(a, 1 / l);
}

/** A unit vector at right angles to the unit vector `a`, built from the axis that `a` follows least. */
export function anyPerpendicular(a: Vec3): Vec3 {
  const ax = Math.abs(a[0]);
  const ay = Math.abs(a[1]);
  const az = Math.abs(a[2]);
  const axis: Vec3 = ax <= ay && ax <= az ? [1, 0, 0] : ay <= az ? [0, 1, 0] : [0, 0, 1];
  return normalise(cross(a, axis));
}

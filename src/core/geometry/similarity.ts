import { cross, dot, type Vec3 } from './vector.ts';

/** Nine numbers, row-major. */
export type Matrix3 = readonly number[];

/**
 * p ↦ scale · R p + t. Named by its frames, target first: `referenceFromSubject` takes subject to reference.
 * `rotation` is orthonormal; its determinant is +1, and −1 only for a mirrored file.
 */
export interface Similarity {
  readonly scale: number;
  readonly rotation: Matrix3;
  readonly translation: Vec3;
}

export const identity: Similarity = { scale: 1, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] };

/** (x, y, z) → (−x, y, −z): lays an impression's face on the matrix's. A rotation: determinant +1. */
export const turnOver: Similarity = { scale: 1, rotation: [-1, 0, 0, 0, 1, 0, 0, 0, -1], translation: [0, 0, 0] };

export const rotate = (r: Matrix3, v: Vec3): Vec3 => [
  r[0] * v[0] + r[1] * v[1] + r[2] * v[2],
  r[3] * v[0] + r[4] * v[1] + r[5] * v[2],
  r[6] * v[0] + r[7] * v[1] + r[8] * v[2],
];

export function apply(m: Similarity, v: Vec3): Vec3 {
  const { scale, rotation: r, translation: t } = m;
  return [
    scale * (r[0] * v[0] + r[1] * v[1] + r[2] * v[2]) + t[0],
    scale * (r[3] * v[0] + r[4] * v[1] + r[5] * v[2]) + t[1],
    scale * (r[6] * v[0] + r[7] * v[1] + r[8] * v[2]) + t[2],
  ];
}

/** `compose(a, b)` applies `b` first: cFromA = compose(cFromB, bFromA). */
export function compose(a: Similarity, b: Similarity): Similarity {
  return {
    scale: a.scale * b.scale,
    rotation: multiply3(a.rotation, b.rotation),
    translation: apply(a, b.translation),
  };
}

export function invert(m: Similarity): Similarity {
  const rotation = transpose3(m.rotation);
  const [x, y, z] = rotate(rotation, m.translation);
  const scale = 1 / m.scale;
  return { scale, rotation, translation: [-x * scale, -y * scale, -z * scale] };
}

/** The same rigid motion between coordinates that are `factor` times as large. */
export const scaleMotion = (m: Similarity, factor: number): Similarity => ({
  ...m,
  translation: [m.translation[0] * factor, m.translation[1] * factor, m.translation[2] * factor],
});

export function multiply3(a: Matrix3, b: Matrix3): Matrix3 {
  const out: number[] = [];
  for (let row = 0; row < 9; row += 3)
    for (let col = 0; col < 3; col++) out.push(a[row] * b[col] + a[row + 1] * b[col + 3] + a[row + 2] * b[col + 6]);
  return out;
}

export const transpose3 = (m: Matrix3): Matrix3 => [m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8]];

export function determinant3(m: Matrix3): number {
  return dot([m[0], m[1], m[2]], cross([m[3], m[4], m[5]], [m[6], m[7], m[8]]));
}

/** Turns a picture, x right and y up, by so many degrees clockwise. */
export const turnedClockwise = (deg: number): Similarity => ({
  ...identity,
  rotation: rotationAbout([0, 0, 1], (-deg * Math.PI) / 180),
});

/** Rotation by `angle` radians about the unit `axis` (Rodrigues). */
export function rotationAbout(axis: Vec3, angle: number): Matrix3 {
  const [x, y, z] = axis;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const k = 1 - c;
  return [
    c + x * x * k,
    x * y * k - z * s,
    x * z * k + y * s,
    y * x * k + z * s,
    c + y * y * k,
    y * z * k - x * s,
    z * x * k - y * s,
    z * y * k + x * s,
    c + z * z * k,
  ];
}

/** Angle in degrees between two rotations: the size of the turn that takes one to the other. */
export function angleBetweenDeg(a: Matrix3, b: Matrix3): number {
  const d = multiply3(a, transpose3(b));
  // The antisymmetric part keeps its precision near zero, where the arc cosine of the trace loses half the digits.
  const sine = Math.hypot(d[7] - d[5], d[2] - d[6], d[3] - d[1]) / 2;
  const cosine = (d[0] + d[4] + d[8] - 1) / 2;
  return (Math.atan2(sine, cosine) * 180) / Math.PI;
}

/** The 4×4 matrix, row-major, as the record prints it. */
export function toMatrix4(m: Similarity): number[] {
  const r = m.rotation.map((value) => value * m.scale);
  const [tx, ty, tz] = m.translation;
  return [r[0], r[1], r[2], tx, r[3], r[4], r[5], ty, r[6], r[7], r[8], tz, 0, 0, 0, 1];
}

/** Reads a row-major 4×4 similarity. The scale is the cube root of |det|. */
export function fromMatrix4(m: readonly number[]): Similarity {
  const linear = [m[0], m[1], m[2], m[4], m[5], m[6], m[8], m[9], m[10]];
  const scale = Math.cbrt(Math.abs(determinant3(linear)));
  return { scale, rotation: linear.map((value) => value / scale), translation: [m[3], m[7], m[11]] };
}

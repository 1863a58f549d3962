/**
 * A similarity of the face plane that lays the subject's face on the reference's:
 * q = F · s · R(θ) p + t, with F = diag(−1, 1) where `flipX`. Heights change sign where `negate`.
 *
 * Both or neither: a rotation in space (turned over, or as it lies). One alone: a reflection, a mirrored file.
 */
export interface PlanarFit {
  readonly flipX: boolean;
  readonly negate: boolean;
  /** θ, radians counter-clockwise, before the flip. */
  readonly turn: number;
  readonly scale: number;
  /** mm. */
  readonly tx: number;
  readonly ty: number;
}

/** Row-major 2 × 2 part and the shift. */
export interface Affine2 {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly tx: number;
  readonly ty: number;
}

export function affineOf({ flipX, turn, scale, tx, ty }: PlanarFit): Affine2 {
  const c = scale * Math.cos(turn);
  const s = scale * Math.sin(turn);
  const sign = flipX ? -1 : 1;
  return { a: sign * c, b: -sign * s, c: s, d: c, tx, ty };
}

export function invertAffine({ a, b, c, d, tx, ty }: Affine2): Affine2 {
  const det = a * d - b * c;
  const [ia, ib, ic, id] = [d / det, -b / det, -c / det, a / det];
  return { a: ia, b: ib, c: ic, d: id, tx: -(ia * tx + ib * ty), ty: -(ic * tx + id * ty) };
}

/**
 * `fit` followed by a small motion in the reference's plane: turn `dTurn` (radians), growth `dScale`, shift. Its fields are written out: of
 * thousands of copies with fields replaced each would be of a kind of its own to the engine.
 */
export function nudge(fit: PlanarFit, dTurn: number, dScale: number, dx: number, dy: number): PlanarFit {
  const grow = 1 + dScale;
  const c = grow * Math.cos(dTurn);
  const s = grow * Math.sin(dTurn);
  return {
    flipX: fit.flipX,
    negate: fit.negate,
    // A turn after the flip is the opposite turn before it.
    turn: fit.turn + (fit.flipX ? -dTurn : dTurn),
    scale: fit.scale * grow,
    tx: c * fit.tx - s * fit.ty + dx,
    ty: s * fit.tx + c * fit.ty + dy,
  };
}

/** Turn of the design on the reference's face as seen, degrees clockwise, of `fit` against `base` of the same kind. */
export function turnBetweenDeg(fit: PlanarFit, base: PlanarFit): number {
  const difference = (fit.flipX ? -1 : 1) * (fit.turn - base.turn);
  const clockwise = (-difference * 180) / Math.PI;
  return ((((clockwise + 180) % 360) + 360) % 360) - 180;
}

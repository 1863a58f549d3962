import type { Face } from '../face/index.ts';
import { apply, invert, rotate, rotationAbout, type Similarity, solveSymmetric, type Vec3 } from '../geometry/index.ts';
import { faceMotion } from './faceMotion.ts';
import { similarityFields } from './similarityFields.ts';
import type { Fit, FitModel, Warp } from './types.ts';
import { applyWarp, warpField, warpParameters } from './warp.ts';

/**
 * The same fit with the two scans exchanged: every motion inverted, sizes and lengths in the other scan's millimetres.
 * So fitting A to B and fitting B to A undo one another exactly, whichever of them was computed.
 * `reference` and `subject` are those of the given fit.
 */
export function reverseFit(fit: Fit, reference: Face, subject: Face): Fit {
  const shrink = 1 / fit.models[1].scale;
  return {
    ...fit,
    models: fit.models.map((model) => reverseModel(model, reference, subject)),
    translationSdMm: fit.translationSdMm * shrink,
    covariance: reverseCovariance(fit, reference, subject),
    // Turned over, the other face sees the same turn go the same way; else the opposite way.
    rivalTurns: fit.rivalTurns.map(({ turnDeg, score, referenceFromSubject: motion }) => ({
      turnDeg: fit.turnedOver ? turnDeg : -turnDeg,
      score,
      ...(motion && { referenceFromSubject: invert(motion) }),
    })),
  };
}

function reverseModel(model: FitModel, reference: Face, subject: Face): FitModel {
  const { scale, warp } = model;
  return {
    ...model,
    referenceFromSubject: invert(model.referenceFromSubject),
    ...(warp && { warp: reverseWarp(warp, reference, faceMotion(reference, subject, model)) }),
    scale: 1 / scale,
    scaleSd: model.scaleSd / scale ** 2,
    rmsMm: model.rmsMm / scale,
    heldOutRmsMm: model.heldOutRmsMm / scale,
    ...(model.warpRmsMm !== undefined && { warpRmsMm: model.warpRmsMm / scale }),
  };
}

/**
 * The warp that undoes `warp`, seen from the other face: least squares of its displacements over the face, on the
 * twelve fields and the seven generators of a small similarity, which go into `before`.
 */
function reverseWarp(warp: Warp, reference: Face, referenceFromSubject: Similarity): Warp {
  const back = invert(referenceFromSubject);
  const radiusMm = warp.radiusMm * back.scale;
  const n = 7 + warpParameters;
  const h = new Float64Array(n * n);
  const g = new Float64Array(n);
  for (const p of spreadPoints(reference)) {
    const from = apply(back, applyWarp(warp, p));
    const to = apply(back, p);
    const rows = fieldsAt(from, radiusMm);
    for (let axis = 0; axis < 3; axis++)
      for (let r = 0; r < n; r++) {
        g[r] += rows[r][axis] * (to[axis] - from[axis]);
        for (let c = 0; c < n; c++) h[r * n + c] += rows[r][axis] * rows[c][axis];
      }
  }
  const x = solveSymmetric(h, g, n) ?? new Float64Array(n);
  return { before: smallSimilarity(x, radiusMm), radiusMm, coefficients: x.slice(7) };
}

/** About two thousand points of the relief, in the face frame. */
function spreadPoints({ relief }: Face): Vec3[] {
  const points: Vec3[] = [];
  const step = Math.max(1, Math.floor(Math.sqrt((relief.width * relief.height) / 2000)));
  for (let row = 0; row < relief.height; row += step)
    for (let col = 0; col < relief.width; col += step) {
      const i = row * relief.width + col;
      if (relief.mask[i]) points.push([relief.left + col * relief.pitch, relief.top - row * relief.pitch, relief.z[i]]);
    }
  return points;
}

/** Displacements at p of a small similarity's seven motions and of the warp's fields. */
const fieldsAt = (p: Vec3, R: number): Vec3[] => [
  ...similarityFields(p, R),
  ...Array.from({ length: warpParameters }, (_, k) => warpField(k, p[0] / R, p[1] / R)),
];

function smallSimilarity(x: Float64Array, R: number): Similarity {
  const angle = Math.hypot(x[0], x[1], x[2]) / R;
  const axis: Vec3 = angle > 0 ? [x[0] / (angle * R), x[1] / (angle * R), x[2] / (angle * R)] : [0, 0, 1];
  return { scale: Math.exp(x[6] / R), rotation: rotationAbout(axis, angle), translation: [x[3], x[4], x[5]] };
}

/** J C Jᵀ: a small motion of the one face seen from the other, turn ω' = −R⁻¹ω, shift at the new centre. */
function reverseCovariance(fit: Fit, reference: Face, subject: Face): Float64Array {
  const back = invert(faceMotion(reference, subject, fit.models[1]));
  const centre = apply(invert(back), [0, 0, 0]);
  const columns = Array.from({ length: 7 }, (_, k) => {
    const unit = Float64Array.from({ length: 7 }, (_, i) => (i === k ? 1 : 0));
    const [wx, wy, wz, tx, ty, tz, grow] = unit;
    const [cx, cy, cz] = centre;
    const shift: Vec3 = [
      tx + wy * cz - wz * cy + grow * cx,
      ty + wz * cx - wx * cz + grow * cy,
      tz + wx * cy - wy * cx + grow * cz,
    ];
    const turn = rotate(back.rotation, [wx, wy, wz]);
    const moved = rotate(back.rotation, shift).map((value) => value * back.scale);
    return [...turn, ...moved, grow].map((value) => -value);
  });
  const c = fit.covariance;
  const out = new Float64Array(49);
  for (let r = 0; r < 7; r++)
    for (let s = 0; s < 7; s++)
      for (let i = 0; i < 7; i++)
        for (let j = 0; j < 7; j++) out[r * 7 + s] += columns[i][r] * c[i * 7 + j] * columns[j][s];
  return out;
}

import type { Face } from '../face/index.ts';
import { applyWarp, type Fit, type FitModel } from '../fit/index.ts';
import { apply, closestOnSurface, invert, median, medianAbsoluteDeviation, newSurfacePoint, quantile, rootMeanSquare, rotate, type Mesh, type SurfaceIndex, type Watch, turnGridOver, emptyGrid, withHeights } from '../geometry/index.ts';
import type { Difference } from './types.ts';

interface Side { readonly mesh: Mesh; readonly face: Face; readonly normals: Float32Array; readonly index?: SurfaceIndex; readonly scaleUncertaintyPercent: number }

/** Stand-in until the step is complete. */
export function compareFaces(reference: Side, subject: Side, fit: Fit, _watch: Watch = {}): Difference {
  const one = fit.models[1];
  const perVertexMm = differences(reference, subject, one, fit.turnedOver);
  const chosen = fit.models.find((m) => m.model === fit.chosen) as FitModel;
  const warped = chosen.warp ? differences(reference, subject, chosen, fit.turnedOver) : undefined;
  const use = warped ?? perVertexMm;
  const abs = use.map(Math.abs);
  const whole = { medianMm: median(use), madMm: medianAbsoluteDeviation(use), rmsMm: rootMeanSquare(use), p95Mm: quantile(abs, 0.95), coveredFraction: fit.overlap };
  const map = mapOf(reference, subject, chosen, use);
  const lod = 1.96 * (Math.hypot(reference.face.noiseMm, subject.face.noiseMm) + fit.translationSdMm);
  const ratio = 1 / one.scale;
  const sd = Math.hypot(one.scaleSd * ratio * ratio, (ratio * Math.hypot(reference.scaleUncertaintyPercent, subject.scaleUncertaintyPercent)) / 100);
  return {
    perVertexMm,
    ...(warped && { perVertexWarpedMm: warped }),
    map,
    levelOfDetection: withHeights(map, map.z.map((_, i) => (map.mask[i] ? lod : 0))),
    levelOfDetectionMm: lod,
    whole,
    zones: [{ zone: 'whole', ...whole }],
    size: { ratio, sd, x: ratio, y: ratio, depth: ratio, reading: [] },
  };
}

function differences(reference: Side, subject: Side, model: FitModel, turnedOver: boolean): Float32Array {
  const { positions } = subject.mesh;
  const out = new Float32Array(positions.length / 3).fill(Number.NaN);
  const foot = newSurfacePoint();
  const toFace = reference.face.faceFromScan;
  const back = invert(toFace);
  const reach = 0.03 * Math.max(reference.face.outline.widthMm, reference.face.outline.heightMm);
  const sign = turnedOver ? -1 : 1;
  for (let i = 0; i < out.length; i++) {
    let p = apply(model.referenceFromSubject, [positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]]);
    if (model.warp) p = apply(back, applyWarp(model.warp, apply(toFace, p)));
    const n = rotate(model.referenceFromSubject.rotation, [subject.normals[3 * i], subject.normals[3 * i + 1], subject.normals[3 * i + 2]]);
    if (!reference.index || !closestOnSurface(reference.index, p[0], p[1], p[2], reach, sign * n[0], sign * n[1], sign * n[2], 0.3, foot) || foot.onBorder) continue;
    const side = (p[0] - foot.x) * foot.nx + (p[1] - foot.y) * foot.ny + (p[2] - foot.z) * foot.nz;
    out[i] = Math.sign(side) * sign * foot.distance;
  }
  return out;
}

function mapOf(reference: Side, subject: Side, model: FitModel, values: Float32Array) {
  const g = reference.face.relief;
  const pitch = 2 * g.pitch;
  const grid = emptyGrid(g.left, g.left + (g.width - 1) * g.pitch, g.top - (g.height - 1) * g.pitch, g.top, pitch);
  const n = new Float32Array(grid.z.length);
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const q = apply(reference.face.faceFromScan, apply(model.referenceFromSubject, [subject.mesh.positions[3 * i], subject.mesh.positions[3 * i + 1], subject.mesh.positions[3 * i + 2]]));
    const c = Math.round((q[0] - grid.left) / pitch);
    const r = Math.round((grid.top - q[1]) / pitch);
    if (c < 0 || r < 0 || c >= grid.width || r >= grid.height) continue;
    grid.z[r * grid.width + c] += values[i];
    n[r * grid.width + c]++;
  }
  for (let i = 0; i < n.length; i++) if (n[i]) { grid.z[i] /= n[i]; grid.mask[i] = 1; }
  if (reference.face.sense === 'relief') return grid;
  const over = turnGridOver(grid);
  return withHeights(over, over.z.map((z) => -z));
}

import { type Face, imageBox, insidePolygon } from '../../face/index.ts';
import { chosenModel, type Fit, subjectSurface } from '../../fit/index.ts';
import {
  distanceTransform,
  gaussianFilter,
  type HeightGrid,
  resampleGrid,
  turnGridOver,
  withHeights,
} from '../../geometry/index.ts';
import { levelPair } from './level.ts';
import { onOneForm } from './ownForms.ts';
import { withinRim } from './withinRim.ts';

/**
 * Both faces on the same cells as a positive shows them: heights stand up where the matrix is engraved, x runs as on the
 * impression. All grids share window and pitch; heights in mm.
 */
export interface WearRelief {
  /** What the reference would make, or is. */
  readonly reference: HeightGrid;
  /** The subject's surface, levelled to the reference (see level.ts). */
  readonly subject: HeightGrid;
  /** subject − reference where both have data, NaN elsewhere. */
  readonly difference: Float32Array;
  /** Heights over the surroundings within about half a millimetre: what stands narrow. */
  readonly narrow: { readonly reference: Float32Array; readonly subject: Float32Array };
  /** 1 inside the reference's outline, a margin of its rim left out. */
  readonly inside: Uint8Array;
  /** `inside` without the wall, lip or table of one of the two (withinRim.ts). */
  readonly image: Uint8Array;
  /** Distance of each cell inside from the edge, in cells. */
  readonly fromEdge: Float32Array;
  /** Scan noise of both faces together on one cell, 1 σ, mm. */
  readonly noiseMm: number;
  /** Length of the longer side of the reference's image, mm. */
  readonly sizeMm: number;
  /** True where the reference is intaglio: cell columns then run against its face frame's x. */
  readonly turned: boolean;
}

export const wearReliefDefaults = {
  /** Cells across the longer side at most. */
  mostAcross: 280,
  /** Margin of the outline left out, as a share of the size: rim and lip of wax differ in every impression. */
  margin: 0.02,
  /** How much of one linear interpolation's blur the subject suffers (docs/condition.md has the trial). */
  soften: 0.5,
};

/**
 * Aligns the pair under the fit's chosen model, turns an intaglio reference over (x, z) → (−x, −z), and levels the
 * subject to the reference. Pitch: the coarser of the two scans', and no finer than size / `mostAcross`.
 */
export function wearRelief(reference: Face, subject: Face, fit: Fit, options = wearReliefDefaults): WearRelief {
  const model = chosenModel(fit);
  const sizeMm = imageBox(reference).side;
  const pitch = Math.max(reference.detail.pitch, subject.detail.pitch * model.scale, sizeMm / options.mostAcross);
  const turned = reference.sense === 'intaglio';
  const own = resampleGrid(reference.detail, pitch);
  const a = softened(turned ? turnGridOver(own) : own, own === reference.detail ? options.soften : 0);
  const inside = insidePolygon(
    a,
    shrunk(turned ? mirrored(reference.outline.polygon) : reference.outline.polygon, 1 - 2 * options.margin),
  );
  const surface = onOneForm(a, subjectSurface(a, turned, reference, subject, model), inside);
  const b = levelPair(a, surface, inside, sizeMm);
  const noiseMm = Math.hypot(reference.noiseMm, model.scale * subject.noiseMm);
  return pairOfReliefs(a, b, { inside, noiseMm, sizeMm, turned });
}

/** Two reliefs in the positive sense on the same cells, already levelled to one another, as one record. */
export function pairOfReliefs(
  reference: HeightGrid,
  subject: HeightGrid,
  about: Pick<WearRelief, 'inside' | 'noiseMm' | 'sizeMm' | 'turned'>,
): WearRelief {
  const difference = differenceOf(reference, subject);
  const fromEdge = distanceTransform(about.inside, reference.width);
  return {
    reference,
    subject,
    difference,
    narrow: { reference: narrowHeight(reference), subject: narrowHeight(subject) },
    image: withinRim({ reference, difference, fromEdge, ...about }),
    fromEdge,
    ...about,
  };
}

/**
 * The subject is interpolated on its way to these cells, the reference only where its pitch is finer: that costs a crest some
 * height; linear interpolation costs what a blur of variance pitch²/6 does. `times` such blurs make the two comparable.
 */
export function softened(grid: HeightGrid, times: number): HeightGrid {
  const side = times / 12;
  const { width, mask } = grid;
  const pass = (z: Float32Array, step: number): Float32Array =>
    z.map((value, i) =>
      mask[i]
        ? value + side * ((mask[i - step] ? z[i - step] - value : 0) + (mask[i + step] ? z[i + step] - value : 0))
        : 0,
    );
  return withHeights(grid, pass(pass(grid.z, 1), width));
}

function differenceOf(a: HeightGrid, b: HeightGrid): Float32Array {
  const d = new Float32Array(a.z.length).fill(Number.NaN);
  for (let i = 0; i < d.length; i++) if (a.mask[i] && b.mask[i]) d[i] = b.z[i] - a.z[i];
  return d;
}

/** The polygon with x turned round. */
export const mirrored = (polygon: Float64Array): Float64Array =>
  polygon.map((value, i) => (i % 2 === 0 ? -value : value));

/** The polygon about the face's centre (the origin), smaller by a factor. */
const shrunk = (polygon: Float64Array, factor: number): Float64Array => polygon.map((value) => value * factor);

/** Height over the surroundings within about half a millimetre: what stands narrow. */
function narrowHeight(grid: HeightGrid, cutoffMm = 2.7): Float32Array {
  const wide = gaussianFilter(grid, cutoffMm).z;
  return grid.z.map((value, i) => value - wide[i]);
}

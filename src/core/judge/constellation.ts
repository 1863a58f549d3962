import { Matrix, pseudoInverse } from 'ml-matrix';
import { columnOf, eigenSymmetric, type HeightGrid, median, rowOf } from '../geometry/index.ts';
import { findLandmarks, type Landmark, landmarkDefaults } from './landmarks.ts';
import { type Placed, registerWindow } from './registerWindow.ts';

/** A landmark of the reference and where the subject has it, after one scale. */
export interface PlacedLandmark extends Landmark {
  /** Shift of the subject's against the reference's, mm. */
  readonly dx: number;
  readonly dy: number;
  /** What the others leave unexplained of it, mm: after one scale, and after a smooth bending besides. */
  readonly alone: readonly [dx: number, dy: number];
  readonly aloneSmooth: readonly [dx: number, dy: number];
  /** Half axes, mm, and direction, degrees counter-clockwise from x, of the 95 % error ellipse of its place. */
  readonly ellipse: { readonly majorMm: number; readonly minorMm: number; readonly deg: number };
  readonly correlation: number;
}

/** Places of letters and ornaments compared: how far each lies from where the others put it. */
export interface Constellation {
  readonly landmarks: readonly PlacedLandmark[];
  readonly found: number;
  /** Those of the reference that the subject does not show. */
  readonly unseen: readonly Landmark[];
  /** Median distance left over, mm, leave-one-out: after one scale, and after a smooth bending besides. */
  readonly oneScaleMm: number;
  readonly smoothMm: number;
  /** Share of landmarks whose smooth remainder lies outside its own 95 % error ellipse, widened by what wax flows locally. */
  readonly outside: number;
}

export const constellationDefaults = {
  /** Greatest shift looked at, mm and as a share of the size: the larger counts. */
  reachMm: 0.6,
  reachShare: 0.02,
  /** A landmark counts where the subject shows it at least so well. */
  leastCorrelation: 0.6,
  /** What one die's impressions differ by besides, from place to place: local flow, 1 σ in each direction, mm. */
  flowMm: 0.02,
  /** Landmarks needed for a word: for each degree of the smooth bending, more. */
  least: 8,
};

/**
 * Constellation of landmarks: found on the reference, each placed on the subject by correlation of the relief around it,
 * then compared with where all others put it (leave-one-out): after one similarity of the plane, and after a polynomial
 * bending of at most third degree as wax allows. A die repeats every place; a copyist moves each letter by his own
 * tenth of a millimetre, which no smooth bending takes back.
 *
 * `reference`, `subject`: band-passed relief on the same cells after the one-scale fit, mm. `given`: landmarks put or
 * corrected by hand. Leave-one-out by the hat matrix: r/(1 − h).
 */
export function constellationOf(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  given?: readonly Landmark[],
  options = constellationDefaults,
): Constellation {
  const landmarks = given ?? findLandmarks(reference, sizeMm);
  const radius = Math.max(4, Math.round((landmarkDefaults.radius * sizeMm) / reference.pitch));
  const reach = Math.round(Math.max(options.reachMm, options.reachShare * sizeMm) / reference.pitch);
  const looked = landmarks.map((landmark) => placeOf(reference, subject, landmark, radius, reach));
  const isSeen = ({ correlation }: Place): boolean => correlation >= options.leastCorrelation;
  const placed = looked.filter(isSeen);
  if (placed.length < options.least) return { ...nothing, found: landmarks.length, unseen: landmarks };
  const unseen = looked.filter((place) => !isSeen(place)).map(({ x, y }) => ({ x, y }));
  const scaled = leaveOneOut(placed, similarityRows);
  const smooth = leaveOneOut(placed, polynomialRows(placed.length, sizeMm));
  return {
    landmarks: placed.map((place, i) => ({ ...place, alone: scaled[i], aloneSmooth: smooth[i] })),
    found: landmarks.length,
    unseen,
    oneScaleMm: median(scaled.map(([x, y]) => Math.hypot(x, y))),
    smoothMm: median(smooth.map(([x, y]) => Math.hypot(x, y))),
    outside: placed.filter((place, i) => isOutside(smooth[i], place, options.flowMm)).length / placed.length,
  };
}

const nothing: Constellation = {
  landmarks: [],
  found: 0,
  unseen: [],
  oneScaleMm: Number.NaN,
  smoothMm: Number.NaN,
  outside: Number.NaN,
};

type Place = Omit<PlacedLandmark, 'alone' | 'aloneSmooth'>;

function placeOf(a: HeightGrid, b: HeightGrid, { x, y }: Landmark, radius: number, reach: number): Place {
  const left = Math.round(columnOf(a, x)) - radius;
  const top = Math.round(rowOf(a, y)) - radius;
  const placed = registerWindow(a, b, left, top, 2 * radius + 1, reach);
  return {
    x,
    y,
    dx: placed.dx * a.pitch,
    dy: placed.dy * a.pitch,
    correlation: placed.inside ? placed.correlation : 0,
    ellipse: errorEllipse(placed, 2 * radius + 1, a.pitch),
  };
}

/** χ² of two degrees of freedom at 95 %. */
const chiSquare95 = 5.991;

/** Independent cells of band-passed relief: one in so many, see `constellationOf`. */
const cellsEach = 4;

/**
 * 95 % error ellipse of a place: for Σ(a − k b)² near its least, with correlation ρ − dᵀHd, the covariance is
 * (1 − ρ²)/(2 ρ n) H⁻¹, n the independent cells of the window; half axes √(5.991 λ).
 */
function errorEllipse({ correlation, falloff: [xx, xy, yy] }: Placed, side: number, pitch: number): Place['ellipse'] {
  const { values, vectors } = eigenSymmetric(Float64Array.of(xx, xy, xy, yy), 2);
  const n = side ** 2 / cellsEach;
  const noise = (1 - correlation ** 2) / (2 * Math.max(0.05, correlation) * n);
  const half = (falloff: number): number => pitch * Math.sqrt((chiSquare95 * noise) / Math.max(falloff, 1e-4));
  // The correlation falls off least along the ellipse's long axis.
  const deg = (Math.atan2(vectors[2], vectors[0]) * 180) / Math.PI;
  return { majorMm: half(values[0]), minorMm: half(values[1]), deg: ((deg % 180) + 180) % 180 };
}

/** Outside the ellipse of the place and the flow together: their covariances add. */
export function isOutside(
  [dx, dy]: readonly [number, number],
  { ellipse: { majorMm, minorMm, deg } }: Pick<PlacedLandmark, 'ellipse'>,
  flowMm: number,
): boolean {
  const turn = (deg * Math.PI) / 180;
  const along = dx * Math.cos(turn) + dy * Math.sin(turn);
  const across = dy * Math.cos(turn) - dx * Math.sin(turn);
  const flow = chiSquare95 * flowMm ** 2;
  return along ** 2 / (majorMm ** 2 + flow) + across ** 2 / (minorMm ** 2 + flow) > 1;
}

type Rows = (place: Landmark) => readonly [forX: readonly number[], forY: readonly number[]];

const similarityRows: Rows = ({ x, y }) => [
  [x, -y, 1, 0],
  [y, x, 0, 1],
];

/** Both shifts as polynomials of the place; the degree rises with the number of landmarks: five for each coefficient. */
function polynomialRows(count: number, sizeMm: number): Rows {
  const degree = count >= 50 ? 3 : count >= 30 ? 2 : 1;
  return ({ x, y }) => {
    const terms: number[] = [];
    for (let p = 0; p <= degree; p++)
      for (let q = 0; p + q <= degree; q++) terms.push((x / sizeMm) ** p * (y / sizeMm) ** q);
    const none = terms.map(() => 0);
    return [
      [...terms, ...none],
      [...none, ...terms],
    ];
  };
}

/** What is left of each shift when the model is fitted to all others: least squares with Tukey weights, then r/(1 − h). */
function leaveOneOut(placed: readonly Place[], rows: Rows): (readonly [number, number])[] {
  const design = placed.flatMap((place) => rows(place).map((row) => [...row]));
  const values = placed.flatMap(({ dx, dy }) => [dx, dy]);
  let left = remainders(
    design,
    values,
    values.map(() => 1),
  );
  for (let pass = 0; pass < 5; pass++) {
    const length = pairs(left).map(([x, y]) => Math.hypot(x, y));
    const limit = 4.685 * Math.max(median(length) / 1.1774, 1e-4);
    const weights = length.flatMap((r) => {
      const weight = r < limit ? (1 - (r / limit) ** 2) ** 2 : 0;
      return [weight, weight];
    });
    left = remainders(design, values, weights);
  }
  return pairs(left);
}

const pairs = (values: readonly number[]): (readonly [number, number])[] =>
  Array.from({ length: values.length / 2 }, (_, i) => [values[2 * i], values[2 * i + 1]] as const);

/** Weighted least squares; each remainder as if its own row had not been used. */
function remainders(rows: number[][], values: readonly number[], weights: readonly number[]): number[] {
  const design = new Matrix(rows);
  const weighted = new Matrix(rows.map((row, i) => row.map((value) => value * weights[i])));
  const inverse = pseudoInverse(weighted.transpose().mmul(design));
  const coefficients = inverse.mmul(weighted.transpose().mmul(Matrix.columnVector([...values])));
  const fitted = design.mmul(coefficients).to1DArray();
  const spread = design.mmul(inverse);
  return values.map((value, i) => {
    let leverage = 0;
    for (let k = 0; k < rows[i].length; k++) leverage += weights[i] * spread.get(i, k) * rows[i][k];
    return (value - fitted[i]) / Math.max(0.05, 1 - leverage);
  });
}

import { xOf, yOf } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';

/** Relief that the subject shows a second time beside its place. */
export interface SecondStrike {
  /** A slip moved the matrix a little while it was pressed; a double strike set it down again, turned or farther off. */
  readonly kind: 'slip' | 'doubleStrike';
  /** Of the ghost against the relief at the face's centre: length, and direction clockwise from the top of the impression. */
  readonly shiftMm: number;
  readonly towardDeg: number;
  /** Counter-clockwise as the impression is seen. */
  readonly turnDeg: number;
  /** Share of the places where a ghost would stand clear of the relief that do stand up. */
  readonly share: number;
  /** Agreement of the excess with the ghost less its agreement with the ghost the other way. */
  readonly contrast: number;
}

export const secondStrikeDefaults = {
  samples: 5000,
  /** Every so many of them is used to look through the shifts and turns below; all of them after that. */
  coarse: 3,
  shiftsMm: [0.25, 0.4, 0.6, 0.85, 1.2],
  directions: 16,
  turnsDeg: [-4, -2, 0, 2, 4],
  /** Height of the ghost against the relief's own. */
  weaker: 0.65,
  /** Excess counts beyond this many standard deviations, and up to so much, mm. */
  leastSigma: 1.5,
  mostMm: 0.4,
  /** A ghost is reported from this contrast and this share. */
  leastContrast: 0.18,
  leastShare: 0.22,
  /** A slip is no longer than this and no more turned. */
  slipMm: 1,
  slipDeg: 1,
};

/**
 * Finds a ghost of the relief beside itself. Where a matrix slips or is struck twice, the higher of two surfaces shows, so that the
 * excess e = max(0, d − 1.5 σ) follows p = max(0, w h(R⁻¹(x − u)) − h(x)), h the reference over its ground. Of all shifts u
 * and turns R the one with the greatest correlation e·p / √(e·e p·p) is taken; it must beat the same ghost the other way,
 * −u, since blur and softness put an excess on both sides. Null where none does. Lengths in mm, `relief` in the positive's sense.
 */
export function secondStrike(relief: WearRelief, loss: LossField, options = secondStrikeDefaults): SecondStrike | null {
  const cells = sampleOf(relief, loss, options);
  if (cells.excess.length < 500) return null;
  const some = everyNth(cells, options.coarse);
  let best: Ghost = { dx: 0, dy: 0, turnDeg: 0, agreement: 0 };
  const look = (dx: number, dy: number, turnDeg: number, on = some): void => {
    const agreement = agreementOf(on, relief, loss, { dx, dy, turnDeg }, options);
    if (agreement > best.agreement) best = { dx, dy, turnDeg, agreement };
  };
  for (const turnDeg of options.turnsDeg)
    for (const shift of options.shiftsMm)
      for (let k = 0; k < options.directions; k++) {
        const angle = (2 * Math.PI * k) / options.directions;
        look(shift * Math.cos(angle), shift * Math.sin(angle), turnDeg);
      }
  best = { ...best, agreement: 0 };
  for (const [step, turn] of [
    [0.1, 1],
    [0.05, 0.5],
  ]) {
    const { dx, dy, turnDeg } = best;
    for (const a of [-step, 0, step])
      for (const b of [-step, 0, step]) for (const t of [-turn, 0, turn]) look(dx + a, dy + b, turnDeg + t, cells);
  }
  const back = agreementOf(cells, relief, loss, { dx: -best.dx, dy: -best.dy, turnDeg: -best.turnDeg }, options);
  const contrast = best.agreement - back;
  const share = shareOf(cells, relief, loss, best, options);
  return contrast >= options.leastContrast && share >= options.leastShare
    ? named(best, contrast, share, options)
    : null;
}

interface Ghost {
  readonly dx: number;
  readonly dy: number;
  readonly turnDeg: number;
  readonly agreement: number;
}

/** Cells that are looked at. */
interface Samples {
  readonly excess: Float32Array;
  /** Where each lies, mm, and the height over its ground, above which a ghost must rise. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly height: Float64Array;
}

function sampleOf(relief: WearRelief, { sigma, height }: LossField, options: Options): Samples {
  const { reference, difference: d, inside } = relief;
  const stride = Math.max(1, Math.floor(Math.sqrt(d.length / options.samples)));
  const at: number[] = [];
  for (let row = 0; row < reference.height; row += stride)
    for (let col = 0; col < reference.width; col += stride) {
      const i = row * reference.width + col;
      if (inside[i] && !Number.isNaN(d[i])) at.push(i);
    }
  const excess = Float32Array.from(at, (i) =>
    Math.min(options.mostMm, Math.max(0, d[i] - options.leastSigma * sigma[i])),
  );
  return {
    excess,
    x: Float64Array.from(at, (i) => xOf(reference, i % reference.width)),
    y: Float64Array.from(at, (i) => yOf(reference, Math.floor(i / reference.width))),
    height: Float64Array.from(at, (i) => Math.max(0, height[i])),
  };
}

function everyNth({ excess, x, y, height }: Samples, n: number): Samples {
  const nth = (_: number, k: number): boolean => k % n === 0;
  return { excess: excess.filter(nth), x: x.filter(nth), y: y.filter(nth), height: height.filter(nth) };
}

type Options = typeof secondStrikeDefaults;
type Way = Omit<Ghost, 'agreement'>;

/** Heights of the ghost over the relief at the cells, mm; 0 where the relief hides it. */
function ghostOver(
  { reference }: WearRelief,
  { height }: LossField,
  cells: Samples,
  { dx, dy, turnDeg }: Way,
  weaker: number,
): Float64Array {
  const { width, pitch, left, top, mask } = reference;
  const rows = reference.height;
  const cos = Math.cos((turnDeg * Math.PI) / 180);
  const sin = Math.sin((turnDeg * Math.PI) / 180);
  const over = new Float64Array(cells.x.length);
  for (let k = 0; k < over.length; k++) {
    const x = cells.x[k] - dx;
    const y = cells.y[k] - dy;
    const col = Math.round((cos * x + sin * y - left) / pitch);
    const row = Math.round((top - (cos * y - sin * x)) / pitch);
    if (col < 0 || row < 0 || col >= width || row >= rows || !mask[row * width + col]) continue;
    over[k] = Math.max(0, weaker * height[row * width + col] - cells.height[k] - 0.03);
  }
  return over;
}

function agreementOf(cells: Samples, relief: WearRelief, loss: LossField, way: Way, options: Options): number {
  const ghost = ghostOver(relief, loss, cells, way, options.weaker);
  let [ep, ee, pp] = [0, 1e-9, 1e-9];
  for (let k = 0; k < ghost.length; k++) {
    const e = cells.excess[k];
    const p = ghost[k];
    ep += e * p;
    ee += e * e;
    pp += p * p;
  }
  return ep / Math.sqrt(ee * pp);
}

/** Of the places where the ghost would stand up by 0.08 mm or more, the share that has an excess. */
function shareOf(cells: Samples, relief: WearRelief, loss: LossField, way: Way, options: Options): number {
  let [all, up] = [0, 0];
  ghostOver(relief, loss, cells, way, options.weaker).forEach((height, k) => {
    if (height < 0.08) return;
    all++;
    if (cells.excess[k] > 0.02) up++;
  });
  return all > 20 ? up / all : 0;
}

function named({ dx, dy, turnDeg }: Ghost, contrast: number, share: number, options: Options): SecondStrike {
  const shiftMm = Math.hypot(dx, dy);
  const towardDeg = ((Math.atan2(dx, dy) * 180) / Math.PI + 360) % 360;
  const kind = shiftMm <= options.slipMm && Math.abs(turnDeg) <= options.slipDeg ? 'slip' : 'doubleStrike';
  return { kind, shiftMm, towardDeg, turnDeg, share, contrast };
}

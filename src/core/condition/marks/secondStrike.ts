import { withHeights, xOf, yOf } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import { agreementsOf, type GhostCells, type GhostWay, ghostOver } from './ghosts.ts';

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
  const ground = withHeights(relief.reference, loss.height);
  const height = { weaker: options.weaker, clear: clearMm };
  const agreement = agreementsOf(ground, cells, height);
  let best: Ghost = { dx: 0, dy: 0, turnDeg: 0, agreement: 0 };
  const look = (way: GhostWay, every: number): void => {
    const found = agreement(way, every);
    if (found > best.agreement) best = { ...way, agreement: found };
  };
  for (const turnDeg of options.turnsDeg)
    for (const shift of options.shiftsMm)
      for (let k = 0; k < options.directions; k++) {
        const angle = (2 * Math.PI * k) / options.directions;
        look({ dx: shift * Math.cos(angle), dy: shift * Math.sin(angle), turnDeg }, options.coarse);
      }
  best = { ...best, agreement: 0 };
  for (const [step, turn] of [
    [0.1, 1],
    [0.05, 0.5],
  ]) {
    const { dx, dy, turnDeg } = best;
    for (const a of [-step, 0, step])
      for (const b of [-step, 0, step])
        for (const t of [-turn, 0, turn]) look({ dx: dx + a, dy: dy + b, turnDeg: turnDeg + t }, 1);
  }
  const back = agreement({ dx: -best.dx, dy: -best.dy, turnDeg: -best.turnDeg }, 1);
  const contrast = best.agreement - back;
  const share = shareOf(ghostOver(ground, cells, best, height), cells.excess);
  return contrast >= options.leastContrast && share >= options.leastShare
    ? named(best, contrast, share, options)
    : null;
}

/** How far a ghost must rise over a cell. */
const clearMm = 0.03;

interface Ghost extends GhostWay {
  readonly agreement: number;
}

function sampleOf(relief: WearRelief, { sigma, height }: LossField, options: Options): GhostCells {
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

type Options = typeof secondStrikeDefaults;

/** Of the places where the ghost would stand up by 0.08 mm or more, the share that has an excess. */
function shareOf(ghost: Float64Array, excess: Float32Array): number {
  let [all, up] = [0, 0];
  ghost.forEach((height, k) => {
    if (height < 0.08) return;
    all++;
    if (excess[k] > 0.02) up++;
  });
  return all > 20 ? up / all : 0;
}

function named({ dx, dy, turnDeg }: Ghost, contrast: number, share: number, options: Options): SecondStrike {
  const shiftMm = Math.hypot(dx, dy);
  const towardDeg = ((Math.atan2(dx, dy) * 180) / Math.PI + 360) % 360;
  const kind = shiftMm <= options.slipMm && Math.abs(turnDeg) <= options.slipDeg ? 'slip' : 'doubleStrike';
  return { kind, shiftMm, towardDeg, turnDeg, share, contrast };
}

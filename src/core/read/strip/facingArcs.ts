import { likelihoodExplained, rows } from '../../design/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';
import { barePlaces, inkOf } from './barePlaces.ts';
import { type LetterPart, letterPicture, withoutRowMeans } from './letterPicture.ts';
import { lettersExplain, strokeWave } from './letterSense.ts';
import { type OwnLetters, ownLetters } from './ownLetters.ts';
import type { FacingArc } from './pieces.ts';
import { stopsAt, widest } from './stops.ts';
import { clockDeg, type Strip } from './unroll.ts';

export const arcDefaults = {
  /** What a change of facing costs at a stop, in letters explained by a likelihood of e. */
  changeCost: 0.15,
  /** What it costs besides for each letter's height that the gap there is narrower than a stop's. */
  narrowCost: 0.8,
  /** What the ring's likeness to itself counts against likeness to capitals. */
  ownShare: 0.3,
  /** An arc has at least so many letters' heights of length. */
  leastLetters: 3,
};

/** Doubts about arcs: where the ring is cut, and which of them stand upright. */
export type FacingDoubt = 'cutUnsure' | 'senseUnsure';

export interface FacingOfArcs {
  readonly arcs: readonly FacingArc[];
  /** What the best cut ring is worth above the ring left whole, the price of its changes paid. */
  readonly cutGain: number;
  /** What capitals explain in the arcs as they are told, above the same all turned over. */
  readonly senseGain: number;
  readonly doubts: readonly FacingDoubt[];
}

/** Gains within this much of nothing could as well be chance; so could a sense that gains less than the other. */
const doubtfulCut = 0.12;
const doubtfulSense = 0.25;

/** The arcs of one ring need not have letters of one height: all of the band's letters, their upper and lower four fifths. */
const parts: readonly LetterPart[] = [
  [0, 1],
  [0, 0.8],
  [0.2, 1],
];

/**
 * The arcs of a ring by the way their letters face, clockwise; one arc where all face one way. `round`: the whole ring
 * unrolled with feet to the centre.
 *
 * A labelling of the ring's places, upright or upside down, is worth Σ over its arcs of the likelihood that the best course of capitals
 * has in that sense (against the band's whole height of letters or a part of it, whichever is most;
 * `letterCourse`), + 0.3 · how well the ring's own letters agree with it (`ownLetters`), − what its changes cost. Changes lie at bare
 * places between letters and cost least at stops (`stopsAt`). From the ring left whole, that stretch between two such places is turned over whose turning gains most, and
 * again, until none gains. Numbers, and what was tried: docs/read.md.
 */
export function facingOfArcs(round: Strip, options = arcDefaults): FacingOfArcs {
  const letterMm = round.band.lettersInnerMm - round.band.lettersOuterMm;
  const count = Math.round((round.roundMm * rows) / letterMm);
  const picture = letterPicture(round);
  const own = ownLetters(withoutRowMeans(picture), count);
  const capitals = capitalsOf(round, own);
  const costs = costsOf(picture, count, own.step, options);
  const least = Math.ceil((options.leastLetters * rows) / own.step);
  const valued = (facing: Int8Array): Labelled => ({
    facing,
    value:
      capitals(facing) +
      options.ownShare * own.agreement(facing) -
      changesOf(facing).reduce((sum, at) => sum + (costs.get(at) ?? dearest(options)), 0),
  });
  const whole = ([1, -1] as const)
    .map((way) => valued(new Int8Array(own.windows).fill(way)))
    .reduce((p, q) => (q.value > p.value ? q : p));
  let [best, cutGain] = [whole, Number.NEGATIVE_INFINITY];
  for (let round = 0; round < mostRounds; round++) {
    const next = bestTurned(best.facing, [...costs.keys()], least, valued);
    if (round === 0 && next) cutGain = next.value - whole.value;
    if (!next || next.value <= best.value) break;
    best = next;
  }
  const senseGain = capitals(best.facing) - capitals(best.facing.map((way) => -way));
  const doubts: FacingDoubt[] = [];
  if (Math.abs(cutGain) < doubtfulCut) doubts.push('cutUnsure');
  if (senseGain < doubtfulSense) doubts.push('senseUnsure');
  return { arcs: arcsOf(round, best.facing, own.step), cutGain, senseGain, doubts };
}

export const facingArcs = (round: Strip, options = arcDefaults): FacingArc[] => [...facingOfArcs(round, options).arcs];

/** A ring has few arcs. */
const mostRounds = 6;

interface Labelled {
  /** 1 upright, −1 upside down, window by window. */
  readonly facing: Int8Array;
  readonly value: number;
}

const dearest = ({ changeCost, narrowCost }: typeof arcDefaults): number => changeCost + narrowCost * widest;

/** What a change costs at each bare place between letters, by the window that begins there. */
function costsOf(
  picture: HeightGrid,
  count: number,
  step: number,
  options: typeof arcDefaults,
): ReadonlyMap<number, number> {
  const places = barePlaces(inkOf(picture, count));
  const stops = stopsAt(picture, count, places);
  return new Map(places.map((c, k) => [Math.floor(c / step), dearest(options) - options.narrowCost * stops[k]]));
}

/** The best labelling that differs by one stretch turned over, or by all but that stretch; null where no stretch is long enough. */
function bestTurned(
  facing: Int8Array,
  places: readonly number[],
  least: number,
  valued: (facing: Int8Array) => Labelled,
): Labelled | null {
  let best: Labelled | null = null;
  for (const from of places)
    for (const to of places) {
      if (to <= from) continue;
      for (const way of [1, -1]) {
        const turned = facing.map((own, i) => (i >= from && i < to ? -own : own) * way);
        if (shortest(turned) < least) continue;
        const next = valued(turned);
        if (!best || next.value > best.value) best = next;
      }
    }
  return best;
}

function shortest(facing: Int8Array): number {
  const changes = changesOf(facing);
  const n = facing.length;
  return Math.min(n, ...changes.map((from, k) => (changes[(k + 1) % changes.length] - from + n) % n));
}

/** What capitals explain of a labelled ring. */
function capitalsOf(round: Strip, { windows, step }: OwnLetters): (facing: Int8Array) => number {
  const pictures = parts.map((part) => withoutRowMeans(letterPicture(round, part, strokeWave)));
  const sums = (['upright', 'upsideDown'] as const).map((sense) =>
    parts.map((part, k) => {
      const worth = lettersExplain(pictures[k], sense, likelihoodExplained);
      const fine = 1 / (part[1] - part[0]);
      const sum = new Float64Array(windows + 1);
      for (let i = 0; i < windows; i++) {
        sum[i + 1] = sum[i];
        for (let c = step * i; c < step * (i + 1); c++) sum[i + 1] += (worth[Math.floor((c + 0.5) * fine)] || 0) / rows;
      }
      return sum;
    }),
  );
  return (facing) => {
    const changes = changesOf(facing);
    const ends = changes.length > 0 ? changes : [0];
    return ends.reduce((total, from, k) => {
      const to = k + 1 < ends.length ? ends[k + 1] : ends[0];
      const over = (sum: Float64Array): number =>
        to > from ? sum[to] - sum[from] : sum[windows] - sum[from] + sum[to];
      return total + Math.max(...sums[facing[from] > 0 ? 0 : 1].map(over));
    }, 0);
  };
}

function arcsOf(round: Strip, facing: Int8Array, step: number): FacingArc[] {
  const letterMm = round.band.lettersInnerMm - round.band.lettersOuterMm;
  const nameOf = (way: number): FacingArc['facing'] => (way > 0 ? 'inward' : 'outward');
  const changes = changesOf(facing);
  if (changes.length < 2) return [{ fromDeg: 0, toDeg: 360, facing: nameOf(facing[0]) }];
  const deg = (window: number): number => {
    const k = Math.min(round.x.length - 1, Math.round((window * step * letterMm) / rows / round.grid.pitch));
    return clockDeg(round.x[k] - round.band.cx, round.y[k] - round.band.cy);
  };
  return changes.map((from, k) => ({
    fromDeg: deg(from),
    toDeg: deg(changes[(k + 1) % changes.length]),
    facing: nameOf(facing[from]),
  }));
}

/** Windows at which the facing differs from that of the one before, round the ring. */
function changesOf(facing: Int8Array): number[] {
  const n = facing.length;
  const list: number[] = [];
  for (let i = 0; i < n; i++) if (facing[i] !== facing[(i + n - 1) % n]) list.push(i);
  return list;
}

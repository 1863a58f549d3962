import type { HeightGrid } from '../../geometry/index.ts';
import { type LetterPart, letterPicture, margin, rows } from './letterPicture.ts';
import { lettersExplain, strokeWave } from './letterSense.ts';
import type { FacingArc } from './pieces.ts';
import { clockDeg, type Strip } from './unroll.ts';

export const arcDefaults = {
  /** What a change of facing or height costs, in letters fully explained. */
  changeCost: 0.2,
  /** An arc has at least so many letters' heights of length. */
  leastLetters: 3,
};

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
 * w(c, s) = what the best course of capitals explains at column c in state s (`letterCourse`): upright or upside down,
 * against the whole height of the band's letters or a part of it. The states of all columns are those for which
 * Σ w(c, s(c))/h − 0.2 · changes is greatest on the closed ring, h columns being a letter's height (dynamic
 * programming, begun in every state and closed in the same). Arcs shorter than three letters are given up, and each
 * change is put on the barest place within a letter of where it was found. The cost is a trade: on one-facing legends
 * a stretch that happens to look upside down gains less than 0.2 in 97 of 100, and an arc of eight letters rubbed by
 * 60 % has 0.34 (docs/read.md).
 */
export function facingArcs(round: Strip, options = arcDefaults): FacingArc[] {
  const letterMm = round.band.lettersInnerMm - round.band.lettersOuterMm;
  const count = Math.round((round.roundMm * rows) / letterMm);
  const worth = explained(round, count);
  const best = bestStates(worth, options.changeCost * rows);
  const facing = withoutShort(
    best.map((s) => (s < parts.length ? 1 : -1)),
    options.leastLetters * rows,
  );
  const ink = inkOf(letterPicture(round, [0, 1], strokeWave), count);
  const changes = changesOf(facing).map((c) => barest(ink, c));
  if (changes.length < 2) return [{ fromDeg: 0, toDeg: 360, facing: facing[0] > 0 ? 'inward' : 'outward' }];
  const deg = (c: number): number => {
    const k = Math.min(round.x.length - 1, Math.round((c * letterMm) / rows / round.grid.pitch));
    return clockDeg(round.x[k] - round.band.cx, round.y[k] - round.band.cy);
  };
  return changes.map((from, k) => {
    const to = changes[(k + 1) % changes.length];
    const middle = (from + (((to - from + count) % count) >> 1)) % count;
    return { fromDeg: deg(from), toDeg: deg(to), facing: facing[middle] > 0 ? 'inward' : 'outward' };
  });
}

/** Worth of each state at each of `count` columns round the ring: upright in every part, then upside down in every part. */
function explained(round: Strip, count: number): Float64Array[] {
  const pictures = parts.map((part) => ({
    picture: letterPicture(round, part, strokeWave),
    fine: 1 / (part[1] - part[0]),
  }));
  return (['upright', 'upsideDown'] as const).flatMap((sense) =>
    pictures.map(({ picture, fine }) => {
      const worth = lettersExplain(picture, sense);
      return Float64Array.from({ length: count }, (_, c) => worth[Math.floor((c + 0.5) * fine)] || 0);
    }),
  );
}

function bestStates(worth: readonly Float64Array[], cost: number): Int8Array {
  const runs = worth.map((_, first) => closedRun(worth, cost, first));
  return runs.reduce((p, q) => (q.value > p.value ? q : p)).states;
}

/** The best run that begins and ends in one state. */
function closedRun(worth: readonly Float64Array[], cost: number, first: number) {
  const n = worth[0].length;
  let value = worth.map((_, s) => (s === first ? 0 : Number.NEGATIVE_INFINITY));
  const came = new Int8Array(worth.length * n);
  for (let c = 0; c < n; c++) {
    const top = value.indexOf(Math.max(...value));
    value = value.map((own, s) => {
      const change = value[top] - cost;
      came[s * n + c] = change > own ? top : s;
      return Math.max(own, change) + worth[s][c];
    });
  }
  const states = new Int8Array(n);
  for (let c = n - 1, s = first; c >= 0; c--) {
    states[c] = s;
    s = came[s * n + c];
  }
  return { value: value[first], states };
}

/** Columns at which the facing differs from that of the one before, round the ring. */
function changesOf(facing: Int8Array): number[] {
  const n = facing.length;
  const list: number[] = [];
  for (let c = 0; c < n; c++) if (facing[c] !== facing[(c + n - 1) % n]) list.push(c);
  return list;
}

function withoutShort(facing: Int8Array, least: number): Int8Array {
  const n = facing.length;
  for (;;) {
    const changes = changesOf(facing);
    if (changes.length < 2) return facing;
    const lengths = changes.map((from, k) => (changes[(k + 1) % changes.length] - from + n) % n);
    const k = lengths.indexOf(Math.min(...lengths));
    if (lengths[k] >= least) return facing;
    for (let i = 0; i < lengths[k]; i++) facing[(changes[k] + i) % n] *= -1;
  }
}

/** Standard deviation of the relief between tops and feet at each column. */
function inkOf({ width, z, mask }: HeightGrid, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, c) => {
    let [sum, squares, n] = [0, 0, 0];
    for (let r = margin, i = margin * width + c; r < margin + rows; r++, i += width) {
      if (!mask[i] || c >= width) continue;
      sum += z[i];
      squares += z[i] * z[i];
      n++;
    }
    return n > 0 ? Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2)) : 0;
  });
}

/** The middle of the barest third of a letter within a letter of column c. */
function barest(ink: Float64Array, c: number): number {
  const n = ink.length;
  const half = Math.round(rows / 6);
  let [best, least] = [c, Number.POSITIVE_INFINITY];
  for (let off = -rows; off <= rows; off++) {
    let sum = 0;
    for (let k = -half; k <= half; k++) sum += ink[(c + off + k + 2 * n) % n];
    if (sum < least) [best, least] = [(c + off + n) % n, sum];
  }
  return best;
}

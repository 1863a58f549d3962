import type { Way } from './outerEdge.ts';

export const joinBaysDefaults = {
  /** Shorter than this a bay has no direction, mm: an edge is ragged everywhere. */
  leastMm: 1,
  /** Of what was joined so much at least is one break, mm: the ends of two short bays come together by chance. */
  leastJoinedMm: 10,
  /** So much edge may lie between two bays of one break, mm. */
  joinMm: 2,
  /** From the first bay of a break to its last the edge turns by no more, degrees: at a corner of a matrix it turns by more, and an arc of no more lies along its parabola. */
  turnDeg: 20,
};

/** Points of a closed edge in order, as indices. */
export type Stretch = readonly number[];

/**
 * A break that is straight in the large touches its own hull, and each bay between two touches alone says little. Bays one after the other along which, and between
 * which, the other edge runs too (`alongside`) are one stretch, the edge between them with it, as long as the edge hardly turns.
 */
export function joinBays(
  edge: Way,
  bays: readonly Stretch[],
  alongside: (i: number) => boolean,
  stepMm: number,
  options = joinBaysDefaults,
): Stretch[] {
  const { leastMm, joinMm, turnDeg, leastJoinedMm } = options;
  const n = edge.length / 2;
  const joined: { points: number[]; readonly direction: number; readonly bays: Stretch[] }[] = [];
  for (const bay of inOrder(
    bays.filter(({ length }) => length * stepMm >= leastMm),
    n,
  )) {
    const direction = directionOf(edge, bay);
    const last = joined[joined.length - 1];
    const between = last ? betweenOf(last.points[last.points.length - 1], bay[0], n) : [];
    const goesOn =
      last &&
      between.length * stepMm <= joinMm &&
      turnOf(last.direction, direction) <= turnDeg &&
      between.every(alongside);
    if (goesOn) {
      last.points = [...last.points, ...between, ...bay];
      last.bays.push(bay);
    } else joined.push({ points: [...bay], direction, bays: [bay] });
  }
  return joined.flatMap(({ points, bays: own }) => (points.length * stepMm >= leastJoinedMm ? [points] : own));
}

/** The same, beginning behind the widest gap: where an edge begins is nobody's choice. */
function inOrder(bays: readonly Stretch[], n: number): Stretch[] {
  const gapBefore = (k: number): number => {
    const before = bays[(k + bays.length - 1) % bays.length];
    return (bays[k][0] - before[before.length - 1] + n) % n;
  };
  const first = bays.reduce((widest, _, k) => (gapBefore(k) > gapBefore(widest) ? k : widest), 0);
  return [...bays.slice(first), ...bays.slice(0, first)];
}

const betweenOf = (from: number, to: number, n: number): number[] =>
  Array.from({ length: (to - from - 1 + n) % n }, (_, k) => (from + 1 + k) % n);

/** Of the chord of a stretch, radians. */
function directionOf(edge: Way, stretch: Stretch): number {
  const [from, to] = [2 * stretch[0], 2 * stretch[stretch.length - 1]];
  return Math.atan2(edge[to + 1] - edge[from + 1], edge[to] - edge[from]);
}

function turnOf(from: number, to: number): number {
  const turn = Math.atan2(Math.sin(to - from), Math.cos(to - from));
  return (Math.abs(turn) * 180) / Math.PI;
}

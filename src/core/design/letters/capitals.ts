/**
 * Skeletons of capitals as seal engravers cut them (Roman and round forms), for telling which way letters stand; not for
 * reading them. Strokes in units of the letter's height: x from 0 to `width`, y from 0 (feet) to 1. Drawn from memory of
 * the letters' common shapes.
 */
export interface Skeleton {
  readonly letter: string;
  readonly width: number;
  /** x, y pairs of each stroke. */
  readonly strokes: readonly (readonly number[])[];
}

/** Part of an ellipse, degrees counter-clockwise from the right. */
function arc(cx: number, cy: number, rx: number, ry: number, from: number, to: number): number[] {
  const points: number[] = [];
  for (let k = 0; k <= 12; k++) {
    const t = ((from + ((to - from) * k) / 12) * Math.PI) / 180;
    points.push(cx + rx * Math.cos(t), cy + ry * Math.sin(t));
  }
  return points;
}

const stem = [0.05, 0, 0.05, 1];
const bowl = [0.05, 1, ...arc(0.28, 0.76, 0.22, 0.24, 90, -90), 0.05, 0.52];

export const skeletons: readonly Skeleton[] = [
  {
    letter: 'A',
    width: 0.8,
    strokes: [
      [0.02, 0, 0.4, 1, 0.78, 0],
      [0.18, 0.38, 0.62, 0.38],
    ],
  },
  {
    letter: 'A barred',
    width: 0.75,
    strokes: [
      [0.02, 0, 0.3, 1],
      [0.73, 0, 0.45, 1],
      [0.2, 1, 0.55, 1],
      [0.12, 0.35, 0.63, 0.35],
    ],
  },
  { letter: 'B', width: 0.55, strokes: [stem, bowl, [0.05, 0.52, ...arc(0.28, 0.26, 0.25, 0.26, 90, -90), 0.05, 0]] },
  { letter: 'C', width: 0.75, strokes: [arc(0.42, 0.5, 0.38, 0.5, 50, 310)] },
  { letter: 'D', width: 0.75, strokes: [stem, [0.05, 1, ...arc(0.3, 0.5, 0.42, 0.5, 90, -90), 0.05, 0]] },
  { letter: 'E', width: 0.55, strokes: [stem, [0.05, 1, 0.52, 1], [0.05, 0.52, 0.45, 0.52], [0.05, 0, 0.52, 0]] },
  { letter: 'E round', width: 0.7, strokes: [arc(0.42, 0.5, 0.38, 0.5, 45, 315), [0.05, 0.5, 0.62, 0.5]] },
  { letter: 'F', width: 0.55, strokes: [stem, [0.05, 1, 0.52, 1], [0.05, 0.52, 0.45, 0.52]] },
  { letter: 'G', width: 0.8, strokes: [arc(0.42, 0.5, 0.38, 0.5, 45, 320), [0.52, 0.42, 0.76, 0.42, 0.76, 0.1]] },
  { letter: 'H', width: 0.75, strokes: [stem, [0.7, 0, 0.7, 1], [0.05, 0.5, 0.7, 0.5]] },
  { letter: 'I', width: 0.1, strokes: [stem] },
  { letter: 'L', width: 0.55, strokes: [stem, [0.05, 0, 0.55, 0]] },
  { letter: 'M', width: 0.95, strokes: [[0.05, 0, 0.15, 1, 0.48, 0.15, 0.8, 1, 0.9, 0]] },
  { letter: 'N', width: 0.75, strokes: [[0.05, 0, 0.05, 1, 0.7, 0, 0.7, 1]] },
  { letter: 'O', width: 0.8, strokes: [arc(0.4, 0.5, 0.38, 0.48, 0, 360)] },
  { letter: 'P', width: 0.5, strokes: [stem, bowl] },
  { letter: 'R', width: 0.65, strokes: [stem, bowl, [0.25, 0.52, 0.62, 0]] },
  {
    letter: 'S',
    width: 0.55,
    strokes: [[...arc(0.27, 0.75, 0.22, 0.24, 40, 250), ...arc(0.27, 0.25, 0.24, 0.25, 75, -140)]],
  },
  {
    letter: 'T',
    width: 0.75,
    strokes: [
      [0.375, 0, 0.375, 1],
      [0.02, 1, 0.73, 1],
    ],
  },
  { letter: 'V', width: 0.8, strokes: [[0.02, 1, 0.4, 0, 0.78, 1]] },
];

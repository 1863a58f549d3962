import type { BandShape, CurvePlace } from './baseCurve.ts';

/**
 * Places from which to look for the curve: made from the outline as found, and from where there is detail at all, which
 * a broad margin of wax is not (both as x, y pairs, impression's sense, mm). The first is the outline's own box.
 */
export function startsFor(
  shape: Exclude<BandShape, 'free'>,
  outline: Float64Array,
  detailed: Float64Array = new Float64Array(0),
): CurvePlace[] {
  const starts: CurvePlace[] = [];
  const turns = shape === 'round' ? [0] : [0, smallestBox(outline).turnDeg];
  for (const turnDeg of turns) for (const box of enlarged(boxAt(outline, turnDeg))) starts.push(...turned(shape, box));
  if (detailed.length === 0) return starts;
  const inner = shape === 'round' ? [0] : [0, smallestBox(detailed).turnDeg];
  for (const turnDeg of inner)
    for (const box of shrunk(boxAt(detailed, turnDeg), [-0.05, 0, 0.06])) starts.push(...turned(shape, box));
  return starts;
}

/** A rectangle that holds the polygon, its axes turned clockwise by `turnDeg`. */
interface Box {
  readonly turnDeg: number;
  /** In the box's own axes. */
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

function boxAt(polygon: Float64Array, turnDeg: number): Box {
  const t = (turnDeg * Math.PI) / 180;
  const c = Math.cos(t);
  const s = Math.sin(t);
  let xMin = Number.POSITIVE_INFINITY;
  let xMax = Number.NEGATIVE_INFINITY;
  let yMin = xMin;
  let yMax = xMax;
  for (let i = 0; i < polygon.length; i += 2) {
    const x = c * polygon[i] - s * polygon[i + 1];
    const y = s * polygon[i] + c * polygon[i + 1];
    xMin = Math.min(xMin, x);
    xMax = Math.max(xMax, x);
    yMin = Math.min(yMin, y);
    yMax = Math.max(yMax, y);
  }
  return { turnDeg, xMin, xMax, yMin, yMax };
}

function smallestBox(polygon: Float64Array): Box {
  let best = boxAt(polygon, 0);
  const area = (box: Box): number => (box.xMax - box.xMin) * (box.yMax - box.yMin);
  for (let turnDeg = 3; turnDeg < 90; turnDeg += 3) {
    const box = boxAt(polygon, turnDeg);
    if (area(box) < area(best)) best = box;
  }
  return best;
}

/** The box itself, without a margin of wax, and grown on one side as if a piece had broken off there. */
function enlarged(box: Box): Box[] {
  const w = box.xMax - box.xMin;
  const h = box.yMax - box.yMin;
  const boxes = shrunk(box, [0, 0.04, 0.08, 0.15]);
  for (const grow of [0.2, 0.45, 0.8]) {
    boxes.push({ ...box, xMin: box.xMin - grow * w }, { ...box, xMax: box.xMax + grow * w });
    boxes.push({ ...box, yMin: box.yMin - grow * h }, { ...box, yMax: box.yMax + grow * h });
  }
  return boxes;
}

/** Taken in on all sides by shares of the shorter side. */
function shrunk(box: Box, margins: readonly number[]): Box[] {
  const side = Math.min(box.xMax - box.xMin, box.yMax - box.yMin);
  return margins.map((margin) => ({
    turnDeg: box.turnDeg,
    xMin: box.xMin + margin * side,
    xMax: box.xMax - margin * side,
    yMin: box.yMin + margin * side,
    yMax: box.yMax - margin * side,
  }));
}

function turned(shape: Exclude<BandShape, 'free'>, box: Box): CurvePlace[] {
  const t = (box.turnDeg * Math.PI) / 180;
  const mx = (box.xMin + box.xMax) / 2;
  const my = (box.yMin + box.yMax) / 2;
  const cx = Math.cos(t) * mx + Math.sin(t) * my;
  const cy = -Math.sin(t) * mx + Math.cos(t) * my;
  const a = (box.xMax - box.xMin) / 2;
  const b = (box.yMax - box.yMin) / 2;
  const upright: CurvePlace = { cx, cy, turnDeg: box.turnDeg, a, b };
  const lying: CurvePlace = { cx, cy, turnDeg: box.turnDeg + 90, a: b, b: a };
  if (shape === 'round') return [{ cx, cy, turnDeg: 0, a: Math.max(a, b), b: Math.max(a, b) }];
  const quarters =
    shape === 'shield'
      ? [upright, lying, { ...upright, turnDeg: box.turnDeg + 180 }, { ...lying, turnDeg: box.turnDeg + 270 }]
      : [upright, lying];
  if (shape !== 'pointedOval') return quarters;
  return quarters.filter((place) => place.b > place.a * 1.1);
}

import type { GeneratedPair, TrueDamage } from '../../../sample-scans/generator/index.ts';
import { bit } from '../../../sample-scans/generator/types.ts';
import { eachVertex, type FoundFrame, moved, NearPoints } from './places.ts';

/** A true mark as far as the scans show it. */
export interface VisibleMark {
  readonly mark: TrueDamage;
  /** x, y pairs every quarter of a millimetre where a scan of a carrier shows it; the found frame. */
  readonly points: Float64Array;
  readonly visibleMm: number;
  /** Of the kinds, and at least of the size, that the floors speak of. */
  readonly counts: boolean;
}

const stepMm = 0.25;
const lineKinds = new Set<TrueDamage['kind']>(['cut', 'crack', 'scratch']);
const ofTheDie = new Set<TrueDamage['kind']>(['cut', 'crack', 'recut', 'corrosion']);
const floors = { depthMm: 0.15, lengthMm: 2 };

/**
 * The true marks, cut down to what the carriers' scans show: a place counts where a vertex lies within half a
 * millimetre that the mark changed (where the generator says which), else where there is any vertex.
 */
export function visibleMarks(pair: GeneratedPair, frame: FoundFrame): VisibleMark[] {
  const shown = { reference: shownBy(pair, frame, 'reference'), subject: shownBy(pair, frame, 'subject') };
  return pair.truth.damage.map((mark) => {
    const line = moved(mark.polyline, frame);
    const points = lineKinds.has(mark.kind) ? walked(line) : filled(line);
    const which = flagOf(pair, mark);
    const on = (scan: Shown, x: number, y: number): boolean => scan[which].has(x, y);
    const kept: number[] = [];
    for (let i = 0; i < points.length; i += 2) {
      const [x, y] = [points[i], points[i + 1]];
      const reference = mark.carriedBy !== 'subject' && on(shown.reference, x, y);
      const subject = mark.carriedBy !== 'reference' && on(shown.subject, x, y);
      if (mark.carriedBy === 'both' ? reference && subject : reference || subject) kept.push(x, y);
    }
    const share = kept.length / Math.max(1, points.length);
    const visibleMm = share * mark.lengthMm;
    const large = Math.abs(mark.depthMm) >= floors.depthMm && visibleMm >= floors.lengthMm;
    const kind = mark.kind === 'cut' || mark.kind === 'crack' || (mark.kind === 'recut' && share > 0.7);
    return { mark, points: Float64Array.from(kept), visibleMm, counts: kind && large };
  });
}

interface Shown {
  readonly any: NearPoints;
  readonly damage: NearPoints;
  readonly chip: NearPoints;
}

function shownBy(pair: GeneratedPair, frame: FoundFrame, which: 'reference' | 'subject'): Shown {
  const shown = { any: new NearPoints(0.5), damage: new NearPoints(0.4), chip: new NearPoints(0.4) };
  const from = which === 'reference' ? frame.fromReferenceFile : frame.fromSubjectFile;
  if (from)
    eachVertex(pair[which], from, bit.face, (x, y, bits) => {
      shown.any.add(x, y);
      if (bits & bit.damage) shown.damage.add(x, y);
      if (bits & bit.chip) shown.chip.add(x, y);
    });
  return shown;
}

/** Which vertices a mark changed: a later state's are flagged in pairs of two states, accidents that cut as chips. */
function flagOf({ truth }: GeneratedPair, { kind, carriedBy, raised }: TrueDamage): keyof Shown {
  const states = truth.relation === 'laterState' || truth.relation === 'earlierState';
  if (states && raised && ofTheDie.has(kind) && carriedBy !== 'both' && kind !== 'corrosion') return 'damage';
  if (kind === 'scratch' || (kind === 'crack' && !raised)) return carriedBy === 'both' ? 'any' : 'chip';
  return 'any';
}

function walked(line: Float64Array): number[] {
  const out: number[] = [];
  for (let i = 2; i < line.length; i += 2) {
    const [dx, dy] = [line[i] - line[i - 2], line[i + 1] - line[i - 1]];
    const n = Math.max(1, Math.round(Math.hypot(dx, dy) / stepMm));
    for (let k = 0; k < n; k++) out.push(line[i - 2] + (dx * k) / n, line[i - 1] + (dy * k) / n);
  }
  return out;
}

/** Points within a polygon; the point itself where it is one. */
function filled(polygon: Float64Array): number[] {
  if (polygon.length < 6) return [...polygon];
  const x = polygon.filter((_, i) => i % 2 === 0);
  const y = polygon.filter((_, i) => i % 2 === 1);
  const out: number[] = [];
  for (let px = Math.min(...x); px <= Math.max(...x); px += stepMm)
    for (let py = Math.min(...y); py <= Math.max(...y); py += stepMm) if (inside(polygon, px, py)) out.push(px, py);
  return out;
}

export function inside(polygon: ArrayLike<number>, x: number, y: number): boolean {
  let within = false;
  const n = polygon.length / 2;
  for (let i = 0, j = n - 1; i < n; j = i++) {
    const [xi, yi, xj, yj] = [polygon[2 * i], polygon[2 * i + 1], polygon[2 * j], polygon[2 * j + 1]];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) within = !within;
  }
  return within;
}

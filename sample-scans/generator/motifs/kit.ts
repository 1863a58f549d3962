import type { Random } from '../../../src/core/geometry/index.ts';
import type { Cut, CutStyle } from '../cuts.ts';

/** x, y and radius in the motif's own unit; the motif stands within ±aspect × ±1. */
export type Bead = readonly [number, number, number];
export type Spot = readonly [number, number];

export interface Look {
  /** Against the depth that the radius would give. */
  readonly deep?: number;
  readonly section?: CutStyle['section'];
  readonly mode?: CutStyle['mode'];
  /** Shapes: width of the flank in the motif's unit. */
  readonly flank?: number;
  /** Keep the corners; else a smooth curve runs through the points. */
  readonly straight?: boolean;
}

/** What a motif is drawn with: a few tools, as an engraver has. */
export interface Kit {
  readonly random: Random;
  readonly cuts: Cut[];
  /** mm per motif unit. */
  readonly unitMm: number;
  /** Deepest that a figure goes, mm. */
  readonly depthMm: number;
}

/** A motif family: how it is drawn, and the width ÷ height of the room it wants. */
export interface Motif {
  readonly aspect: number;
  /** Fills its rectangle to the corners. */
  readonly boxy?: boolean;
  draw(kit: Kit, symmetryFold?: number): void;
}

const chatterMm = 0.005;

/** A furrow of changing width through the beads. A broader tool goes deeper: depth = 0.75 r, at most the figure's. */
export function stroke(kit: Kit, beads: readonly Bead[], look: Look = {}): void {
  const path = look.straight || beads.length < 3 ? beads : smoothBeads(beads, false);
  const points = new Float64Array(path.length * 3);
  let widest = 0;
  path.forEach(([x, y, r], i) => {
    const radius = Math.max(0.08, r * kit.unitMm);
    widest = Math.max(widest, radius);
    points[3 * i] = x * kit.unitMm;
    points[3 * i + 1] = y * kit.unitMm;
    points[3 * i + 2] = radius;
  });
  kit.cuts.push({
    kind: 'stroke',
    part: 'motif',
    section: look.section ?? 'round',
    mode: look.mode ?? 'deepen',
    depthMm: Math.min(kit.depthMm, 0.75 * widest + 0.06) * (look.deep ?? 1),
    flankMm: 0,
    chatterMm,
    points,
  });
}

/** The same furrow, radius 0 at both ends. */
export function leaf(kit: Kit, spots: readonly Spot[], radius: number, look: Look = {}): void {
  const n = spots.length - 1;
  stroke(
    kit,
    smoothBeads(
      spots.map(([x, y], i): Bead => [x, y, radius * Math.sin(Math.PI * Math.min(0.96, Math.max(0.04, i / n)))]),
      false,
    ),
    { ...look, straight: true },
  );
}

export const dot = (kit: Kit, x: number, y: number, r: number, look: Look = {}): void => stroke(kit, [[x, y, r]], look);

/** An even line through the spots. */
export const line = (kit: Kit, spots: readonly Spot[], r: number, look: Look = {}): void =>
  stroke(
    kit,
    spots.map(([x, y]): Bead => [x, y, r]),
    look,
  );

/** A line left standing inside a hollow: a groove on the wax. */
export const parting = (kit: Kit, spots: readonly Spot[], r: number, look: Look = {}): void =>
  line(kit, spots, r, { mode: 'stand', section: 'vee', ...look });

/** Arc of a circle, degrees counter-clockwise from the right. */
export function arc(x: number, y: number, radius: number, fromDeg: number, toDeg: number, steps = 24): Spot[] {
  const spots: Spot[] = [];
  for (let i = 0; i <= steps; i++) {
    const t = ((fromDeg + ((toDeg - fromDeg) * i) / steps) * Math.PI) / 180;
    spots.push([x + radius * Math.cos(t), y + radius * Math.sin(t)]);
  }
  return spots;
}

/** A hollow with a flat or rounded floor inside the closed outline. */
export function shape(kit: Kit, spots: readonly Spot[], look: Look = {}): void {
  const beads = spots.map(([x, y]): Bead => [x, y, 0]);
  const path = look.straight ? beads : smoothBeads(beads, true);
  const contour = new Float64Array(path.length * 2);
  path.forEach(([x, y], i) => {
    contour[2 * i] = x * kit.unitMm;
    contour[2 * i + 1] = y * kit.unitMm;
  });
  const flankMm = Math.max(0.12, (look.flank ?? 0.12) * kit.unitMm);
  kit.cuts.push({
    kind: 'region',
    part: 'motif',
    section: look.section ?? 'round',
    mode: look.mode ?? 'deepen',
    depthMm: Math.min(kit.depthMm, 0.75 * flankMm + 0.08) * (look.deep ?? 1),
    flankMm,
    chatterMm,
    contours: [contour],
    boldMm: 0,
  });
}

/** Catmull–Rom through the beads, four steps each. */
export function smoothBeads(beads: readonly Bead[], closed: boolean): Bead[] {
  const n = beads.length;
  const pick = (i: number): Bead => beads[closed ? (i + n) % n : Math.max(0, Math.min(n - 1, i))];
  const out: Bead[] = [];
  const spans = closed ? n : n - 1;
  const steps = 5;
  for (let i = 0; i < spans; i++)
    for (let k = 0; k < steps; k++) {
      const t = k / steps;
      const value = (axis: 0 | 1 | 2): number => {
        const p0 = pick(i - 1)[axis];
        const p1 = pick(i)[axis];
        const p2 = pick(i + 1)[axis];
        const p3 = pick(i + 2)[axis];
        return p1 + 0.5 * t * (p2 - p0 + t * (2 * p0 - 5 * p1 + 4 * p2 - p3 + t * (3 * (p1 - p2) + p3 - p0)));
      };
      out.push([value(0), value(1), Math.max(0, value(2))]);
    }
  if (!closed) out.push(beads[n - 1]);
  return out;
}

/** A kit whose drawing is turned, scaled and moved: (x, y) → (dx, dy) + scale · R(turnDeg) (x, y). */
export function placed(
  kit: Kit,
  dx: number,
  dy: number,
  scale: number,
  turnDeg: number,
  draw: (kit: Kit) => void,
): void {
  const first = kit.cuts.length;
  draw({ ...kit, unitMm: kit.unitMm * scale });
  const c = Math.cos((turnDeg * Math.PI) / 180);
  const s = Math.sin((turnDeg * Math.PI) / 180);
  for (let i = first; i < kit.cuts.length; i++) {
    const cut = kit.cuts[i];
    const arrays = cut.kind === 'stroke' ? [cut.points] : cut.contours;
    const step = cut.kind === 'stroke' ? 3 : 2;
    for (const a of arrays)
      for (let k = 0; k < a.length; k += step) {
        const x = a[k];
        a[k] = dx * kit.unitMm + c * x - s * a[k + 1];
        a[k + 1] = dy * kit.unitMm + s * x + c * a[k + 1];
      }
  }
}

/** A kit whose drawing is mirrored left to right. */
export function flipped(kit: Kit, draw: (kit: Kit) => void): void {
  const first = kit.cuts.length;
  draw(kit);
  for (let i = first; i < kit.cuts.length; i++) {
    const cut = kit.cuts[i];
    const arrays = cut.kind === 'stroke' ? [cut.points] : cut.contours;
    const step = cut.kind === 'stroke' ? 3 : 2;
    for (const a of arrays) for (let k = 0; k < a.length; k += step) a[k] = -a[k];
  }
}

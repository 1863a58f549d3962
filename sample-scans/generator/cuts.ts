/**
 * What an engraver cut, one tool stroke or hollowed shape at a time. Coordinates in mm on the design plane, in the
 * impression's sense; depths positive into the die, so that they stand up on the wax.
 */
export interface CutStyle {
  /**
   * Cross-section from the edge inward: `round` a burin or drill with a round nose, `vee` a graver, `flat` a
   * scraped floor with steep flanks, `bowl` a shallow scoop.
   */
  readonly section: 'round' | 'vee' | 'flat' | 'bowl';
  readonly depthMm: number;
  /** Regions: width of the flank, mm. Strokes take their own radius. */
  readonly flankMm: number;
  /** `deepen`: the deeper of old and new; `add`: on top of what is cut; `stand`: left standing in the hollow. */
  readonly mode: 'deepen' | 'add' | 'stand';
  /** Height of the tool's chatter, mm. */
  readonly chatterMm: number;
}

export interface Stroke extends CutStyle {
  readonly kind: 'stroke';
  readonly part: CutPart;
  /** x, y, radius triples along the tool's way. */
  readonly points: Float64Array;
}

export interface Region extends CutStyle {
  readonly kind: 'region';
  readonly part: CutPart;
  /** Closed contours of x, y pairs; inside by the non-zero rule. */
  readonly contours: readonly Float64Array[];
  /** Moves the edge outward, mm: a broader tool. */
  readonly boldMm: number;
}

export type CutPart = 'letter' | 'motif' | 'border' | 'ornament';
export type Cut = Stroke | Region;

/** Centre of a cut's bounding box, mm. */
export function cutCentre(cut: Cut): readonly [number, number] {
  let x0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  eachPoint(cut, (x, y) => {
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
  });
  return [(x0 + x1) / 2, (y0 + y1) / 2];
}

function eachPoint(cut: Cut, visit: (x: number, y: number) => void): void {
  if (cut.kind === 'stroke') for (let i = 0; i < cut.points.length; i += 3) visit(cut.points[i], cut.points[i + 1]);
  else for (const c of cut.contours) for (let i = 0; i < c.length; i += 2) visit(c[i], c[i + 1]);
}

/** The same cut with every point moved and, for strokes, the radius scaled. */
export function moveCut(
  cut: Cut,
  move: (x: number, y: number) => readonly [number, number],
  radiusScale = 1,
  depthScale = 1,
): Cut {
  const depthMm = cut.depthMm * depthScale;
  if (cut.kind === 'stroke') {
    const points = new Float64Array(cut.points.length);
    for (let i = 0; i < points.length; i += 3) {
      const [x, y] = move(cut.points[i], cut.points[i + 1]);
      points[i] = x;
      points[i + 1] = y;
      points[i + 2] = cut.points[i + 2] * radiusScale;
    }
    return { ...cut, depthMm, points };
  }
  const contours = cut.contours.map((from) => {
    const to = new Float64Array(from.length);
    for (let i = 0; i < to.length; i += 2) {
      const [x, y] = move(from[i], from[i + 1]);
      to[i] = x;
      to[i + 1] = y;
    }
    return to;
  });
  return { ...cut, depthMm, contours };
}

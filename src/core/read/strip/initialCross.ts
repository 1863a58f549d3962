import { correlation, margin, rows, type Template, unit } from '../../design/index.ts';
import { letterPicture } from './letterPicture.ts';
import { clockDeg, type Strip } from './unroll.ts';

export interface CrossFound {
  /** Middle of the cross, column of the strip. */
  readonly column: number;
  /** Correlation with the drawn cross. */
  readonly likeness: number;
}

/** Likeness from which a place is taken for a cross, and how far it must stand above every other. */
const leastLikeness = 0.62;
const leastLead = 0.04;

/**
 * The cross with which a legend begins: the place most like an equal-armed cross (arms straight or widening, the height of a
 * letter or somewhat less), if it stands out from every other. A cross looks the same whichever way letters face.
 */
export function findCross(strip: Strip): CrossFound | null {
  const picture = letterPicture(strip);
  const best = new Float64Array(picture.width);
  for (const template of crosses())
    for (let c = 0; c + template.width <= picture.width; c++) {
      const likeness = correlation(picture, template, c);
      const middle = c + (template.width >> 1);
      if (likeness > best[middle]) best[middle] = likeness;
    }
  let at = 0;
  for (let c = 1; c < best.length; c++) if (best[c] > best[at]) at = c;
  let other = 0;
  for (let c = 0; c < best.length; c++) if (Math.abs(c - at) > rows * 0.7) other = Math.max(other, best[c]);
  if (best[at] < leastLikeness || best[at] - other < leastLead) return null;
  return { column: ((at + 0.5) * picture.pitch) / strip.grid.pitch, likeness: best[at] };
}

/** Direction from the band's centre, degrees, at which a strip has to start so that the cross comes first. */
export function crossDeg(strip: Strip, { column }: CrossFound, facing: 'inward' | 'outward'): number {
  const { band, grid, x } = strip;
  const before = (0.6 * (band.lettersInnerMm - band.lettersOuterMm)) / grid.pitch;
  const n = Math.round(strip.roundMm / grid.pitch);
  const start = Math.round(column + (facing === 'inward' ? -before : before));
  const k = Math.min(x.length - 1, ((start % n) + n) % n);
  return clockDeg(x[k] - band.cx, strip.y[k] - band.cy);
}

let drawnCrosses: Template[] | undefined;

function crosses(): Template[] {
  drawnCrosses ??= [0.4, 0.48].flatMap((arm) =>
    [
      [0.08, 0.18],
      [0.09, 0.1],
    ].map(([middle, end]) => drawn(arm, middle, end)),
  );
  return drawnCrosses;
}

/** Arms of half length `arm`, half width from `middle` to `end`, in letter heights. */
function drawn(arm: number, middle: number, end: number): Template {
  const width = rows + 2 * margin;
  const values = new Float32Array(width * width);
  for (let r = 0; r < width; r++)
    for (let c = 0; c < width; c++) {
      const u = Math.abs((c + 0.5 - width / 2) / rows);
      const v = Math.abs((r + 0.5 - width / 2) / rows);
      const along = Math.max(u, v);
      const off = Math.min(u, v) - (middle + ((end - middle) * along) / arm);
      const outside = Math.max(off, along - arm);
      values[r * width + c] = 1 / (1 + Math.exp(outside / 0.025));
    }
  return { width, values: unit(values) };
}

import { rows } from '../../design/index.ts';
import type { LookInput } from '../filters/index.ts';
import { applyLook } from '../filters/index.ts';
import { barePlaces, inkOf } from './barePlaces.ts';
import { letterPicture } from './letterPicture.ts';
import { contrastsOf } from './strokeContrast.ts';
import { clockDeg, type Strip } from './unroll.ts';

/** A place of a strip, about a letter wide, and the look that parts its strokes from its ground best. */
export interface LegiblePlace {
  /** Columns of the strip, `toColumn` not included. */
  readonly fromColumn: number;
  readonly toColumn: number;
  /** Direction of its middle about the band's centre, degrees clockwise from 12 o'clock in the impression's sense. */
  readonly deg: number;
  readonly look: LookInput;
  /** Stroke contrast of the place under that look (`strokeContrast`); 0 where nothing can be parted. */
  readonly contrast: number;
}

/**
 * The places of a strip from the clearest to the most doubtful, each with the look that serves it best of those given. Places lie
 * between the bare columns of the relief, so that each holds about a letter; what letter, or whether one, is not asked. The
 * measure is that by which a look is offered for the whole strip, over the place's own columns.
 */
export function legiblePlaces(strip: Strip, looks: readonly LookInput[]): LegiblePlace[] {
  const spans = spansOf(strip);
  const contrasts = looks.map((look) => contrastsOf(strip, applyLook(strip.grid, look), spans));
  const places = spans.flatMap(({ from, to }, k) => {
    const best = looks.map((_, j) => j).reduce((p, q) => (contrasts[q][k] > contrasts[p][k] ? q : p), 0);
    const middle = (from + to) >> 1;
    const deg = clockDeg(strip.x[middle] - strip.band.cx, strip.y[middle] - strip.band.cy);
    return looks.length === 0
      ? []
      : [{ fromColumn: from, toColumn: to, deg, look: looks[best], contrast: contrasts[best][k] }];
  });
  return places.sort((p, q) => q.contrast - p.contrast);
}

/** Least width of a place, letters' heights: narrower ones go with the next. */
const leastWide = 0.3;

/** Columns between bare places, piece by piece; what is not scanned is left out. */
function spansOf(strip: Strip): { readonly from: number; readonly to: number }[] {
  const { band, grid, pieces } = strip;
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const picture = letterPicture(strip);
  const perColumn = letterMm / rows / grid.pitch;
  const bare = barePlaces(inkOf(picture, picture.width)).map((c) => Math.round((c + 0.5) * perColumn));
  const least = (leastWide * letterMm) / grid.pitch;
  return pieces.flatMap(({ from, to }) => {
    const ends = [from];
    for (const c of [...bare.filter((c) => c > from && c < to), to])
      if (c - ends[ends.length - 1] >= least) ends.push(c);
    return ends.slice(1).map((end, k) => ({ from: ends[k], to: end }));
  });
}

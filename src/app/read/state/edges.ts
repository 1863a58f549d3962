import type { Band } from '../../../core/design/index.ts';
import { clockDeg, stripFrame } from '../../../core/read/index.ts';
import type { StripOrder, StripPlaces } from '../../../workers/browser/readingProtocol.ts';
import { editRing } from './acts.ts';
import type { RingNow } from './current.ts';

const least = 0.4;
const rounded = (mm: number): number => Math.round(mm * 50) / 50;

/** An edge of the band moved to a depth from the base curve, mm; never over the other edge. */
export function moveEdge(scanId: string, now: RingNow, which: 'outerMm' | 'innerMm', toMm: number): void {
  const { band } = now.order;
  const other = which === 'outerMm' ? band.innerMm : band.outerMm;
  const mm = rounded(which === 'outerMm' ? Math.min(toMm, other - least) : Math.max(toMm, other + least));
  const edits = { outerMm: band.outerMm, innerMm: band.innerMm, [which]: mm };
  const shift = (edits.outerMm + edits.innerMm - band.lettersOuterMm - band.lettersInnerMm) / 2;
  // The middle of a band that lies further in is shorter by a full turn times the way in.
  const round = lengthOf(band);
  const longer = (round - 2 * Math.PI * shift) / round;
  editRing(scanId, now.ring, 'Edge of the legend moved', edits, (along) => along * longer, `edge ${which}`);
}

function lengthOf({ base, lettersOuterMm, lettersInnerMm }: Band): number {
  let sum = 0;
  for (let i = 0; i < base.length; i += 2) {
    const k = (i + 2) % base.length;
    sum += Math.hypot(base[k] - base[i], base[k + 1] - base[i + 1]);
  }
  return Math.max(1, sum - Math.PI * (lettersOuterMm + lettersInnerMm));
}

/** The strip made to begin in another direction; letters stay where they stand on the seal. */
export function moveStart(scanId: string, now: RingNow, places: StripPlaces | null, toDeg: number): void {
  const startDeg = Math.round((((toDeg % 360) + 360) % 360) * 10) / 10;
  const taken = places
    ? now.order.arcs
      ? carried(places, { ...now.order, startDeg })
      : (along: number) => cyclic(along - alongAt(places, startDeg), places.roundMm)
    : undefined;
  editRing(scanId, now.ring, 'Start of the strip moved', { startDeg }, taken, 'start');
}

/** Where a place of the strip that is laid out lies on another strip of the same band, mm along it. */
function carried(places: StripPlaces, order: StripOrder): (along: number) => number {
  const { frame, pitch } = stripFrame(order.band, places.grid.pitch, order);
  return (along) => {
    const k = Math.min(places.x.length - 1, Math.max(0, Math.round(along / places.grid.pitch)));
    let [best, least] = [0, Number.POSITIVE_INFINITY];
    for (let c = 0; c < frame.x.length; c++) {
      const off = Math.hypot(frame.x[c] - places.x[k], frame.y[c] - places.y[k]);
      if (off < least) [best, least] = [c, off];
    }
    return best * pitch;
  };
}

const cyclic = (mm: number, round: number): number => ((mm % round) + round) % round;

/** Where on the strip a direction from the band's middle lies, mm along it. */
export function alongAt({ band, x, y, grid }: StripPlaces, deg: number): number {
  let best = 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < x.length; k++) {
    const at = clockDeg(x[k] - band.cx, y[k] - band.cy);
    const off = Math.abs(((((at - deg + 180) % 360) + 360) % 360) - 180);
    if (off < nearest) {
      nearest = off;
      best = k;
    }
  }
  return best * grid.pitch;
}

/** Letters with their feet the other way: the strip runs the other way round the seal, and so do the places. */
export function turnFacing(
  scanId: string,
  now: RingNow,
  places: StripPlaces | null,
  to: 'inward' | 'outward' | 'both',
): void {
  const { arcs, ...order } = now.order;
  const facing = to === 'both' ? undefined : to;
  const turned = (at: StripPlaces): ((along: number) => number) =>
    arcs || !facing
      ? carried(at, facing ? { ...order, facing } : { ...order, arcs: now.found.arcs })
      : (along) => cyclic(-along, at.roundMm);
  editRing(scanId, now.ring, 'Letters turned the other way', { facing }, places ? turned(places) : undefined);
}

/** All that was moved put back; letters stay where they stand on the seal. */
export function asFound(scanId: string, now: RingNow, places: StripPlaces | null): void {
  const none = { outerMm: undefined, innerMm: undefined, startDeg: undefined, facing: undefined };
  editRing(scanId, now.ring, 'Band as it was found', none, places ? asFoundFrom(now, places) : undefined);
}

/** Where a place of the strip that is laid out lies on the strip as it was found. */
function asFoundFrom({ found, order }: RingNow, places: StripPlaces): (along: number) => number {
  if (order.arcs || found.arcs.length > 1) return carried(places, { ...found, band: order.band });
  const start = alongAt(places, found.startDeg);
  const way = order.facing === found.facing ? 1 : -1;
  return (along) => cyclic(way * (along - start), places.roundMm);
}

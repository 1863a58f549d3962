import { placeTurned } from '../../read/index.ts';

/** The number with `places` decimals, or null where it is not finite. JSON has neither NaN nor −0. */
export function rounded(value: number | undefined, places: number): number | null {
  if (value === undefined || !Number.isFinite(value)) return null;
  return Number(value.toFixed(places)) + 0;
}

/** Lengths to 0.1 µm: finer than any scan, so that the rounding itself decides nothing. */
export const roundedMm = (value: number | undefined): number | null => rounded(value, 4);

/** Shares, held inside 0 and 1; what is not a number counts as none. */
export const roundedShare = (value: number): number => rounded(Math.min(1, Math.max(0, value)), 4) ?? 0;

/** A place on a face as it is told where pictures stand turned by so many degrees clockwise. */
export function placeRecord(at: { deg: number; hour: number; radiusMm: number }, turnDeg: number) {
  const { deg, hour, radiusMm } = placeTurned(at, turnDeg);
  return { deg: rounded(deg, 2) ?? 0, hour, radiusMm: placed(radiusMm) };
}

/** A place, mm; never null, since what it belongs to was found there. */
export const placed = (value: number): number => rounded(value, 3) ?? 0;

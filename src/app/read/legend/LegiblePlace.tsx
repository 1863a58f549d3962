import { useLegible } from '../state/legible.ts';
import { type StripScale, xOnStrip } from './useStripWindow.ts';

/** From where to where the place lies that the reader is at: two hairlines at the strip's foot, nothing over the letters. */
export function LegiblePlace({ scale }: { scale: StripScale }) {
  const now = useLegible();
  const place = now?.rank === null ? undefined : now?.places?.[now.rank];
  if (!place) return null;
  const left = xOnStrip(scale, place.fromMm);
  return <span className="legible-place" style={{ left, width: xOnStrip(scale, place.toMm) - left }} />;
}

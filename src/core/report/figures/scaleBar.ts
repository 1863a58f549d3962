import { type DrawnMark, line, words } from '../drawing/index.ts';

const lengths = [1, 2, 5, 10, 20, 50, 100];

/** The longest easy length that is at most two fifths of the width, mm. */
export const barLength = (widthMm: number): number =>
  [...lengths].reverse().find((length) => length <= 0.4 * widthMm) ?? 0.5;

/** A bar of a stated length with its end ticks and numeral, centred on x, its line at y. `unitsPerMm` page units. */
export function scaleBar(x: number, y: number, unitsPerMm: number, lengthMm: number): DrawnMark[] {
  const half = (lengthMm * unitsPerMm) / 2;
  return [
    line([x - half, y - 3, x - half, y, x + half, y, x + half, y - 3], 'ink', 0.9),
    words(x, y + 11, `${lengthMm} mm`, 9.5, 'soft', { align: 'middle' }),
  ];
}

/** A small ring with a stroke from where the light comes; azimuth clockwise from the top. */
export function lampSign(x: number, y: number, azimuthDeg: number): DrawnMark[] {
  const a = (azimuthDeg * Math.PI) / 180;
  const [sx, sy] = [Math.sin(a), -Math.cos(a)];
  const ring = Float64Array.from({ length: 48 }, (_, i) => {
    const t = (Math.floor(i / 2) / 24) * 2 * Math.PI;
    return i % 2 === 0 ? x + 5 * Math.cos(t) : y + 5 * Math.sin(t);
  });
  return [
    line(ring, 'soft', 0.7, { closed: true }),
    line([x + 10 * sx, y + 10 * sy, x + 1.5 * sx, y + 1.5 * sy], 'ink', 0.9),
  ];
}

import { quantile } from '../geometry/index.ts';
import type { Difference } from './types.ts';

/**
 * Colours of depth differences: the diverging scale PuOr of ColorBrewer (C. Brewer, M. Harrower and others, 2003,
 * colorbrewer2.org, Apache 2.0), its eleven classes without the pale middle one, which would compete with the grey of
 * "no measurable difference", and without the last purple, so that equal differences are about equally dark on both
 * sides. Safe for the common forms of colour blindness. The first class lies at zero, the last at the end.
 */
const orange = ['#fee0b6', '#fdb863', '#e08214', '#b35806', '#7f3b08'] as const;
const purple = ['#d8daeb', '#b2abd2', '#8073ac', '#542788'] as const;

/** Grey of "no measurable difference". */
export const levelGrey = [168, 164, 157] as const;

/** Ends of the scale that are easy to read, mm. */
export const easyEnds = [0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 1, 2, 5];

export type Rgb = readonly [number, number, number];

const bytes = (hex: string): Rgb => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as unknown as Rgb;
const lacks = orange.map(bytes);
const stands = purple.map(bytes);

/**
 * Colour of a difference on a scale from −endMm to +endMm: orange where the subject lacks height, purple where it
 * stands higher, linear between the classes; values beyond an end take the end's colour. Bytes.
 */
export function differenceColour(differenceMm: number, endMm: number): Rgb {
  const classes = differenceMm < 0 ? lacks : stands;
  const at = Math.min(1, Math.abs(differenceMm) / endMm) * (classes.length - 1);
  const low = Math.min(classes.length - 2, Math.floor(at));
  const share = at - low;
  const [a, b] = [classes[low], classes[low + 1]];
  return [0, 1, 2].map((c) => Math.round(a[c] + share * (b[c] - a[c]))) as unknown as Rgb;
}

export const hex = (colour: Rgb): `#${string}` =>
  `#${colour.map((value) => Math.round(value).toString(16).padStart(2, '0')).join('')}`;

/**
 * The scale as evenly spaced colours from −end to +end for a gradient, or for a card that draws it: `perSide` intervals
 * on each side of zero, so 2 · (perSide + 1) colours; with 12 the classes of both sides are hit exactly.
 */
export function differenceScale(perSide = 12): Rgb[] {
  const shares = Array.from({ length: perSide + 1 }, (_, k) => k / perSide);
  return [
    ...shares.toReversed().map((t) => differenceColour(-t - 1e-12, 1)),
    ...shares.map((t) => differenceColour(t, 1)),
  ];
}

/** The shortest easy end that holds 98 % of the differences and leaves room above the level of detection. */
export function endOfScale(share98Mm: number, levelMm: number): number {
  const least = Math.max(share98Mm, 2.5 * (Number.isFinite(levelMm) ? levelMm : 0));
  return easyEnds.find((end) => end >= least) ?? easyEnds[easyEnds.length - 1];
}

/** End of the colour scale that suits these differences, mm: the same for every picture of them. */
export function scaleEnd({ map, levelOfDetectionMm }: Pick<Difference, 'map' | 'levelOfDetectionMm'>): number {
  const step = Math.max(1, Math.floor(map.z.length / 40_000));
  const sizes: number[] = [];
  for (let i = 0; i < map.z.length; i += step) if (map.mask[i]) sizes.push(Math.abs(map.z[i]));
  const share98 = quantile(sizes, 0.98);
  return endOfScale(Number.isNaN(share98) ? 0.1 : share98, levelOfDetectionMm);
}

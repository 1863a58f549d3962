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
const ends = [0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 1, 2, 5];

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

/** The shortest easy end that holds 98 % of the differences and leaves room above the level of detection. */
export function endOfScale(share98Mm: number, levelMm: number): number {
  const least = Math.max(share98Mm, 2.5 * (Number.isFinite(levelMm) ? levelMm : 0));
  return ends.find((end) => end >= least) ?? ends[ends.length - 1];
}

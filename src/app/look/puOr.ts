/**
 * Colours of depth differences: the 11-class diverging scale PuOr of ColorBrewer (C. Brewer and M. Harrower, Apache
 * 2.0), safe for the common forms of colour blindness. Orange: the subject lacks height; purple: it stands higher. The pale middle class is not used: grey stands there for what cannot be measured.
 */
export const puOr = [
  '#7f3b08',
  '#b35806',
  '#e08214',
  '#fdb863',
  '#fee0b6',
  '#f7f7f7',
  '#d8daeb',
  '#b2abd2',
  '#8073ac',
  '#542788',
  '#2d004b',
] as const;

/** Red, green and blue, 0 to 1. */
export const rgb = (hex: string): [number, number, number] => [
  Number.parseInt(hex.slice(1, 3), 16) / 255,
  Number.parseInt(hex.slice(3, 5), 16) / 255,
  Number.parseInt(hex.slice(5, 7), 16) / 255,
];

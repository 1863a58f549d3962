/** Signs of legends that are not letters, the character that prints each, and how each is described. */
export const signs = {
  cross: { glyph: '✠', words: 'cross' },
  saltire: { glyph: '×', words: 'saltire cross' },
  pellet: { glyph: '·', words: 'pellet' },
  colon: { glyph: ':', words: 'two pellets, one above the other' },
  threePellets: { glyph: '⁝', words: 'three pellets, one above the other' },
  lozenge: { glyph: '◊', words: 'lozenge' },
  star: { glyph: '*', words: 'star' },
  rosette: { glyph: '✿', words: 'rosette' },
  quatrefoil: { glyph: '✤', words: 'quatrefoil' },
  crescent: { glyph: '☾', words: 'crescent' },
  lily: { glyph: '⚜', words: 'lily' },
  leaf: { glyph: '❧', words: 'leaf' },
} as const;

export type SignName = keyof typeof signs;
export const signNames = Object.keys(signs) as [SignName, ...SignName[]];

/** By the character that prints it; a cross is often typed as a plus sign, which is never printed: tables take it for a sum. */
const byGlyph = new Map<string, SignName>([
  ...signNames.map((name): [string, SignName] => [signs[name].glyph, name]),
  ['+', 'cross'],
]);
export const signOfGlyph = (glyph: string): SignName | undefined => byGlyph.get(glyph);

/** The closed lists of a card. Their words stand in `words/`, one file a language. */

export const objectClasses = ['matrix', 'mould', 'impression', 'cast'] as const;
export const objectTypes = ['waxSeal', 'metalBulla', 'matrix', 'cast', 'other', 'unknown'] as const;
export const attachments = ['applied', 'tongue', 'tag', 'cords', 'unknown'] as const;
export const statuses = ['attached', 'detached', 'unknown'] as const;
export const coverings = ['none', 'paper', 'wafer', 'other', 'unknown'] as const;
export const protections = ['none', 'skippet', 'bag', 'other', 'unknown'] as const;
export const cardShapes = [
  'round',
  'oval',
  'pointedOval',
  'shield',
  'square',
  'lozenge',
  'polygonal',
  'irregular',
  'unknown',
] as const;
export const sideNames = ['obverse', 'reverse', 'counterseal', 'unknown'] as const;
export const castMaterials = [
  'plaster',
  'sulphur',
  'sealingWax',
  'guttaPercha',
  'electrotype',
  'resin',
  'printed',
  'other',
  'unknown',
] as const;
/** How another object is bound to this one. */
export const relations = ['parent', 'cast', 'siblingOfMould'] as const;
export const dateBases = ['document', 'office', 'style', 'matrix', 'other'] as const;
/** Where the size of an image was taken from: the matrix's own edge, a border line, or the matrix it was fitted to. */
export const imageSizeSources = ['matrixEdge', 'border', 'partner', 'stated'] as const;

export type Term<L extends readonly string[]> = L[number];

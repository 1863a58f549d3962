import type { Face } from './types.ts';

/** The longer side of a face's outline, mm (the file's own unit before the unit is settled). */
export const longSide = ({ outline }: Pick<Face, 'outline'>): number => Math.max(outline.widthMm, outline.heightMm);

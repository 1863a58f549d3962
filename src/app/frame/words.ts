import type { Kind } from '../../core/scan/index.ts';

export const kindWords: Readonly<Record<Kind, string>> = {
  matrix: 'Matrix',
  mould: 'Mould',
  impression: 'Impression',
  cast: 'Cast',
};

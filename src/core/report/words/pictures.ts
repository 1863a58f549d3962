import type { PictureShown } from '../../read/index.ts';
import { acrossCaption, lampsCaption, viewWords } from './light.ts';
import { lookCaption } from './looks.ts';
import { ridgesCaption } from './waxBack.ts';

/**
 * What stands under a picture. `way` says how its object is shown in place of the picture's own view; empty where that
 * stands elsewhere, as it does under a strip, whose matrix was turned over before it was laid out.
 */
export function pictureWords(shown: PictureShown, way?: string): string {
  switch (shown.code) {
    case 'lamps':
      return lampsCaption(shown, way ?? viewWords(shown));
    case 'across':
      return acrossCaption(shown, way ?? viewWords(shown));
    case 'look':
      return lookCaption(shown, way ?? viewWords(shown));
    case 'ridges':
      return ridgesCaption(shown);
  }
}

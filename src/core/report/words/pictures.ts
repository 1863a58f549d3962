import type { CardLanguage, PictureShown } from '../../read/index.ts';
import { acrossCaption, lampsCaption, viewWords } from './light.ts';
import { lookCaption } from './looks.ts';
import { ridgesCaption } from './waxBack.ts';

/**
 * What stands under a picture. `way` says how its object is shown in place of the picture's own view; empty where that
 * stands elsewhere, as it does under a strip, whose matrix was turned over before it was laid out.
 */
export function pictureWords(shown: PictureShown, way?: string, language: CardLanguage = 'en'): string {
  const shownWay = (): string => way ?? (shown.code === 'ridges' ? '' : viewWords(shown, language));
  switch (shown.code) {
    case 'lamps':
      return lampsCaption(shown, shownWay(), language);
    case 'across':
      return acrossCaption(shown, shownWay(), language);
    case 'look':
      return lookCaption(shown, shownWay(), language);
    case 'ridges':
      return ridgesCaption(shown);
  }
}

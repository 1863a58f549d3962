import type { CardLanguage } from '../../../read/index.ts';
import { de } from './de.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { fr } from './fr.ts';
import type { CaptionWords } from './types.ts';

export type { CaptionWords, FragmentEdge, WayShown } from './types.ts';

/** The words of captions and plates, by language. */
export const captionWords: Readonly<Record<CardLanguage, CaptionWords>> = { en, fr, de, es };

/** A number that is already rounded, with the language's decimal sign. */
export const printed = (value: number | string, { decimal }: CaptionWords): string =>
  String(value).replace('.', decimal);

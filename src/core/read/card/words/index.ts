import { type CardLanguage, cardLanguages } from '../../text/index.ts';
import { de } from './de.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { fr } from './fr.ts';
import type { CardWords } from './types.ts';

/** One text in every language. */
export type InEveryLanguage = Readonly<Record<CardLanguage, string>>;
export const inEveryLanguage = (words: (language: CardLanguage) => string): InEveryLanguage =>
  Object.fromEntries(cardLanguages.map((language) => [language, words(language)])) as InEveryLanguage;

export const cardWords: Readonly<Record<CardLanguage, CardWords>> = { en, fr, de, es };
export type { CardWords, RowName } from './types.ts';

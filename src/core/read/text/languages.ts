/** Languages that what is handed on is worded in: cards, captions, TEI. */
export const cardLanguages = ['en', 'fr', 'de', 'es'] as const;
export type CardLanguage = (typeof cardLanguages)[number];

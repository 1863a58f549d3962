/** With a capital letter: what stood inside a sentence begins one. */
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** Without its capital letter: what began a sentence stands inside one. */
export const uncapital = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);

import { expect } from 'vitest';

/** One example or more of every code of a union: a code left out, or one too many, is an error of types. */
export type ExamplesOf<Union extends { readonly code: string }> = {
  readonly [Code in Union['code']]: ReadonlyArray<Union & { readonly code: Code }>;
};

/** What holds of every sentence that is printed. */
export function expectSentence(words: string): void {
  expect(words).toMatch(/^[A-Z].*\.$/s);
  expectPrintable(words);
}

/** What holds of every part of one: no hole where a number should be, and a seal's matrix is called so. */
export function expectPrintable(words: string): void {
  expect(words.trim()).not.toBe('');
  expect(words).not.toMatch(/NaN|undefined|null|Infinity|\[object/);
  expect(words).not.toMatch(/\bdies?\b/i);
  expect(words).not.toMatch(/ {2}| [.,;:]|\.\.$/);
}

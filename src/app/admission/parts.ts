import * as z from 'zod';

/** The words that schemas share: each number finite and within what a seal can have, each text and list bounded. */
export const mm = z.number().min(-10_000).max(10_000);
export const positiveMm = z.number().positive().max(10_000);
export const degrees = z.number().min(-3_600).max(3_600);
export const share = z.number().min(-0.001).max(1.001);
export const count = z.int().min(0);
export const number = z.number();
/** Saved as null where it is not a number. */
export const perhaps = z
  .number()
  .nullable()
  .transform((value) => value ?? Number.NaN);

export const id = z.string().min(1).max(200);
export const line = z.string().max(1_000);
export const text = z.string().max(20_000);
export const vec2 = z.tuple([mm, mm]);
export const outline = z.array(vec2).max(4_000);

/** A list of a type's words that is refused by the compiler as long as one is missing. */
export const allOf =
  <T extends string>() =>
  <const U extends readonly T[]>(words: U & ([T] extends [U[number]] ? unknown : never)) =>
    z.enum(words as unknown as readonly [T, ...T[]]);

import * as z from 'zod';
import { type ChangeRecord, changeSchema } from './changeSchema.ts';
import { type ComparisonRecord, comparisonSchema } from './schema.ts';
import { type ComparisonsRecord, comparisonsSchema, type Together } from './togetherSchema.ts';

/** Reads a record of one comparison from parsed JSON. Throws a RangeError that names every field that is wrong. */
export const validateRecord = (json: unknown): ComparisonRecord => parse(comparisonSchema, json);

/** The same for a record of several subjects. */
export const validateComparisons = (json: unknown): ComparisonsRecord => parse(comparisonsSchema, json);

/** The same for a record of one object on two dates. */
export const validateChange = (json: unknown): ChangeRecord => parse(changeSchema, json);

/**
 * Joins the records of several subjects against one reference, in the order given.
 * Throws a RangeError where the parts do not make a valid record.
 */
export function buildComparisons(comparisons: readonly ComparisonRecord[], together: Together): ComparisonsRecord {
  return validateComparisons({ schema: 'ectype/comparisons/2', comparisons, together });
}

/** The schemas as JSON Schema (draft 2020-12), for readers in other languages; what only code can check is left out. */
export const recordJsonSchema = () => z.toJSONSchema(comparisonSchema);
export const comparisonsJsonSchema = () => z.toJSONSchema(comparisonsSchema);
export const changeJsonSchema = () => z.toJSONSchema(changeSchema);

function parse<T>(schema: z.ZodType<T>, json: unknown): T {
  // A record is read once: code made for its schema would not pay.
  const result = schema.safeParse(json, { jitless: true });
  if (result.success) return result.data;
  const faults = result.error.issues.map(({ path, message }) => `${path.join('.') || 'the top'}: ${message}`);
  throw new RangeError(`The record is not valid. ${faults.join('; ')}.`);
}

import * as z from 'zod';
import { type Document, type Room, rooms } from '../state/document.ts';
import type { Scheme } from '../state/store.ts';
import { admit, Refusal } from './admit.ts';
import { documentSchema } from './documentSchema.ts';
import { allOf } from './parts.ts';

/** What the browser keeps of a tab's work, beside the files. */
export interface KeptSession {
  readonly schema: 'ectype/session/2';
  readonly document: Document;
  readonly settings: { readonly scheme: Scheme; readonly margin: boolean; readonly step: Room };
}

export const sessionSchema = 'ectype/session/2';

const settings = z.object({
  scheme: allOf<Scheme>()(['system', 'light', 'dark']).default('system'),
  margin: z.boolean().default(true),
  step: allOf<Room>()(rooms).default('compare'),
});

const kept: z.ZodType<KeptSession> = z.object({
  schema: z.literal(sessionSchema),
  document: documentSchema,
  settings: settings.default({ scheme: 'system', margin: true, step: 'compare' }),
});

/** Version 1 had no name; its fields are those of version 2. */
const ofVersion1 = (value: object): unknown => ({ ...value, schema: sessionSchema });

/** A session as it was kept by this version or an earlier one; throws a Refusal. */
export function admitSession(value: unknown, what = 'The last session in this browser'): KeptSession {
  if (value === null || typeof value !== 'object') throw new Refusal(`${what} is damaged and was not opened.`);
  const { schema } = value as { schema?: unknown };
  if (schema === undefined) return admit(kept, ofVersion1(value), what);
  if (typeof schema === 'string' && /^ectype\/session\/\d+$/.test(schema) && schema !== sessionSchema)
    throw new Refusal(`${what} was kept by a later version of Ectype and was not opened.`);
  return admit(kept, value, what);
}

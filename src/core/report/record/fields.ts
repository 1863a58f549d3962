import * as z from 'zod';

/** A number, or null where it could not be measured. Lengths in mm, angles in degrees. */
export const measured = z.number().nullable();
export const share = z.number().min(0).max(1);
export const text = z.string();

export const digest = z.string().regex(/^[0-9a-f]{64}$/);

import { z } from 'zod';
import type { KnownScores } from '../core/judge/index.ts';
import { UsageError } from './errors.ts';
import { readBytes } from './files.ts';

export const knownSchema = z.looseObject({
  schema: z.literal('ectype/calibration/1'),
  name: z.string(),
  same: z.array(z.number()),
  different: z.array(z.number()),
});

/** Reads what `ectype calibrate` wrote; undefined where no file was named. */
export function knownScores(path: string | boolean | undefined): KnownScores | undefined {
  if (typeof path !== 'string') return undefined;
  try {
    return knownSchema.parse(JSON.parse(new TextDecoder().decode(readBytes(path))));
  } catch {
    throw new UsageError(`--calibration ${path}: not a file that ectype calibrate wrote.`);
  }
}

import * as z from 'zod';
import type { KnownScores } from '../core/judge/index.ts';
import { UsageError } from './errors.ts';
import { readJson } from './files.ts';

/** Version 2: scores of places under one matrix and its rivals; those of version 1 are on another scale. */
export const calibrationSchemaName = 'ectype/calibration/2';

export const knownSchema = z.looseObject({
  schema: z.literal(calibrationSchemaName),
  name: z.string(),
  same: z.array(z.number()),
  different: z.array(z.number()),
});

/** Reads what `ectype calibrate` wrote; undefined where no file was named. */
export function knownScores(path: string | boolean | undefined): KnownScores | undefined {
  if (typeof path !== 'string') return undefined;
  const json = readJson(path, '--calibration');
  const known = knownSchema.safeParse(json);
  if (known.success) return known.data;
  const earlier = z.looseObject({ schema: z.literal('ectype/calibration/1') }).safeParse(json).success;
  throw new UsageError(
    earlier
      ? `--calibration ${path}: an earlier version made it, with scores of another scale; run ectype calibrate again.`
      : `--calibration ${path}: not a file that ectype calibrate wrote.`,
  );
}

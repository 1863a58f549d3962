import { printable, ScanError, type ScanErrorCode } from '../core/scan/index.ts';
import { OutputError } from './output/errors.ts';

/** A command that was typed wrong: exit 2. */
export class UsageError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UsageError';
  }
}

/** What the user has to give beside the file: a unit, a file that belongs to it. */
const needsMore: readonly ScanErrorCode[] = ['unitNeeded', 'fileMissing'];

/**
 * Exit codes: 0 done, 2 wrong use, a missing side file or a unit that must be stated, 3 a file that cannot be used,
 * 4 no face found, 5 an output that cannot be written.
 */
export function exitCodeOf(error: unknown): number {
  if (error instanceof UsageError) return 2;
  if (error instanceof ScanError) return needsMore.includes(error.code) ? 2 : error.code === 'noFace' ? 4 : 3;
  if (error instanceof OutputError) return 5;
  return 1;
}

/** One line for the user. */
export function lineOf(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  return `ectype: ${printable(message.replaceAll(/\s*\n\s*/g, ' '))}`;
}

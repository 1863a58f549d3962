import { printable, ScanError, type ScanErrorCode } from '../core/scan/index.ts';

/** A command that was typed wrong: exit 2. */
export class UsageError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UsageError';
  }
}

/** A place that cannot be written, as Node reports it; what cannot be read is a ScanError already. */
const isFileError = (error: unknown): error is NodeJS.ErrnoException & { path: string } =>
  error instanceof Error && 'syscall' in error && 'path' in error;

/** What the user has to give beside the file: a unit, a file that belongs to it. */
const needsMore: readonly ScanErrorCode[] = ['unitNeeded', 'fileMissing'];

/** Exit codes: 0 done, 2 wrong use, a missing side file or a unit that must be stated, 3 a file that cannot be used, 4 no face found. */
export function exitCodeOf(error: unknown): number {
  if (error instanceof UsageError || isFileError(error)) return 2;
  if (error instanceof ScanError) return needsMore.includes(error.code) ? 2 : error.code === 'noFace' ? 4 : 3;
  return 1;
}

/** One line for the user. */
export function lineOf(error: unknown): string {
  if (isFileError(error))
    return `ectype: ${printable(error.path)}: the file cannot be written (${error.code}); give another place.`;
  const message = error instanceof Error ? error.message : String(error);
  return `ectype: ${printable(message.replaceAll(/\s*\n\s*/g, ' '))}`;
}

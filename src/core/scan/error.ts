import { printable } from './clean/terminal.ts';
import type { Unit } from './types.ts';

/** Every reason for which a scan is refused. The list is closed: the command line maps it to exit codes. */
export type ScanErrorCode =
  | 'empty'
  | 'truncated'
  | 'malformed'
  | 'unsupported'
  | 'tooLarge'
  | 'noTriangles'
  | 'unitNeeded'
  | 'noFace'
  /** A reader failed on the file in a way that nobody foresaw. */
  | 'damaged'
  /** A file that the scan names beside itself is not there. */
  | 'fileMissing';

/** What goes with `unitNeeded`: the units to choose from and the face's long side in the file's own unit. */
export interface UnitChoice {
  readonly units: readonly Unit[];
  readonly faceLongSide: number;
}

/**
 * A scan that cannot be used. The message is one sentence for the user: what is wrong and what to do. It may
 * quote the file, so that it is made printable here.
 */
export class ScanError extends Error {
  readonly code: ScanErrorCode;
  readonly unitChoice?: UnitChoice;

  constructor(code: ScanErrorCode, message: string, unitChoice?: UnitChoice) {
    super(printable(message));
    this.name = 'ScanError';
    this.code = code;
    this.unitChoice = unitChoice;
  }
}

/** Every reason for which a scan is refused. The list is closed: the command line maps it to exit codes. */
export type ScanErrorCode =
  | 'empty'
  | 'truncated'
  | 'malformed'
  | 'unsupported'
  | 'tooLarge'
  | 'noTriangles'
  | 'unitNeeded'
  | 'noFace';

/**
 * A scan that cannot be used. The message is one sentence for the user: what is wrong and what to do.
 */
export class ScanError extends Error {
  readonly code: ScanErrorCode;

  constructor(code: ScanErrorCode, message: string) {
    super(message);
    this.name = 'ScanError';
    this.code = code;
  }
}

/** An output that could not be written: exit 5. */
export class OutputError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'OutputError';
  }
}

/** What the system's code means, and what helps. */
const reasons: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full; make room or give another place.',
  EDQUOT: 'the quota of disk space is used up; make room or give another place.',
  EFBIG: 'the file grows larger than this disk or account allows; give another place.',
  EACCES: 'there is no permission to write there; give another place.',
  EPERM: 'there is no permission to write there; give another place.',
  EROFS: 'the disk is read-only; give another place.',
  ENOTDIR: 'a part of the path is a file, not a folder; give another place.',
  EISDIR: 'there is a folder of this name; give the name of a file.',
  ENOENT: 'there is no such place; give another one.',
  ENAMETOOLONG: 'the name is too long; give a shorter one.',
  EXDEV: 'a disk is mounted at this very place; give a folder inside it.',
  EBUSY: 'the place is in use by the system; give a folder inside it.',
  EPIPE: 'the reader at the other end has closed.',
};

/** The error of one place as a sentence; errors that are no system errors go on as they are. */
export function notWritten(path: string, error: unknown): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : undefined;
  if (error instanceof OutputError || code === undefined || !/^E[A-Z0-9]+$/.test(code)) return error;
  return new OutputError(
    `${path} cannot be written: ${reasons[code] ?? `the system says ${code}; give another place.`}`,
  );
}

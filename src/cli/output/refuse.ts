import { type Stats, statSync } from 'node:fs';
import { UsageError } from '../errors.ts';
import { notWritten, OutputError } from './errors.ts';
import { refuseForeign } from './filesList.ts';
import { refuseHeld } from './lock.ts';
import { isInside, type Place, placeOf, refuseUnwritable, statOf } from './place.ts';

/** Throws UsageError where the file is an input, OutputError where it could not be written. */
export function refuseFile(place: Place, inputs: Iterable<string>, folderMustBe: boolean): void {
  const stat = systemStat(place);
  for (const input of inputs)
    if (placeOf(input).path === place.path || isOneFile(stat, input))
      throw new UsageError(`${place.stated} is also read by this run; give the output another name.`);
  if (stat && isStream(stat)) return;
  if (stat?.isDirectory())
    throw new OutputError(`${place.stated} cannot be written: it is a folder; give the name of a file.`);
  refuseUnwritable(place);
  if (folderMustBe && statOf(place.parent) === null)
    throw new OutputError(
      `${place.stated} cannot be written: its folder does not exist; make it or give another place.`,
    );
  refuseHeld(place.lock, place.stated);
}

/** The same of a folder, which must be new, empty, or of a former run. */
export function refuseFolder(place: Place, inputs: Iterable<string>): void {
  const stat = systemStat(place);
  for (const input of inputs) {
    const { path } = placeOf(input);
    if (path === place.path || isInside(path, place.path))
      throw new UsageError(`--out ${place.stated}: ${input} is read from there; give another folder.`);
  }
  if (stat && !stat.isDirectory())
    throw new OutputError(`${place.stated} cannot be written: it is a file; give a folder.`);
  const here = placeOf(process.cwd()).path;
  if (here === place.path || isInside(here, place.path))
    throw new UsageError(
      `--out ${place.stated}: a folder is replaced as a whole; give another than the one you are in.`,
    );
  refuseUnwritable(place);
  refuseHeld(place.lock, place.stated);
  if (stat) refuseForeign(place.path, place.stated);
}

function systemStat(place: Place): Stats | null {
  try {
    return statOf(place.path);
  } catch (error) {
    throw notWritten(place.stated, error);
  }
}

/** One file under two names. */
function isOneFile(stat: Stats | null, input: string): boolean {
  if (!stat?.isFile()) return false;
  try {
    const other = statSync(input);
    return other.ino === stat.ino && other.dev === stat.dev;
  } catch {
    // An input that is not there is said where it is read.
    return false;
  }
}

/** A terminal, a pipe, /dev/null: nothing that could be renamed. */
export const isStream = (stat: Stats): boolean => !stat.isFile() && !stat.isDirectory();

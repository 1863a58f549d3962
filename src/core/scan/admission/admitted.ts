import { Cancelled } from '../../geometry/index.ts';
import { ScanError } from '../error.ts';

/** Says which part of the file is read from here on. */
export type Place = (part: string) => void;

/**
 * Runs a reader on the file of this name so that nothing but its result, a `ScanError` or `Cancelled` comes out: every refusal begins
 * with the file's name, lack of memory is `tooLarge`, and whatever else a reader throws is `damaged`, with the part of the file
 * at which it stood.
 */
export async function admitted<T>(name: string, read: (place: Place) => Promise<T>): Promise<T> {
  let part = 'it';
  try {
    return await read((next) => {
      part = next;
    });
  } catch (error) {
    throw refusal(error, name, part);
  }
}

function refusal(error: unknown, name: string, part: string): unknown {
  if (error instanceof Cancelled) return error;
  if (error instanceof ScanError) return new ScanError(error.code, `${name}: ${error.message}`, error.unitChoice);
  if (error instanceof RangeError && /allocation|array length|buffer length/i.test(error.message))
    return new ScanError('tooLarge', `${name}: the scan needs more memory than there is; reduce it and give it again.`);
  return new ScanError(
    'damaged',
    `${name}: the file is damaged in a way that is not understood (in ${part}); copy or export it again.`,
  );
}

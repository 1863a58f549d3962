import { uncapital } from '../../core/scan/index.ts';
import type { Failure } from '../../workers/browser/protocol.ts';

/** What went wrong with a file, by its name, and the act on this screen that helps: never an option of the command line. */
export function failureWords(failure: Failure, name: string): string {
  if (failure.code === 'noFace')
    return `${name}: no face was found, nothing flat with relief on it. Say below which way the seal looks, or put the file away and bring in a scan that has the sealed side on it.`;
  if (failure.code === 'unitNeeded' && !failure.unitChoice)
    return `${name}: a height map carries no size. Write the side of a pixel and the height of one grey step below.`;
  const words = failure.message.replace(/\s*\([^()]*--[^()]*\)/g, '').replace(/[;,]?[^;,.]*\s--[a-z][^;.]*/g, '');
  return words.includes(name) ? words : `${name}: ${uncapital(words)}`;
}

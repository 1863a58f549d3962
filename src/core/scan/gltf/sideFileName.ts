import { ScanError } from '../error.ts';

const longestName = 255;
const deepest = 8;

/**
 * The name of a file beside the glTF as its address says it, after the per cent signs are undone: parts of a path
 * that leads down from the glTF's own folder, joined by "/". Throws `malformed` for an address that leads elsewhere (up,
 * to another disk, to a server), or that cannot be the name of a file.
 */
export function sideFileName(uri: string): string {
  // Nothing is fetched: of an address in the web the file's own name counts, which may be handed in.
  const name = decoded(uri.replace(/^https?:\/\/.*\//i, '')).replace(/^(\.\/)+/, '');
  const parts = name.split('/');
  if (parts.length <= deepest && parts.every(isPlainName)) return name;
  throw notBeside(uri);
}

function decoded(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    throw notBeside(uri);
  }
}

/** No control characters, nothing that a system takes for a path, a disk or a stream. */
const isPlainName = (part: string): boolean =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
  part !== '' && part !== '.' && part !== '..' && part.length <= longestName && !/[\u0000-\u001f\u007f\\:]/.test(part);

const notBeside = (uri: string): ScanError =>
  new ScanError(
    'malformed',
    `the glTF names its buffer "${uri.slice(0, 60)}", which is no file beside it; put the buffer beside it, or export as GLB.`,
  );

import type { Surface } from '../surface.ts';
import { readBinaryStl } from './binary.ts';
import { isExactBinaryStl, isTextStl } from './recogniseStl.ts';
import { readTextStl } from './text.ts';

/** Reads an STL file; its length, not its first word, tells binary from text. */
export const readStl = (bytes: Uint8Array): Surface =>
  !isExactBinaryStl(bytes) && isTextStl(bytes) ? readTextStl(bytes) : readBinaryStl(bytes);

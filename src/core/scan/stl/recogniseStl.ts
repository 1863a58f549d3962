import { wordsAtStart } from '../text/words.ts';

const headerBytes = 84;
export const facetBytes = 50;

const countOf = (bytes: Uint8Array): number =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(80, true);

/** True where the length is exactly what the binary header's count asks for. Text can never pass. */
export const isExactBinaryStl = (bytes: Uint8Array): boolean =>
  bytes.length >= headerBytes && headerBytes + countOf(bytes) * facetBytes === bytes.length;

/** True for text that begins with "solid" and goes on as an STL does: many binary files begin with "solid" as well. */
export function isTextStl(bytes: Uint8Array): boolean {
  const words = wordsAtStart(bytes, 4096);
  return words[0] === 'solid' && (words.includes('endsolid') || words.includes('vertex') || words.includes('facet'));
}

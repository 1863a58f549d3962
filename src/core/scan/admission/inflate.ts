import { Inflate, Unzlib } from 'fflate';

/** One push unpacks at most 1032 times this. */
const portion = 1 << 13;

/**
 * Unpacks a stream given in parts, with the wrapping of zlib or bare, and stops as soon as it has made more than `most` bytes. Returns what it made,
 * up to there, or null where the stream is longer than that. Throws what the unpacker throws for a damaged stream.
 * Whether a stream ends early is for the caller to see, by the length.
 */
export function inflateWithin(
  parts: readonly Uint8Array[],
  most: number,
  wrapping: 'zlib' | 'bare' = 'zlib',
): Uint8Array | null {
  const out = new Uint8Array(most);
  let used = 0;
  const take = (chunk: Uint8Array): void => {
    if (used + chunk.length <= most) out.set(chunk, used);
    used += chunk.length;
  };
  const stream = wrapping === 'zlib' ? new Unzlib(take) : new Inflate(take);
  for (const part of parts)
    for (let at = 0; at < part.length && used <= most; at += portion) stream.push(part.subarray(at, at + portion));
  return used > most ? null : out.subarray(0, used);
}

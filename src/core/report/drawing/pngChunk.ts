/** One chunk of a PNG (ISO/IEC 15948): length, type, data, checksum of the two. */
export function pngChunk(type: string, data: Uint8Array): Uint8Array {
  const out = new Uint8Array(data.length + 12);
  const numbers = new DataView(out.buffer);
  numbers.setUint32(0, data.length);
  out.set(latinBytes(type), 4);
  out.set(data, 8);
  numbers.setUint32(data.length + 8, checksum(out.subarray(4, data.length + 8)));
  return out;
}

/** ISO 8859-1. */
export const latinBytes = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** Remainders of single bytes: the reflected CRC-32 of ISO 3309. */
const remainders = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? 0xedb88320 ^ (rest >>> 1) : rest >>> 1;
  return rest;
});

function checksum(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) rest = remainders[(rest ^ bytes[i]) & 255] ^ (rest >>> 8);
  return ~rest >>> 0;
}

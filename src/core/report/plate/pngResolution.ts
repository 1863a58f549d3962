/** CRC-32 of the PNG specification (W3C, annex D): polynomial 0xEDB88320, reflected. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** Signature of 8 bytes, and the header chunk: length, name, 13 bytes, checksum. */
const headerEnd = 8 + 4 + 4 + 13 + 4;

/** The PNG with its resolution (chunk pHYs, pixels a metre), which the encoder does not write. */
export function pngResolution(png: Uint8Array, dpi: number): Uint8Array {
  const chunk = new Uint8Array(4 + 4 + 9 + 4);
  const view = new DataView(chunk.buffer);
  const perMetre = Math.round(dpi / 0.0254);
  view.setUint32(0, 9);
  chunk.set([0x70, 0x48, 0x59, 0x73], 4);
  view.setUint32(8, perMetre);
  view.setUint32(12, perMetre);
  chunk[16] = 1;
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  const out = new Uint8Array(png.length + chunk.length);
  out.set(png.subarray(0, headerEnd));
  out.set(chunk, headerEnd);
  out.set(png.subarray(headerEnd), headerEnd + chunk.length);
  return out;
}

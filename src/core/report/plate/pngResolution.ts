import { joinBytes } from '../../scan/index.ts';
import { pngChunk } from '../drawing/pngChunk.ts';

/** Signature of 8 bytes, and the header chunk: length, name, 13 bytes, checksum. */
const headerEnd = 8 + 4 + 4 + 13 + 4;

/** The PNG with its resolution (chunk pHYs, pixels a metre), which the encoder does not write. */
export function pngResolution(png: Uint8Array, dpi: number): Uint8Array {
  const data = new Uint8Array(9);
  const view = new DataView(data.buffer);
  const perMetre = Math.round(dpi / 0.0254);
  view.setUint32(0, perMetre);
  view.setUint32(4, perMetre);
  data[8] = 1;
  return joinBytes([png.subarray(0, headerEnd), pngChunk('pHYs', data), png.subarray(headerEnd)]);
}

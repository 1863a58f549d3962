import type { GeneratedScan } from '../types.ts';

/** A scan as binary little-endian PLY: float32 positions in the scan's unit, which the format cannot state. */
export function toPly(scan: GeneratedScan, note: string): Uint8Array {
  const vertices = scan.positions.length / 3;
  const triangles = scan.triangles.length / 3;
  const head = [
    'ply',
    'format binary_little_endian 1.0',
    `comment simulated: ${note}`,
    `element vertex ${vertices}`,
    'property float x',
    'property float y',
    'property float z',
    `element face ${triangles}`,
    'property list uchar int vertex_indices',
    'end_header\n',
  ].join('\n');
  const out = new Uint8Array(head.length + 12 * vertices + 13 * triangles);
  for (let i = 0; i < head.length; i++) out[i] = head.charCodeAt(i);
  const view = new DataView(out.buffer);
  let at = head.length;
  for (const value of scan.positions) {
    view.setFloat32(at, value, true);
    at += 4;
  }
  for (let i = 0; i < scan.triangles.length; i += 3) {
    out[at] = 3;
    for (let k = 0; k < 3; k++) view.setInt32(at + 1 + 4 * k, scan.triangles[i + k], true);
    at += 13;
  }
  return out;
}

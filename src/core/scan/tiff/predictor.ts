import { ScanError } from '../error.ts';

/**
 * Undoes the prediction along the rows of a segment, in place; true where its values are big-endian afterwards,
 * whatever the file's order. 1: none. 2: each value is the difference from the one before it, modulo 2^bits (TIFF 6.0, section
 * 14). 3: the bytes of a row's floats, most significant first, lie plane after plane, each the difference from the byte
 * before it (TIFF Technical Note 3, 2005). One channel.
 */
export function undoPrediction(
  bytes: Uint8Array,
  predictor: number,
  columns: number,
  size: number,
  little: boolean,
): boolean {
  const row = columns * size;
  if (predictor === 1) return false;
  if (predictor === 3) {
    for (let at = 0; at + row <= bytes.length; at += row) joinPlanes(bytes.subarray(at, at + row), columns, size);
    return true;
  }
  if (predictor !== 2 || size > 4)
    throw new ScanError('unsupported', 'the TIFF uses a prediction that is not read; save it without compression.');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 0; at + row <= bytes.length; at += row)
    for (let i = at + size; i < at + row; i += size) {
      if (size === 2) view.setUint16(i, view.getUint16(i, little) + view.getUint16(i - 2, little), little);
      else view.setUint32(i, view.getUint32(i, little) + view.getUint32(i - 4, little), little);
    }
  return false;
}

function joinPlanes(row: Uint8Array, columns: number, size: number): void {
  for (let i = 1; i < row.length; i++) row[i] += row[i - 1];
  const planes = row.slice();
  for (let column = 0; column < columns; column++)
    for (let byte = 0; byte < size; byte++) row[column * size + byte] = planes[byte * columns + column];
}

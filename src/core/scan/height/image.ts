import { decode as decodePng } from 'fast-png';
import { decode as decodeTiff } from 'tiff';
import { ScanError } from '../error.ts';
import { checkSize } from '../limits.ts';
import type { Surface } from '../surface.ts';
import type { ReadOptions } from '../types.ts';
import { mostInflation } from '../zip.ts';
import { surfaceOfHeights } from './gridSurface.ts';

/** What an image file holds, before it has a scale. */
interface Picture {
  readonly width: number;
  readonly height: number;
  /** Pixel values, row by row from the top; NaN where there is none. */
  readonly values: ArrayLike<number>;
}

/**
 * A height map as a surface: x to the right, y up the picture, z = value · heightStep, in the stated unit.
 * Throws `unitNeeded` where the pixel size or the height step is not stated: no picture file carries them reliably.
 */
export function readHeightMap(bytes: Uint8Array, format: 'png' | 'tiff', options: ReadOptions): Surface {
  const { pixelSize, heightStep } = options;
  if (!(pixelSize && pixelSize > 0 && heightStep && Number.isFinite(heightStep * pixelSize)))
    throw new ScanError(
      'unitNeeded',
      'a height map carries no size; state the size of a pixel and the height of one step (--pixel-size, --height-step).',
    );
  const { width, height, values } = format === 'png' ? readPng(bytes) : readTiff(bytes);
  const z = new Float64Array(width * height);
  for (let i = 0; i < z.length; i++) z[i] = values[i] * heightStep;
  // Row 0 is the top: y falls as the row grows, so that columns before rows wind clockwise.
  return surfaceOfHeights(
    { columns: width, rows: height, z, x: (c) => c * pixelSize, y: (_, r) => -r * pixelSize },
    true,
  );
}

/** 16-bit grey, with or without transparency: transparent pixels have no height. */
function readPng(bytes: Uint8Array): Picture {
  const header = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 57) throw damaged('PNG');
  checkPicture(header.getUint32(16), header.getUint32(20), 2, bytes, 'PNG');
  if (header.getUint8(24) !== 16 || (header.getUint8(25) !== 0 && header.getUint8(25) !== 4))
    throw new ScanError('unsupported', 'the PNG is a picture, not a height map; export heights as 16-bit grey.');
  const png = guarded('PNG', () => decodePng(bytes, { checkCrc: true }));
  const { width, height, data, channels } = png;
  // Grey of this one value stands for transparent.
  const hiddenValue = png.transparency?.[0];
  const values = new Float64Array(width * height);
  for (let i = 0; i < values.length; i++) {
    const value = data[i * channels];
    const hidden = channels === 2 ? data[i * 2 + 1] === 0 : value === hiddenValue;
    values[i] = hidden ? Number.NaN : value;
  }
  return { width, height, values };
}

/** Tags of TIFF 6.0, and the one in which geographic software writes the value that stands for "no data". */
const tag = { width: 256, height: 257, bits: 258, photometric: 262, samples: 277, format: 339, noData: 42113 };

/** One channel of 32- or 64-bit float or 16-bit whole numbers. */
function readTiff(bytes: Uint8Array): Picture {
  const page = guarded('TIFF', () => decodeTiff(bytes, { pages: [0], ignoreImageData: true })[0]);
  const bits = Number(page.get(tag.bits) ?? 1);
  const float = Number(page.get(tag.format) ?? 1) === 3;
  const wholeNumbers = bits === 16 && Number(page.get(tag.format) ?? 1) === 1;
  if (Number(page.get(tag.samples) ?? 1) !== 1 || !((float && bits >= 32) || wholeNumbers))
    throw new ScanError('unsupported', 'the TIFF is not a height map; export one channel of 32-bit float.');
  checkPicture(page.width, page.height, bits / 8, bytes, 'TIFF');
  const { width, height, data } = guarded('TIFF', () => decodeTiff(bytes, { pages: [0] })[0]);
  const stated = Number.parseFloat(String(page.get(tag.noData) ?? 'none'));
  const noData = bits === 32 ? Math.fround(stated) : stated;
  // Beyond any length: writers mark missing heights with the largest float there is.
  const values = Float64Array.from(data, (value) => (value === noData || Math.abs(value) > 1e30 ? Number.NaN : value));
  return { width, height, values };
}

function checkPicture(width: number, height: number, bytesPerPixel: number, bytes: Uint8Array, kind: string): void {
  const size = width * height * bytesPerPixel;
  if (!(size > 0) || size > bytes.length * mostInflation) throw damaged(kind);
  checkSize(width * height, width * height * 2);
}

/** The libraries throw plain errors for anything that is wrong with a file. */
function guarded<T>(kind: string, decode: () => T): T {
  try {
    return decode();
  } catch {
    throw damaged(kind);
  }
}

const damaged = (kind: string): ScanError =>
  new ScanError(
    'malformed',
    `the ${kind} file is damaged, cut short or of an unusual make; save it again without compression.`,
  );

import type { Budget } from '../admission/budget.ts';
import { ScanError } from '../error.ts';
import { checkSize } from '../limits.ts';
import { brokenTiff, TiffDirectory } from './directory.ts';
import { undoPrediction } from './predictor.ts';
import { unpackSegment } from './unpack.ts';

/** Tags of TIFF 6.0, and the one in which geographic software writes the value that stands for "no data". */
const tag = {
  width: 256,
  height: 257,
  bits: 258,
  compression: 259,
  photometric: 262,
  fillOrder: 266,
  stripOffsets: 273,
  orientation: 274,
  samples: 277,
  rowsPerStrip: 278,
  stripBytes: 279,
  predictor: 317,
  tileWidth: 322,
  tileHeight: 323,
  tileOffsets: 324,
  tileBytes: 325,
  format: 339,
  noData: 42113,
};

type Read = (view: DataView, at: number, little: boolean) => number;

/** By sample format (1 whole, 2 signed, 3 float) and bits a value. */
const readers: Readonly<Record<string, Read>> = {
  '1/16': (view, at, little) => view.getUint16(at, little),
  '1/32': (view, at, little) => view.getUint32(at, little),
  '2/16': (view, at, little) => view.getInt16(at, little),
  '2/32': (view, at, little) => view.getInt32(at, little),
  '3/32': (view, at, little) => view.getFloat32(at, little),
  '3/64': (view, at, little) => view.getFloat64(at, little),
};

/** A block of the picture as it is stored: a strip of whole rows or a tile, which may reach over the edge. */
interface Layout {
  readonly columns: number;
  readonly rows: number;
  readonly across: number;
  readonly down: number;
  readonly offsets: Float64Array;
  readonly bytes: Float64Array;
}

/** Heights of the first picture, row by row from the top; NaN where there is none. */
export interface TiffHeights {
  readonly width: number;
  readonly height: number;
  readonly values: Float64Array;
}

/**
 * One channel of 16- or 32-bit whole numbers, signed or not, or of 32- or 64-bit floats, classic TIFF or BigTIFF, in
 * strips or tiles. Whether black or white is the least says how to show a picture, not what its numbers are:
 * heights are the numbers as stored. Colours, palettes and 8-bit pictures are `unsupported`.
 */
export function readTiff(bytes: Uint8Array, budget: Budget): TiffHeights {
  const directory = new TiffDirectory(bytes);
  const width = sized(directory.value(tag.width, 0));
  const height = sized(directory.value(tag.height, 0));
  const bits = directory.value(tag.bits, 1);
  const format = directory.value(tag.format, 1);
  const read = readers[`${format}/${bits}`];
  checkIsHeights(directory, read !== undefined);
  checkSize(width * height, width * height * 2);
  const layout = layoutOf(directory, width, height);
  const size = bits / 8;
  // Every block is unpacked whole, even where it reaches far over the edge.
  budget.steps(layout.across * layout.down * layout.columns * layout.rows * size);
  budget.bytes(width * height * 8 + layout.columns * layout.rows * size);
  const values = new Float64Array(width * height);
  for (let block = 0; block < layout.across * layout.down; block++)
    fillBlock(bytes, directory, layout, block, size, read, { width, height, values });
  hideNoData(values, directory.text(tag.noData), bits);
  return { width, height, values: upright(values, width, height, directory.value(tag.orientation, 1)) };
}

function sized(value: number): number {
  if (!(value >= 1) || value > 2 ** 26) throw brokenTiff();
  return value;
}

function checkIsHeights(directory: TiffDirectory, known: boolean): void {
  const photometric = directory.value(tag.photometric, 1);
  const plain = directory.value(tag.samples, 1) === 1 && (photometric === 0 || photometric === 1);
  if (plain && known && directory.value(tag.fillOrder, 1) === 1) return;
  throw new ScanError(
    'unsupported',
    photometric === 3
      ? 'the TIFF is a picture with a palette, whose numbers are colours; export one channel of 32-bit float.'
      : 'the TIFF is not a height map; export one channel of 32-bit float.',
  );
}

function layoutOf(directory: TiffDirectory, width: number, height: number): Layout {
  const tileWidth = directory.value(tag.tileWidth, 0);
  const tiled = tileWidth > 0;
  const columns = tiled ? sized(tileWidth) : width;
  const rows = tiled ? sized(directory.value(tag.tileHeight, 0)) : sizedStrip(directory, height);
  const across = Math.ceil(width / columns);
  const down = Math.ceil(height / rows);
  const offsets = directory.list(tiled ? tag.tileOffsets : tag.stripOffsets);
  const bytes = directory.list(tiled ? tag.tileBytes : tag.stripBytes);
  if (offsets.length < across * down) throw brokenTiff();
  return { columns, rows, across, down, offsets, bytes };
}

const sizedStrip = (directory: TiffDirectory, height: number): number =>
  Math.min(height, Math.max(1, directory.value(tag.rowsPerStrip, height)));

function fillBlock(
  file: Uint8Array,
  directory: TiffDirectory,
  layout: Layout,
  block: number,
  size: number,
  read: Read,
  { width, height, values }: TiffHeights,
): void {
  const left = (block % layout.across) * layout.columns;
  const top = Math.floor(block / layout.across) * layout.rows;
  const compression = directory.value(tag.compression, 1);
  const predictor = compression === 1 ? 1 : directory.value(tag.predictor, 1);
  // The last strip holds only the rows that are left; tiles are always full.
  const storedRows =
    layout.across === 1 && layout.columns === width ? Math.min(layout.rows, height - top) : layout.rows;
  const length = layout.columns * storedRows * size;
  const at = layout.offsets[block];
  const packedLength = layout.bytes[block] ?? (compression === 1 ? length : file.length - at);
  if (!(at + packedLength <= file.length)) throw brokenTiff();
  const data = unpackSegment(file.subarray(at, at + packedLength), compression, length);
  const big = undoPrediction(data, predictor, layout.columns, size, directory.little);
  const little = directory.little && !big;
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const columns = Math.min(layout.columns, width - left);
  for (let row = 0; row < Math.min(storedRows, height - top); row++)
    for (let column = 0; column < columns; column++)
      values[(top + row) * width + left + column] = read(view, (row * layout.columns + column) * size, little);
}

/** Beyond any length: writers mark missing heights with the largest float there is. */
const beyond = 1e30;

function hideNoData(values: Float64Array, text: string | undefined, bits: number): void {
  const stated = Number.parseFloat(text ?? 'none');
  const noData = bits === 32 ? Math.fround(stated) : stated;
  for (let i = 0; i < values.length; i++)
    if (values[i] === noData || values[i] === stated || Math.abs(values[i]) > beyond) values[i] = Number.NaN;
}

/** The picture as it is meant to be seen: some writers store it from the bottom, or from the right. */
function upright(values: Float64Array, width: number, height: number, orientation: number): Float64Array {
  if (orientation > 4)
    throw new ScanError('unsupported', 'the TIFF is stored on its side; save it again with the first row on top.');
  const fromRight = orientation === 2 || orientation === 3;
  const fromBottom = orientation === 3 || orientation === 4;
  if (!fromRight && !fromBottom) return values;
  return Float64Array.from(values, (_, i) => {
    const row = Math.floor(i / width);
    const column = i % width;
    return values[(fromBottom ? height - 1 - row : row) * width + (fromRight ? width - 1 - column : column)];
  });
}

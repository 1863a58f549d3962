import { zlibSync } from 'fflate';

/** Values by TIFF sample format and bits, and how one is written. */
const writers = {
  '1/16': (view: DataView, at: number, value: number, little: boolean) => view.setUint16(at, value, little),
  '1/32': (view: DataView, at: number, value: number, little: boolean) => view.setUint32(at, value, little),
  '2/16': (view: DataView, at: number, value: number, little: boolean) => view.setInt16(at, value, little),
  '2/32': (view: DataView, at: number, value: number, little: boolean) => view.setInt32(at, value, little),
  '3/32': (view: DataView, at: number, value: number, little: boolean) => view.setFloat32(at, value, little),
  '3/64': (view: DataView, at: number, value: number, little: boolean) => view.setFloat64(at, value, little),
} as const;

export type Sample = keyof typeof writers;

export interface TiffRecipe {
  readonly width: number;
  readonly height: number;
  readonly values: ArrayLike<number>;
  readonly sample: Sample;
  readonly little?: boolean;
  readonly big?: boolean;
  /** 1 none, 5 LZW, 8 deflate, 32773 PackBits. */
  readonly compression?: 1 | 5 | 8 | 32773;
  readonly predictor?: 1 | 2 | 3;
  /** Side of a square tile; strips of two rows where there is none. */
  readonly tile?: number;
  /** Further fields or other values of those that are written, [tag, value]. */
  readonly fields?: ReadonlyArray<readonly [number, number]>;
  readonly rows?: number;
}

/** A TIFF made from nothing but the words of the standard (TIFF 6.0; BigTIFF; Technical Note 3): a referee for the reader. */
export function makeTiff(recipe: TiffRecipe): Uint8Array {
  const { width, height, sample, little = true, big = false, compression = 1, predictor = 1, tile, rows = 2 } = recipe;
  const [format, bits] = sample.split('/').map(Number);
  const blocks = blocksOf(recipe, bits / 8, tile ?? width, tile ?? rows);
  const field = (tag: number, values: readonly number[]) => ({ tag, values });
  const replaced = new Map(recipe.fields);
  const packed = blocks.map((block) => packBlock(block, compression));
  const fields = [
    field(256, [width]),
    field(257, [height]),
    field(258, [bits]),
    field(259, [compression]),
    field(262, [1]),
    ...(tile
      ? []
      : [
          field(
            273,
            packed.map(() => 0),
          ),
        ]),
    field(277, [1]),
    ...(tile
      ? []
      : [
          field(278, [rows]),
          field(
            279,
            packed.map(({ length }) => length),
          ),
        ]),
    field(317, [predictor]),
    ...(tile
      ? [
          field(322, [tile]),
          field(323, [tile]),
          field(
            324,
            packed.map(() => 0),
          ),
          field(
            325,
            packed.map((p) => p.length),
          ),
        ]
      : []),
    field(339, [format]),
  ]
    .map(({ tag, values }) => ({ tag, values: replaced.has(tag) ? [replaced.get(tag) as number] : values }))
    .concat([...replaced].filter(([tag]) => tag === 274 || tag === 266).map(([tag, value]) => field(tag, [value])))
    .sort((a, b) => a.tag - b.tag);
  return written(fields, packed, little, big);
}

/** Every field as 32-bit numbers: allowed for sizes and offsets, and readers take it for the rest. */
function written(
  fields: ReadonlyArray<{ tag: number; values: readonly number[] }>,
  packed: readonly Uint8Array[],
  little: boolean,
  big: boolean,
): Uint8Array {
  const [start, countBytes, entry, inline] = big ? [16, 8, 20, 8] : [8, 2, 12, 4];
  let free = start + countBytes + fields.length * entry + inline;
  const places = fields.map(({ values }) => {
    const size = values.length * 4;
    if (size <= inline) return 0;
    free += size;
    return free - size;
  });
  const offsets = packed.map(({ length }) => {
    free += length;
    return free - length;
  });
  const out = new Uint8Array(free);
  const view = new DataView(out.buffer);
  view.setUint16(0, little ? 0x4949 : 0x4d4d);
  view.setUint16(2, big ? 43 : 42, little);
  const number = (at: number, value: number) =>
    big ? view.setBigUint64(at, BigInt(value), little) : view.setUint32(at, value, little);
  if (big) view.setUint16(4, 8, little);
  number(big ? 8 : 4, start);
  if (big) number(start, fields.length);
  else view.setUint16(start, fields.length, little);
  fields.forEach(({ tag, values }, i) => {
    const at = start + countBytes + i * entry;
    view.setUint16(at, tag, little);
    view.setUint16(at + 2, 4, little);
    number(at + 4, values.length);
    const stored = tag === 273 || tag === 324 ? offsets : values;
    const inside = at + (big ? 12 : 8);
    if (places[i] > 0) number(inside, places[i]);
    stored.forEach((value, k) => {
      view.setUint32((places[i] || inside) + k * 4, value, little);
    });
  });
  packed.forEach((data, i) => {
    out.set(data, offsets[i]);
  });
  return out;
}

function blocksOf(recipe: TiffRecipe, size: number, columns: number, rows: number): Uint8Array[] {
  const { width, height, values, sample, little = true, predictor = 1, tile } = recipe;
  const blocks: Uint8Array[] = [];
  for (let top = 0; top < height; top += rows)
    for (let left = 0; left < width; left += columns) {
      const stored = tile ? rows : Math.min(rows, height - top);
      const block = new Uint8Array(columns * stored * size);
      const view = new DataView(block.buffer);
      for (let row = 0; row < stored; row++)
        for (let column = 0; column < columns; column++) {
          const value = values[Math.min(top + row, height - 1) * width + Math.min(left + column, width - 1)];
          writers[sample](view, (row * columns + column) * size, value, predictor === 3 ? false : little);
        }
      if (predictor === 2) differences(view, columns, stored, size, little);
      if (predictor === 3) planes(block, columns, stored, size);
      blocks.push(block);
    }
  return blocks;
}

function differences(view: DataView, columns: number, rows: number, size: number, little: boolean): void {
  for (let row = 0; row < rows; row++)
    for (let i = columns - 1; i > 0; i--) {
      const at = (row * columns + i) * size;
      if (size === 2) view.setUint16(at, view.getUint16(at, little) - view.getUint16(at - 2, little), little);
      else view.setUint32(at, view.getUint32(at, little) - view.getUint32(at - 4, little), little);
    }
}

function planes(block: Uint8Array, columns: number, rows: number, size: number): void {
  const row = columns * size;
  for (let at = 0; at < rows * row; at += row) {
    const values = block.slice(at, at + row);
    for (let column = 0; column < columns; column++)
      for (let byte = 0; byte < size; byte++) block[at + byte * columns + column] = values[column * size + byte];
    for (let i = row - 1; i > 0; i--) block[at + i] -= block[at + i - 1];
  }
}

function packBlock(block: Uint8Array, compression: number): Uint8Array {
  if (compression === 8) return zlibSync(block);
  if (compression === 5) return lzw(block);
  return compression === 32773 ? packBits(block) : block;
}

function packBits(block: Uint8Array): Uint8Array {
  const out: number[] = [];
  for (let at = 0; at < block.length; ) {
    let run = 1;
    while (run < 128 && block[at + run] === block[at]) run++;
    if (run > 2) out.push(257 - run, block[at]);
    else {
      run = Math.min(100, block.length - at);
      out.push(run - 1, ...block.subarray(at, at + run));
    }
    at += run;
  }
  return Uint8Array.from(out);
}

/** LZW as TIFF 6.0, section 13, tells an encoder to write it. */
function lzw(block: Uint8Array): Uint8Array {
  const out: number[] = [];
  let [held, bits, width, next] = [0, 0, 9, 258];
  let table = new Map<string, number>();
  const put = (code: number) => {
    held = (held << width) | code;
    bits += width;
    while (bits >= 8) {
      out.push((held >> (bits - 8)) & 255);
      bits -= 8;
    }
    held &= (1 << bits) - 1;
  };
  const codeOf = (text: string): number => (text.length === 1 ? text.charCodeAt(0) : (table.get(text) as number));
  put(256);
  let known = '';
  for (const byte of block) {
    const longer = known + String.fromCharCode(byte);
    if (longer.length === 1 || table.has(longer)) {
      known = longer;
      continue;
    }
    put(codeOf(known));
    table.set(longer, next++);
    if (next === 1 << width && width < 12) width++;
    if (next === 4094) {
      put(256);
      table = new Map();
      [width, next] = [9, 258];
    }
    known = String.fromCharCode(byte);
  }
  if (known) put(codeOf(known));
  // The reader has entered one more code by now.
  if (next + 1 === 1 << width && width < 12) width++;
  put(257);
  if (bits > 0) out.push((held << (8 - bits)) & 255);
  return Uint8Array.from(out);
}

export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  /** 0 black, row 0 at the top. */
  readonly grey: Uint8Array;
  readonly dpi: number;
  readonly description: string;
}

/** Types of the entries of a TIFF directory: ASCII, SHORT, LONG, RATIONAL. */
const [ascii, short, long, rational] = [2, 3, 4, 5];
const sizes: Readonly<Record<number, number>> = { [ascii]: 1, [short]: 2, [long]: 4, [rational]: 8 };

/** A baseline greyscale TIFF, uncompressed, one strip, with its resolution (TIFF 6.0, sections 2 and 4). */
export function writeTiff({ width, height, grey, dpi, description }: GreyPicture): Uint8Array {
  const text = Uint8Array.from(`${description.replaceAll(/[^\x20-\x7e]/g, '?')}\0`, (c) => c.charCodeAt(0));
  const entries = [
    { tag: 256, type: long, values: [width] },
    { tag: 257, type: long, values: [height] },
    { tag: 258, type: short, values: [8] },
    { tag: 259, type: short, values: [1] },
    { tag: 262, type: short, values: [1] },
    { tag: 270, type: ascii, values: text },
    { tag: 273, type: long, values: [0] },
    { tag: 277, type: short, values: [1] },
    { tag: 278, type: long, values: [height] },
    { tag: 279, type: long, values: [grey.length] },
    { tag: 282, type: rational, values: [dpi, 1] },
    { tag: 283, type: rational, values: [dpi, 1] },
    { tag: 296, type: short, values: [2] },
  ];
  const directory = 8;
  const after = directory + 2 + 12 * entries.length + 4;
  const extra = entries.reduce((sum, { type, values }) => sum + outside(type, values.length), 0);
  const strip = after + extra;
  const out = new Uint8Array(strip + grey.length);
  const view = new DataView(out.buffer);
  out.set([0x49, 0x49, 42, 0]);
  view.setUint32(4, directory, true);
  view.setUint16(directory, entries.length, true);
  let free = after;
  entries.forEach(({ tag, type, values }, i) => {
    const at = directory + 2 + 12 * i;
    const count = type === rational ? values.length / 2 : values.length;
    view.setUint16(at, tag, true);
    view.setUint16(at + 2, type, true);
    view.setUint32(at + 4, count, true);
    const away = outside(type, values.length);
    if (away > 0) view.setUint32(at + 8, free, true);
    put(view, away > 0 ? free : at + 8, type, tag === 273 ? [strip] : values);
    free += away;
  });
  out.set(grey, strip);
  return out;
}

/** Bytes that an entry's values take outside the directory, to an even number. */
function outside(type: number, length: number): number {
  const bytes = (type === rational ? length / 2 : length) * sizes[type];
  return bytes > 4 ? bytes + (bytes & 1) : 0;
}

function put(view: DataView, at: number, type: number, values: ArrayLike<number>): void {
  for (let k = 0; k < values.length; k++) {
    if (type === ascii) view.setUint8(at + k, values[k]);
    else if (type === short) view.setUint16(at + 2 * k, values[k], true);
    else view.setUint32(at + 4 * k, values[k], true);
  }
}

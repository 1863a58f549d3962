import { zlibSync } from 'fflate';
import { joinBytes } from '../../scan/index.ts';
import { latinBytes, pngChunk } from './pngChunk.ts';

/** 8 bits a channel, row 0 at the top. */
export interface PngPixels {
  readonly width: number;
  readonly height: number;
  /** 1: grey, or index of `palette`; 3: red, green, blue; 4: and opacity. */
  readonly channels: 1 | 3 | 4;
  readonly data: Uint8Array;
  /** Red, green, blue and opacity of each index. */
  readonly palette?: ReadonlyArray<readonly number[]>;
  /** Stands inside the file as its description: ISO 8859-1. */
  readonly description?: string;
}

/** Packs bytes into a zlib stream (RFC 1950). */
export type Deflate = (bytes: Uint8Array) => Uint8Array;

/** Speed before size: deflate is what a figure costs most. */
const quickly: Deflate = (bytes) => zlibSync(bytes, { level: 1 });

const colourType = { 1: 0, 3: 2, 4: 6 } as const;

/**
 * Pixels as a PNG (ISO/IEC 15948). The library that reads PNG writes it as well, byte by byte and by its own deflate: of a report's
 * figures 0.5 s of 62,000 vertices' 5; whoever runs where there is a compiled `deflate` hands it in.
 */
export function writePng(pixels: PngPixels, deflate: Deflate = quickly): Uint8Array {
  const { width, height, channels, palette, description } = pixels;
  const head = new Uint8Array(13);
  const numbers = new DataView(head.buffer);
  numbers.setUint32(0, width);
  numbers.setUint32(4, height);
  head.set([8, palette ? 3 : colourType[channels]], 8);
  return joinBytes([
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    pngChunk('IHDR', head),
    ...(palette ? [pngChunk('PLTE', Uint8Array.from(palette.flatMap((colour) => colour.slice(0, 3))))] : []),
    ...(palette
      ? [
          pngChunk(
            'tRNS',
            Uint8Array.from(palette, (colour) => colour[3]),
          ),
        ]
      : []),
    ...(description === undefined ? [] : [pngChunk('tEXt', latinBytes(`Description\0${description}`))]),
    pngChunk('IDAT', deflate(rowsOf(pixels))),
    pngChunk('IEND', new Uint8Array(0)),
  ]);
}

/** Each row after the number of its filter: none. */
function rowsOf({ width, height, channels, data }: PngPixels): Uint8Array {
  const wide = width * channels;
  const rows = new Uint8Array((wide + 1) * height);
  for (let row = 0; row < height; row++) rows.set(data.subarray(row * wide, (row + 1) * wide), row * (wide + 1) + 1);
  return rows;
}

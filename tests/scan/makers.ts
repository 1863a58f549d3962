import { strToU8, zipSync } from 'fflate';

/** A GLB of its JSON and its binary chunk, lengths padded to four. */
export function makeGlb(document: unknown, binary: Uint8Array): Uint8Array {
  const text = typeof document === 'string' ? document : JSON.stringify(document);
  const json = strToU8(text.padEnd(Math.ceil(text.length / 4) * 4));
  const padded = Math.ceil(binary.length / 4) * 4;
  const out = new Uint8Array(28 + json.length + padded);
  const view = new DataView(out.buffer);
  for (const [i, word] of [0x46546c67, 2, out.length, json.length, 0x4e4f534a].entries())
    view.setUint32(i * 4, word, true);
  out.set(json, 20);
  view.setUint32(20 + json.length, padded, true);
  view.setUint32(24 + json.length, 0x004e4942, true);
  out.set(binary, 28 + json.length);
  return out;
}

/** The document of a mesh whose positions (float32) and corners (uint32) lie one after another in one buffer. */
export const meshDocument = (vertices: number, corners: number, uri?: string) => ({
  asset: { version: '2.0' },
  scene: 0,
  scenes: [{ nodes: [0] }],
  nodes: [{ mesh: 0, rotation: [0, 0, 0, 1], scale: [1, 1, 1], children: [1] }, { translation: [0, 0, 0] }],
  meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1, mode: 4 }] }],
  accessors: [
    { bufferView: 0, byteOffset: 0, componentType: 5126, count: vertices, type: 'VEC3' },
    { bufferView: 1, componentType: 5125, count: corners, type: 'SCALAR' },
  ],
  bufferViews: [
    { buffer: 0, byteOffset: 0, byteLength: vertices * 12, byteStride: 12 },
    { buffer: 0, byteOffset: vertices * 12, byteLength: corners * 4 },
  ],
  buffers: [{ byteLength: vertices * 12 + corners * 4, ...(uri !== undefined && { uri }) }],
});

/** Positions and corners as `meshDocument` tells of them. */
export function meshBuffer(positions: ArrayLike<number>, corners: ArrayLike<number>): Uint8Array {
  const out = new Uint8Array(positions.length * 4 + corners.length * 4);
  out.set(new Uint8Array(Float32Array.from(positions).buffer));
  out.set(new Uint8Array(Uint32Array.from(corners).buffer), positions.length * 4);
  return out;
}

/** An X3P of heights as float64, in a binary file with a mask or as a list in its XML. */
export function makeX3p(columns: number, rows: number, z: ArrayLike<number>, inline: boolean, pitch = 1): Uint8Array {
  const axis = (name: string, kind: 'I' | 'A') =>
    `<${name}><AxisType>${kind}</AxisType><DataType>D</DataType><Increment>${pitch}</Increment><Offset>0</Offset></${name}>`;
  const points = inline
    ? `<DataList>${Array.from(z, (value) => (Number.isNaN(value) ? '<Datum/>' : `<Datum>${value}</Datum>`)).join('')}</DataList>`
    : '<DataLink><PointDataLink>bindata/data.bin</PointDataLink><ValidPointsLink>bindata/valid.bin</ValidPointsLink></DataLink>';
  const xml = `<?xml version="1.0"?><p:ISO5436_2 xmlns:p="http://www.opengps.eu/2008/ISO5436_2"><Record1><FeatureType>SUR</FeatureType><Axes>${axis('CX', 'I')}${axis('CY', 'I')}${axis('CZ', 'A')}</Axes></Record1><Record3><MatrixDimension><SizeX>${columns}</SizeX><SizeY>${rows}</SizeY><SizeZ>1</SizeZ></MatrixDimension>${points}</Record3></p:ISO5436_2>`;
  return zipSync({
    'main.xml': strToU8(xml),
    ...(inline
      ? {}
      : {
          'bindata/data.bin': new Uint8Array(Float64Array.from(z).buffer),
          'bindata/valid.bin': new Uint8Array(Math.ceil((columns * rows) / 8)).fill(255),
        }),
  });
}

/** Text with two bytes a letter, with its mark unless `mark` is false. */
export function asUtf16(text: string, little = true, mark = true): Uint8Array {
  const letters = mark ? `\ufeff${text}` : text;
  const out = new Uint8Array(letters.length * 2);
  const view = new DataView(out.buffer);
  for (let i = 0; i < letters.length; i++) view.setUint16(i * 2, letters.charCodeAt(i), little);
  return out;
}

/** The parts of a PNG behind its signature, and a PNG of parts with their checksums made right. */
export interface PngPart {
  type: string;
  data: Uint8Array;
}

export function pngParts(png: Uint8Array): PngPart[] {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const parts: PngPart[] = [];
  for (let at = 8; at + 12 <= png.length; ) {
    const length = view.getUint32(at);
    const type = String.fromCharCode(...png.subarray(at + 4, at + 8));
    parts.push({ type, data: png.slice(at + 8, at + 8 + length) });
    at += 12 + length;
  }
  return parts;
}

export function makePng(parts: readonly PngPart[]): Uint8Array {
  const out = new Uint8Array(8 + parts.reduce((sum, { data }) => sum + data.length + 12, 0));
  out.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const view = new DataView(out.buffer);
  let at = 8;
  for (const { type, data } of parts) {
    view.setUint32(at, data.length);
    for (let i = 0; i < 4; i++) out[at + 4 + i] = type.charCodeAt(i);
    out.set(data, at + 8);
    view.setUint32(at + 8 + data.length, crc32(out.subarray(at + 4, at + 8 + data.length)));
    at += 12 + data.length;
  }
  return out;
}

const crcTable = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

/** The checksum of PNG and zip (ISO 3309). */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = crcTable[(crc ^ byte) & 255] ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}

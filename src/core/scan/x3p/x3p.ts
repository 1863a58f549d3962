import type { Budget } from '../admission/budget.ts';
import { ScanError } from '../error.ts';
import { surfaceOfHeights } from '../height/gridSurface.ts';
import type { Surface } from '../surface.ts';
import { baseName, unpack } from '../zip.ts';
import { readX3pDocument, type X3pAxis, type X3pDocument, type X3pType } from './document.ts';

const sizeOf: Readonly<Record<X3pType, number>> = { I: 2, L: 4, F: 4, D: 8 };

/** The container's main.xml, in whatever folder it lies; undefined where the zip is no X3P. */
export const mainXmlOf = (names: readonly string[]): string | undefined =>
  names.filter((name) => baseName(name).toLowerCase() === 'main.xml').sort((a, b) => a.length - b.length)[0];

/**
 * An X3P file (ISO 25178-72) as a surface in metres: one vertex for each valid point of the grid.
 * A point is missing where its value is not a number, its entry is empty or its bit in the mask is 0 (least
 * significant bit first); a set bit never brings a missing value back.
 */
export function readX3p(bytes: Uint8Array, names: readonly string[], mainXml: string, budget: Budget): Surface {
  const file: X3pFile = { bytes, names, budget };
  const document = readX3pDocument(read(file, mainXml), budget);
  const points = document.columns * document.rows;
  budget.bytes(points * 32);
  const valuesOfPoint = document.dataLink === undefined ? readList(document, points) : readFile(file, document, points);
  const [x, y, z] = document.axes.map((axis, i) => inMetres(valuesOfPoint[i], axis));
  if (!z) throw missing('heights');
  hideInvalid(z, x, y, validBits(file, document, points));
  const { columns, rows, axes } = document;
  const placeX = x ?? Float64Array.from({ length: columns }, (_, i) => i * axes[0].increment + axes[0].offset);
  const placeY = y ?? Float64Array.from({ length: rows }, (_, i) => i * axes[1].increment + axes[1].offset);
  const heights = {
    columns,
    rows,
    z,
    x: (column: number, row: number) => placeX[x ? row * columns + column : column],
    y: (column: number, row: number) => placeY[y ? row * columns + column : row],
  };
  return surfaceOfHeights(
    heights,
    growth(heights.x, columns, rows, 0) * growth(heights.y, columns, rows, 1) < 0,
    budget,
  );
}

/** The container, the names of the files in it, and what reading it may cost. */
interface X3pFile {
  readonly bytes: Uint8Array;
  readonly names: readonly string[];
  readonly budget: Budget;
}

/** By axis x, y, z the stored values of every point, or undefined where the axis is not stored. */
type Stored = readonly (Float64Array | undefined)[];

/** The axes that a point stores: absolute ones and z; some writers store all three. */
function storedAxes(document: X3pDocument, isAll: (axes: readonly number[]) => boolean): readonly number[] {
  return isAll([0, 1, 2]) ? [0, 1, 2] : [0, 1, 2].filter((i) => i === 2 || document.axes[i].absolute);
}

function readFile(file: X3pFile, document: X3pDocument, points: number): Stored {
  const data = linked(file, document.dataLink ?? '');
  const bytesOf = (axes: readonly number[]) => axes.reduce((sum, i) => sum + sizeOf[document.axes[i].type], 0);
  const stored = storedAxes(document, (all) => bytesOf(all) * points === data.length);
  const stride = bytesOf(stored);
  if (stride * points > data.length) throw missing('points');
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const out: (Float64Array | undefined)[] = [undefined, undefined, undefined];
  let place = 0;
  for (const i of stored) {
    const { type } = document.axes[i];
    const values = new Float64Array(points);
    for (let point = 0, at = place; point < points; point++, at += stride) values[point] = valueAt(view, at, type);
    out[i] = values;
    place += sizeOf[type];
  }
  return out;
}

function valueAt(view: DataView, at: number, type: X3pType): number {
  if (type === 'I') return view.getInt16(at, true);
  if (type === 'L') return view.getInt32(at, true);
  return type === 'F' ? view.getFloat32(at, true) : view.getFloat64(at, true);
}

function readList(document: X3pDocument, points: number): Stored {
  const data = document.data ?? [];
  if (data.length < points) throw missing('points');
  const first = data.find((entry) => entry !== '') ?? '';
  const stored = storedAxes(document, (all) => first.split(';').length === all.length);
  const out: (Float64Array | undefined)[] = [undefined, undefined, undefined];
  for (const i of stored) out[i] = new Float64Array(points).fill(Number.NaN);
  for (let point = 0; point < points; point++) {
    if (data[point] === '') continue;
    const values = data[point].split(';');
    stored.forEach((i, k) => {
      const column = out[i];
      if (column && values[k]?.trim()) column[point] = Number(values[k]);
    });
  }
  return out;
}

function inMetres(values: Float64Array | undefined, axis: X3pAxis): Float64Array | undefined {
  if (!values || (axis.increment === 1 && axis.offset === 0)) return values;
  for (let i = 0; i < values.length; i++) values[i] = values[i] * axis.increment + axis.offset;
  return values;
}

function validBits(file: X3pFile, document: X3pDocument, points: number): Uint8Array | undefined {
  if (document.validLink === undefined) return undefined;
  const bits = linked(file, document.validLink);
  if (bits.length * 8 < points) throw missing('mask');
  return bits;
}

function hideInvalid(
  z: Float64Array,
  x: Float64Array | undefined,
  y: Float64Array | undefined,
  bits: Uint8Array | undefined,
): void {
  for (let i = 0; i < z.length; i++) {
    const masked = bits !== undefined && (bits[i >> 3] & (1 << (i & 7))) === 0;
    if (masked || !Number.isFinite(x?.[i] ?? 0) || !Number.isFinite(y?.[i] ?? 0)) z[i] = Number.NaN;
  }
}

/** A linked file, found beside main.xml or, in a re-packed container, by its own name. */
function linked(file: X3pFile, link: string): Uint8Array {
  const { names } = file;
  const name =
    names.find((candidate) => candidate === link) ??
    names.find((candidate) => candidate.endsWith(`/${link}`)) ??
    names.find((candidate) => baseName(candidate) === baseName(link));
  if (link === '' || name === undefined) throw missing('points');
  return read(file, name);
}

function read({ bytes, budget }: X3pFile, name: string): Uint8Array {
  return unpack(bytes, [name], budget)[name];
}

/** Whether places grow (1) or fall (−1) along the columns (axis 0) or rows (axis 1), by the first and last that are known. */
function growth(place: (column: number, row: number) => number, columns: number, rows: number, axis: 0 | 1): number {
  for (let across = 0; across < (axis === 0 ? rows : columns); across++) {
    const at = (along: number) => (axis === 0 ? place(along, across) : place(across, along));
    const last = (axis === 0 ? columns : rows) - 1;
    const difference = at(last) - at(0);
    if (Number.isFinite(difference) && difference !== 0) return Math.sign(difference);
  }
  return 1;
}

const missing = (what: string): ScanError =>
  new ScanError('truncated', `the X3P file lacks some or all of its ${what}; copy or export it again.`);

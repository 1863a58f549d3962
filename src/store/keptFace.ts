import { deflateSync, inflateSync, strFromU8, strToU8 } from 'fflate';
import type { Face, Outline, Sense } from '../core/face/index.ts';
import {
  type GridFrame,
  gridOn,
  type HeightGrid,
  type Mesh,
  removeForm,
  type Similarity,
  stepAcross,
  withHeights,
  xOf,
  yOf,
} from '../core/geometry/index.ts';
import type { PreparedScan } from '../core/pipeline.ts';
import type { Kind, Unit, UnitFrom } from '../core/scan/index.ts';

export const keptDefaults = {
  /** Most cells across: of a positive, and of a negative, which must not be a working seal. */
  positiveAcross: 640,
  negativeAcross: 360,
  /** A negative is kept no finer than this, mm. */
  negativePitchMm: 0.1,
  /** Heights are kept in steps of this share of the noise. */
  stepPerNoise: 0.1,
};

/** All of a prepared scan but its heights. */
interface Head {
  readonly version: 1;
  readonly name: string;
  readonly sha256: string;
  readonly format: PreparedScan['scan']['format'];
  readonly unit: Unit;
  readonly unitFrom: UnitFrom;
  readonly kind: Kind;
  readonly kindFrom: PreparedScan['kindFrom'];
  readonly material?: string;
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: PreparedScan['scaleUncertaintyFrom'];
  readonly sense: Sense;
  readonly senseConfidence: number;
  readonly senseFrom: Face['senseFrom'];
  readonly upFrom: Face['upFrom'];
  readonly outline: Omit<Outline, 'polygon'> & { readonly polygon: readonly number[] };
  readonly noiseMm: number;
  readonly noiseLengthMm: number;
  readonly filled: number;
  readonly holes: number;
  readonly candidate: Face['candidates'][number];
  readonly grid: GridFrame;
  readonly lowMm: number;
  readonly stepMm: number;
  /** The image of a coarse scan in finer cells: its planes follow those of the relief. */
  readonly fine?: { readonly grid: GridFrame; readonly lowMm: number; readonly stepMm: number };
}

/**
 * The sealed face of a prepared scan in at most 2 MB: a head, and heights and masks of the relief at a pitch that no working
 * seal could be made from. Backs and edges are not kept.
 */
export function packFace(prepared: PreparedScan, options = keptDefaults): Uint8Array {
  const { scan, face } = prepared;
  const { relief, image } = reduced(face, isNegative(prepared), options);
  const leastStepMm = options.stepPerNoise * face.noiseMm;
  const { lowMm, stepMm } = stepsOf(relief, leastStepMm);
  // Cells between the points of a scan that is kept as it is: no finer surface than it.
  const fine = relief.pitch === face.relief.pitch ? face.fine : undefined;
  const fineSteps = fine && stepsOf(fine, leastStepMm);
  const { outline, candidates, candidate, sense, senseConfidence, senseFrom, upFrom } = face;
  const head: Head = {
    version: 1,
    name: scan.name,
    sha256: scan.sha256,
    format: scan.format,
    unit: scan.unit,
    unitFrom: scan.unitFrom,
    kind: prepared.kind,
    kindFrom: prepared.kindFrom,
    ...(prepared.material && { material: prepared.material }),
    scaleUncertaintyPercent: prepared.scaleUncertaintyPercent,
    scaleUncertaintyFrom: prepared.scaleUncertaintyFrom,
    ...{ sense, senseConfidence, senseFrom, upFrom },
    outline: { ...outline, polygon: [...outline.polygon] },
    noiseMm: face.noiseMm,
    noiseLengthMm: face.noiseLengthMm,
    filled: face.filled,
    holes: face.holes,
    candidate: candidates[candidate],
    grid: gridOf(relief),
    lowMm,
    stepMm,
    ...(fine && fineSteps && { fine: { grid: gridOf(fine), ...fineSteps } }),
  };
  const text = strToU8(JSON.stringify(head));
  const planes = planesOf(relief, image, lowMm, stepMm);
  const finePlanes =
    fine && fineSteps ? planesOf(fine, fine.mask, fineSteps.lowMm, fineSteps.stepMm) : new Uint8Array(0);
  const cells = deflateSync(joined(planes, finePlanes), { level: 6 });
  const bytes = new Uint8Array(4 + text.length + cells.length);
  new DataView(bytes.buffer).setUint32(0, text.length, true);
  bytes.set(text, 4);
  bytes.set(cells, 4 + text.length);
  return bytes;
}

const gridOf = ({ width, height, pitch, left, top }: HeightGrid): GridFrame => ({ width, height, pitch, left, top });

/** The lowest height and the step that heights are kept in, mm. */
function stepsOf({ z, mask }: HeightGrid, leastMm: number): { readonly lowMm: number; readonly stepMm: number } {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < z.length; i++) if (mask[i]) [low, high] = [Math.min(low, z[i]), Math.max(high, z[i])];
  return { lowMm: low, stepMm: Math.max(leastMm, (high - low) / 65_535, 1e-6) };
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  const out = new Uint8Array(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
}

/** Masks (0 no data, 1 relief, 2 image too), then the low and the high bytes of the heights' differences along the rows: like lies by like. */
function planesOf(relief: HeightGrid, image: Uint8Array, low: number, step: number): Uint8Array {
  const n = relief.z.length;
  const planes = new Uint8Array(3 * n);
  let before = 0;
  for (let i = 0; i < n; i++) {
    if (!relief.mask[i]) continue;
    planes[i] = 1 + image[i];
    const height = Math.round((relief.z[i] - low) / step);
    const change = (height - before) & 0xffff;
    before = height;
    planes[n + i] = change & 0xff;
    planes[2 * n + i] = change >> 8;
  }
  return planes;
}

/** As the file shows it or as it is stated, whichever says so: a matrix whose file is wound the wrong way is a negative all the same. */
const isNegative = ({ face, kind }: PreparedScan): boolean =>
  face.sense === 'intaglio' || kind === 'matrix' || kind === 'mould';

/** Blocks of cells averaged until the grid is as coarse as what is kept. */
function reduced(
  { relief, image }: Face,
  negative: boolean,
  options: typeof keptDefaults,
): { relief: HeightGrid; image: Uint8Array } {
  const across = negative ? options.negativeAcross : options.positiveAcross;
  const finest = negative ? options.negativePitchMm : 0;
  const f = Math.max(stepAcross(relief, across), Math.ceil(finest / relief.pitch - 0.01));
  const width = Math.ceil(relief.width / f);
  const height = Math.ceil(relief.height / f);
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  const inImage = new Uint8Array(width * height);
  for (let i = 0; i < z.length; i++) {
    const block = cellsOf(relief, (i % width) * f, Math.floor(i / width) * f, f);
    const there = block.filter((j) => relief.mask[j]);
    if (2 * there.length < f * f) continue;
    mask[i] = 1;
    z[i] = there.reduce((sum, j) => sum + relief.z[j], 0) / there.length;
    if (2 * there.filter((j) => image.mask[j]).length > there.length) inImage[i] = 1;
  }
  const shift = ((f - 1) / 2) * relief.pitch;
  const grid = { width, height, pitch: relief.pitch * f, left: relief.left + shift, top: relief.top - shift };
  return { relief: gridOn(grid, z, mask), image: inImage };
}

function cellsOf({ width, height }: HeightGrid, column: number, row: number, side: number): number[] {
  const cells: number[] = [];
  for (let r = row; r < Math.min(height, row + side); r++)
    for (let c = column; c < Math.min(width, column + side); c++) cells.push(r * width + c);
  return cells;
}

/** The kept face as a prepared scan whose surface is the relief: what a pair is verified on. Throws RangeError for other bytes. */
export function unpackFace(bytes: Uint8Array): PreparedScan {
  const headLength = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(0, true);
  if (headLength > bytes.length - 4) throw new RangeError('Not a face that was kept.');
  const head = JSON.parse(strFromU8(bytes.subarray(4, 4 + headLength))) as Head;
  if (head.version !== 1) throw new RangeError('A face that another version kept.');
  const planes = planesIn(head, bytes.subarray(4 + headLength));
  const cells = 3 * head.grid.width * head.grid.height;
  const { relief, image } = heightsOf(head, planes.subarray(0, cells));
  const fine = head.fine && heightsOf(head.fine, planes.subarray(cells)).image;
  const mesh = meshOf(relief);
  const { outline, sense, senseConfidence, senseFrom, upFrom, noiseMm, noiseLengthMm, filled, holes } = head;
  return {
    scan: {
      name: head.name,
      format: head.format,
      sha256: head.sha256,
      mesh,
      repairs: unrepaired,
      vertices: mesh.positions.length / 3,
      triangles: mesh.triangles.length / 3,
      unit: head.unit,
      unitFrom: head.unitFrom,
    },
    face: {
      ...{ sense, senseConfidence, senseFrom, upFrom, noiseMm, noiseLengthMm, filled, holes },
      faceFromScan: unmoved,
      outline: { ...outline, polygon: Float64Array.from(outline.polygon) },
      relief,
      detail: removeForm(relief, 2).detail,
      image: removeForm(image, 2).detail,
      ...(fine && { fine }),
      candidates: [head.candidate],
      candidate: 0,
    },
    kind: head.kind,
    kindFrom: head.kindFrom,
    ...(head.material && { material: head.material }),
    scaleUncertaintyPercent: head.scaleUncertaintyPercent,
    scaleUncertaintyFrom: head.scaleUncertaintyFrom,
  };
}

/** Never more than the head announces, and that no more than is ever kept: the bytes may come from elsewhere. */
function planesIn({ grid, fine }: Head, packed: Uint8Array): Uint8Array {
  const most = 2 * keptDefaults.positiveAcross;
  const isSide = (cells: unknown): boolean => Number.isInteger(cells) && 0 < Number(cells) && Number(cells) <= most;
  const grids = fine ? [grid, fine.grid] : [grid];
  if (!grids.every(({ width, height }) => isSide(width) && isSide(height)))
    throw new RangeError('Not a face that was kept.');
  const cells = grids.reduce((sum, { width, height }) => sum + width * height, 0);
  return inflateSync(packed, { out: new Uint8Array(3 * cells) });
}

const unmoved: Similarity = { scale: 1, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] };

const unrepaired: PreparedScan['scan']['repairs'] = {
  notANumber: 0,
  cornerNotANumber: 0,
  degenerate: 0,
  duplicate: 0,
  unreferenced: 0,
  welded: 0,
  flipped: 0,
  strayPieces: 0,
  strayTriangles: 0,
};

function heightsOf(
  { grid, lowMm, stepMm }: Pick<Head, 'grid' | 'lowMm' | 'stepMm'>,
  planes: Uint8Array,
): { relief: HeightGrid; image: HeightGrid } {
  const n = grid.width * grid.height;
  if (planes.length !== 3 * n) throw new RangeError('Not a face that was kept.');
  const z = new Float32Array(n);
  const mask = new Uint8Array(n);
  let height = 0;
  for (let i = 0; i < n; i++) {
    if (!planes[i]) continue;
    mask[i] = 1;
    height = (height + planes[n + i] + (planes[2 * n + i] << 8)) & 0xffff;
    z[i] = lowMm + height * stepMm;
  }
  const relief = gridOn(grid, z, mask);
  const inImage = planes.slice(0, n).map((value) => (value === 2 ? 1 : 0));
  return {
    relief,
    image: withHeights(
      relief,
      z.map((value, i) => (inImage[i] ? value : 0)),
      inImage,
    ),
  };
}

/** Two triangles for every four neighbouring cells with data, one where three have it, in the face frame. */
function meshOf(grid: HeightGrid): Mesh {
  const { width, height, mask, z } = grid;
  const vertex = new Int32Array(z.length).fill(-1);
  const count = mask.reduce((sum, there) => sum + (there ? 1 : 0), 0);
  const positions = new Float32Array(3 * count);
  let n = 0;
  for (let i = 0; i < z.length; i++) {
    if (!mask[i]) continue;
    vertex[i] = n;
    positions[3 * n] = xOf(grid, i % width);
    positions[3 * n + 1] = yOf(grid, Math.floor(i / width));
    positions[3 * n++ + 2] = z[i];
  }
  // Two triangles for every cell at most.
  const triangles = new Uint32Array(6 * count);
  let m = 0;
  const add = (a: number, b: number, c: number): void => {
    if (a < 0 || b < 0 || c < 0) return;
    triangles[m++] = a;
    triangles[m++] = b;
    triangles[m++] = c;
  };
  for (let row = 0; row + 1 < height; row++)
    for (let column = 0; column + 1 < width; column++) {
      const i = row * width + column;
      const [a, b, c, d] = [vertex[i], vertex[i + 1], vertex[i + width], vertex[i + width + 1]];
      if (a >= 0 && d >= 0) {
        add(a, c, d);
        add(a, d, b);
      } else {
        add(a, c, b);
        add(b, c, d);
      }
    }
  return { positions, triangles: triangles.slice(0, m), offset: [0, 0, 0] };
}

/** Cells of the image, mm²: what share of a seal an object still carries is told from it. */
export const imageArea = ({ image }: Pick<Face, 'image'>): number =>
  image.mask.reduce((sum, m) => sum + m, 0) * image.pitch ** 2;

import type { Face } from '../../face/index.ts';
import {
  gaussianFilter,
  type HeightGrid,
  sampleCubic,
  sampleGrid,
  withHeights,
  xOf,
  yOf,
} from '../../geometry/index.ts';
import { type Lamp, light, type View, viewGrid } from '../../read/index.ts';
import type { Drawing, DrawnMark } from '../drawing/index.ts';
import { words } from '../drawing/index.ts';
import { fieldGrey, plateLamps } from '../figures/lit.ts';
import { barLength, scaleBar } from '../figures/scaleBar.ts';
import { lampWords, viewWords } from '../words/index.ts';
import { captionMarks } from './captionLines.ts';

/** One object on a printed plate. */
export interface PlateObject {
  readonly face: Pick<Face, 'detail' | 'sense' | 'outline'>;
  readonly view: View;
  /** What it is: "matrix", "impression". */
  readonly kind: string;
  /** Shelfmark, or nothing. */
  readonly shelfmark?: string | undefined;
}

export interface PrintOptions {
  /** Size on paper ÷ size of the object: 1 is natural size. */
  readonly printScale: number;
  /** Dots per inch. */
  readonly dpi: number;
  readonly lamps?: readonly Lamp[];
  /** Who owns the object and the scan, as it is to be printed. */
  readonly credit?: string | undefined;
  readonly simulated?: boolean;
}

/** A plate as it is printed: lengths in points of 1/72 inch, and the pictures in whole dots. */
export interface PrintPlate {
  /** Without the pictures: paper, bars and words. */
  readonly drawing: Drawing;
  readonly pictures: readonly PlacedPicture[];
  readonly dpi: number;
  readonly caption: string;
}

/** A lit face in dots, row 0 at the top; clear where there is no data. */
export interface PlacedPicture {
  /** Dots from the left and the top of the plate. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8ClampedArray;
  readonly mask: Uint8Array;
}

const pointsPerInch = 72;
const mmPerInch = 25.4;
/** Points: round the plate, between objects, and under each picture for its bar and words. */
const [margin, gap, under] = [14, 20, 52];

/**
 * Any number of objects on one plate at one scale under the same lamps, each with a scale bar; a light and what is shown
 * are said underneath. A dot is `25.4 / dpi / printScale` mm of the object, sampled with a cubic from the relief with its
 * form removed, averaged first where dots are coarser than the scan.
 */
export function printPlate(objects: readonly PlateObject[], options: PrintOptions): PrintPlate {
  const { printScale, dpi, lamps = plateLamps } = options;
  const dotMm = mmPerInch / dpi / printScale;
  const dotsPerPoint = dpi / pointsPerInch;
  const whole = (points: number): number => Math.round(points * dotsPerPoint);
  const lit = objects.map(({ face, view }) => litDots(viewGrid(face.detail, view), dotMm, lamps));
  const tallest = Math.max(...lit.map(({ height }) => height));
  const marks: DrawnMark[] = [];
  const pictures: PlacedPicture[] = [];
  let left = whole(margin);
  lit.forEach((picture, i) => {
    pictures.push({ ...picture, left, top: whole(margin) + tallest - picture.height });
    const middle = (left + picture.width / 2) / dotsPerPoint;
    marks.push(...panelMarks(objects[i], middle, margin + tallest / dotsPerPoint, picture.width * dotMm, printScale));
    left += picture.width + whole(gap);
  });
  const width = (left - whole(gap)) / dotsPerPoint + margin;
  const bottom = margin + tallest / dotsPerPoint + under;
  const caption = captionOf(options, lamps);
  const lines = captionMarks(caption, margin, bottom, width - 2 * margin);
  marks.push(...lines.marks);
  const height = bottom + lines.height + margin;
  return { drawing: { width, height, title: caption, marks }, pictures, dpi, caption };
}

function panelMarks(object: PlateObject, middle: number, y: number, widthMm: number, printScale: number): DrawnMark[] {
  const { face, kind, shelfmark, view } = object;
  const perMm = (printScale * pointsPerInch) / mmPerInch;
  // Of a positive the outline is that of the wax or plaster, not that of the seal.
  const piece = kind === 'impression' || kind === 'cast' ? 'the piece ' : '';
  const size = `${piece}${face.outline.widthMm.toFixed(1)} × ${face.outline.heightMm.toFixed(1)} mm`;
  const name = [shelfmark, kind, size].filter(Boolean).join(', ');
  return [
    ...scaleBar(middle, y + 10, perMm, barLength(widthMm)),
    words(middle, y + 36, name, 8, 'ink', { align: 'middle' }),
    words(middle, y + 46, viewWords({ view, sense: face.sense }), 7, 'soft', { align: 'middle', face: 'italic' }),
  ];
}

/** The relief on dots, lit; its own margin without data cut off. */
function litDots(relief: HeightGrid, dotMm: number, lamps: readonly Lamp[]): Omit<PlacedPicture, 'left' | 'top'> {
  const smooth = dotMm > relief.pitch ? gaussianFilter(relief, 2 * dotMm) : relief;
  const box = dataBox(relief);
  const width = Math.max(1, Math.round((box.right - box.left) / dotMm));
  const height = Math.max(1, Math.round((box.top - box.bottom) / dotMm));
  const grid: HeightGrid = {
    width,
    height,
    pitch: dotMm,
    left: box.left,
    top: box.top,
    z: new Float32Array(width * height),
    mask: new Uint8Array(width * height),
  };
  const cover = coverOf(relief);
  const whole = widened(smooth);
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      const [x, y] = [xOf(grid, col), yOf(grid, row)];
      const z = sampleCubic(whole, x, y);
      if (Number.isNaN(z) || sampleGrid(cover, x, y) < 0.5) continue;
      grid.z[i] = z;
      grid.mask[i] = 1;
    }
  return { width, height, grey: light(grid, lamps, { fieldGrey }).grey, mask: grid.mask };
}

/** The mask smoothed by about a cell, over the whole grid: the edge of the data is drawn where it is a half, and not in steps. */
const coverOf = (relief: HeightGrid): HeightGrid =>
  gaussianFilter(
    withHeights(relief, Float32Array.from(relief.mask), new Uint8Array(relief.mask.length).fill(1)),
    5 * relief.pitch,
  );

/** The relief with one more cell round its data, each the mean of its neighbours: so much the smoothed edge cuts across corners. */
function widened(relief: HeightGrid): HeightGrid {
  const { width, height, z, mask } = relief;
  const out = withHeights(relief, z.slice(), mask.slice());
  for (let row = 1; row < height - 1; row++)
    for (let col = 1; col < width - 1; col++) {
      const i = row * width + col;
      if (mask[i]) continue;
      const around = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1].filter(
        (step) => mask[i + step],
      );
      if (around.length === 0) continue;
      out.z[i] = around.reduce((sum, step) => sum + z[i + step], 0) / around.length;
      out.mask[i] = 1;
    }
  return out;
}

/** Outermost places with data, mm. */
function dataBox(grid: HeightGrid): { left: number; right: number; bottom: number; top: number } {
  let [first, last, upper, lower] = [grid.width, 0, grid.height, 0];
  for (let i = 0; i < grid.mask.length; i++) {
    if (!grid.mask[i]) continue;
    const [col, row] = [i % grid.width, Math.floor(i / grid.width)];
    first = Math.min(first, col);
    last = Math.max(last, col);
    upper = Math.min(upper, row);
    lower = Math.max(lower, row);
  }
  return { left: xOf(grid, first), right: xOf(grid, last), bottom: yOf(grid, lower), top: yOf(grid, upper) };
}

/** "Natural size", or how many times it. */
export const timesNatural = (printScale: number): string =>
  Number(printScale.toPrecision(3)) === 1 ? 'Natural size' : `${Number(printScale.toPrecision(3))} times natural size`;

function captionOf({ printScale, dpi, credit, simulated }: PrintOptions, lamps: readonly Lamp[]): string {
  return [
    ...(simulated ? ['Simulated scans.'] : []),
    `${timesNatural(printScale)} at ${dpi} dots per inch.`,
    `Lit from ${lamps.map(lampWords).join(' and from ')}, azimuth clockwise from the top of the picture, height above the face plane.`,
    'The form of each face is removed; blank where there is no data.',
    ...(credit ? [credit.endsWith('.') ? credit : `${credit}.`] : []),
  ].join(' ');
}

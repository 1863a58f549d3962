import { type Band, bandInside } from '../../src/core/design/index.ts';
import { insideParallel } from '../../src/core/design/legend/band.ts';
import { type HeightGrid, sampleCubic, xOf, yOf } from '../../src/core/geometry/index.ts';
import { faceFromStrip, type Strip, stripFromFace, unroll } from '../../src/core/read/index.ts';
import { type EngravedFace, type EngravedOptions, engravedFace } from './engravedFace.ts';

type Facing = 'inward' | 'outward';

export interface TwoWays extends EngravedFace {
  /** The band as it was drawn. */
  readonly band: Band;
  /** Letters in the order of the whole legend, as they now stand: middle, impression's sense, mm, and which way their feet point. */
  readonly standing: ReadonlyArray<{ readonly x: number; readonly y: number; readonly facing: Facing }>;
}

/**
 * An engraved face of which one stretch of letters was turned half round in its place, as on seals and coins whose legend
 * changes at a stop from one that is read with the clock to one that is read against it. Nothing else is touched.
 * `share`: letters that are turned, of all; none where 0.
 */
export function twoWaysFace(seed: number, share: number, options: EngravedOptions = {}): TwoWays {
  const made = engravedFace(seed, options);
  const { face, letters } = made;
  const band = bandInside(face, face.outline.polygon, made.bandOuterMm, made.bandInnerMm);
  const facing: Facing = readsClockwise(letters) ? 'inward' : 'outward';
  const other: Facing = facing === 'inward' ? 'outward' : 'inward';
  const strip = unroll(face.relief, band, { facing: 'inward', marginMm: 0 });
  const columns = letters.map(({ x, y }) => nearestColumn(strip, x, y));
  const order = columns.map((_, i) => i).sort((p, q) => columns[p] - columns[q]);
  const asked = Math.round(share * letters.length);
  if (asked === 0) return { ...made, band, standing: letters.map(({ x, y }) => ({ x, y, facing })) };
  const words = wholeWords(made.legend, asked);
  const { count } = words;
  const first = facing === 'inward' ? words.first : letters.length - words.first - count;
  const at = (k: number): number => (k < 0 ? 0 : k < letters.length ? columns[order[k]] : strip.grid.width);
  const gap = (k: number): number => (at(k - 1) + at(k)) / 2;
  const [from, to] = [gap(first), gap(first + count)];
  const turned = new Set(order.slice(first, first + count));
  const relief = turnStretch(face.relief, strip, from, to);
  const detail = turnStretch(face.detail, strip, from, to);
  const standing = letters.map(({ x, y }, i) => {
    if (!turned.has(i)) return { x, y, facing };
    const column = Math.round(from + to - columns[i]);
    return { x: strip.x[column], y: strip.y[column], facing: other };
  });
  return { ...made, face: { ...face, relief, detail }, band, standing };
}

/** The stretch of whole words, not at the legend's beginning, whose number of letters comes nearest to what was asked. */
function wholeWords(legend: string, asked: number): { first: number; count: number } {
  const ends = [0];
  for (const word of legend.split(' ')) ends.push(ends[ends.length - 1] + word.replace(/[^A-Z]/g, '').length);
  const stretches = ends
    .slice(1, -1)
    .flatMap((first, i) => ends.slice(i + 2).map((last) => ({ first, count: last - first })));
  return stretches.reduce((p, q) => (Math.abs(q.count - asked) < Math.abs(p.count - asked) ? q : p));
}

/** Cells within two columns of a strip, turned half round the middle of that stretch. */
function turnStretch(grid: HeightGrid, strip: Strip, from: number, to: number): HeightGrid {
  const z = grid.z.slice();
  const outer = insideParallel(grid, strip.band, strip.band.outerMm);
  const inner = insideParallel(grid, strip.band, strip.band.innerMm);
  for (let i = 0; i < z.length; i++) {
    if (!grid.mask[i] || !outer[i] || inner[i]) continue;
    const at = stripFromFace(strip, xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width)));
    if (!at || at.column < from || at.column > to) continue;
    const [x, y] = faceFromStrip(strip, from + to - at.column, strip.grid.height - 1 - at.row);
    const value = sampleCubic(grid, x, y);
    if (!Number.isNaN(value)) z[i] = value;
  }
  return { ...grid, z };
}

function readsClockwise(letters: EngravedFace['letters']): boolean {
  let turn = 0;
  for (let i = 1; i < letters.length; i++)
    turn += letters[i - 1].x * letters[i].y - letters[i - 1].y * letters[i].x > 0 ? 1 : -1;
  return turn < 0;
}

function nearestColumn({ x, y }: Strip, px: number, py: number): number {
  let [best, least] = [0, Number.POSITIVE_INFINITY];
  for (let c = 0; c < x.length; c++) {
    const off = Math.hypot(x[c] - px, y[c] - py);
    if (off < least) [best, least] = [c, off];
  }
  return best;
}

/** Share of the letters that stand upright on a strip that was laid out. */
export function shareUpright(strip: Strip, standing: TwoWays['standing']): number {
  const upright = standing.filter(({ x, y, facing }) => {
    const column = nearestColumn(strip, x, y);
    return strip.pieces.find(({ from, to }) => column >= from && column < to)?.facing === facing;
  });
  return upright.length / standing.length;
}

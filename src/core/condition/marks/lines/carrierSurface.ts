import type { Face } from '../../../face/index.ts';
import { chosenModel, type Fit, subjectSurface } from '../../../fit/index.ts';
import {
  columnOf,
  type HeightGrid,
  rowOf,
  sampleGrid,
  solveSymmetric,
  turnGridOver,
  xOf,
  yOf,
} from '../../../geometry/index.ts';
import type { WearRelief } from '../../relief/relief.ts';
import type { Mark } from '../../types.ts';
import type { Chain } from './chains.ts';
import type { LineSurface } from './lineCourse.ts';

/** A face's own detail is taken where its cells are smaller than this share of the pair's. */
const finer = 0.8;

/** The faces themselves, where they are at hand: their own scans may be finer than the cells both were put on. */
export interface OwnFaces {
  readonly reference: Face;
  readonly subject: Face;
  readonly fit?: Fit;
}

/**
 * The finest surface that carries a line, and the design under it as the other face shows it (nowhere for a line that both carry). The
 * subject's own detail is taken under the fit's model and moved by what the levelling of the pair moved it by round about the line.
 */
export function carrierSurfaces(
  relief: WearRelief,
  { reference, subject, fit }: OwnFaces,
): (carriedBy: Mark['carriedBy'], chain: Chain) => LineSurface {
  const onRelief = { reference: sampler(relief.reference), subject: sampler(relief.subject) };
  const pitchMm = relief.reference.pitch;
  const model = fit && chosenModel(fit);
  let fineReference: Sampler | null = null;
  let fineSubject: Sampler | null = null;
  if (model && reference.detail.pitch < finer * pitchMm)
    fineReference = sampler(relief.turned ? turnGridOver(reference.detail) : reference.detail);
  if (model && subject.detail.pitch * model.scale < finer * pitchMm) {
    const surface = subjectSurface(relief.reference, relief.turned, reference, subject, model);
    fineSubject = (x, y) => surface.at(columnOf(relief.reference, x), rowOf(relief.reference, y));
  }
  return (carriedBy, chain) => {
    const ofSubject = carriedBy === 'subject';
    const fine = ofSubject ? fineSubject : fineReference;
    const coarse = ofSubject ? relief.subject : relief.reference;
    const design = carriedBy === 'both' ? () => Number.NaN : ofSubject ? onRelief.reference : onRelief.subject;
    if (!fine) return { own: sampler(coarse), design, pitchMm };
    return {
      own: ofSubject ? movedOnto(fine, coarse, chain) : fine,
      design,
      pitchMm: ofSubject ? subject.detail.pitch * (model?.scale ?? 1) : reference.detail.pitch,
    };
  };
}

type Sampler = (x: number, y: number) => number;

const sampler =
  (grid: HeightGrid): Sampler =>
  (x, y) =>
    sampleGrid(grid, x, y);

/**
 * The fine surface moved by (u, v, w) so that it lies on the coarse one about the line: least squares of fine(x + u) − w − coarse(x) over the
 * cells within three millimetres, three rounds (Lucas and Kanade 1981).
 */
export function movedOnto(fine: Sampler, coarse: HeightGrid, { cells }: Chain): Sampler {
  const near = cellsAbout(coarse, cells, 3);
  const step = coarse.pitch;
  let [u, v, w] = [0, 0, 0];
  for (let round = 0; round < 3; round++) {
    const equations = new Float64Array(9);
    for (const i of near) {
      const x = xOf(coarse, i % coarse.width);
      const y = yOf(coarse, Math.floor(i / coarse.width));
      const d = fine(x + u, y + v) - w - coarse.z[i];
      const gx = (fine(x + u + step, y + v) - fine(x + u - step, y + v)) / (2 * step);
      const gy = (fine(x + u, y + v + step) - fine(x + u, y + v - step)) / (2 * step);
      if (Number.isNaN(d + gx + gy)) continue;
      [gx * gx, gx * gy, -gx, gy * gy, -gy, 1, gx * d, gy * d, -d].forEach((value, k) => {
        equations[k] += value;
      });
    }
    const [a, b, c, e, f, n, p, q, r] = equations;
    if (!(n > 20)) break;
    const solved = solveSymmetric(Float64Array.of(a, b, c, b, e, f, c, f, n), Float64Array.of(-p, -q, -r), 3);
    if (!solved) break;
    [u, v, w] = [u + solved[0], v + solved[1], w + solved[2]];
  }
  if (!(Math.hypot(u, v) < 1)) return fine;
  return (x, y) => fine(x + u, y + v) - w;
}

/** Cells with data within so many millimetres of the line's own, about a thousand of them. */
function cellsAbout({ width, height, pitch, mask }: HeightGrid, cells: readonly number[], reachMm: number): number[] {
  const reach = Math.round(reachMm / pitch);
  const near = new Set<number>();
  for (const i of cells)
    for (let dr = -reach; dr <= reach; dr += 2)
      for (let dc = -reach; dc <= reach; dc += 2) {
        const row = Math.floor(i / width) + dr;
        const col = (i % width) + dc;
        if (row < 0 || row >= height || col < 0 || col >= width || !mask[row * width + col]) continue;
        near.add(row * width + col);
      }
  const list = [...near];
  const stride = Math.max(1, Math.floor(list.length / 1000));
  return list.filter((_, k) => k % stride === 0);
}

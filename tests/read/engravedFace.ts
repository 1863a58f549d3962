import { designSeal } from '../../sample-scans/generator/design.ts';
import { engrave } from '../../sample-scans/generator/die.ts';
import { motifNames } from '../../sample-scans/generator/motifs/index.ts';
import { handOf } from '../../sample-scans/generator/node.ts';
import { clockwiseFromTop, depthInside, inset } from '../../sample-scans/generator/outline.ts';
import { type DieShape, shapes } from '../../sample-scans/generator/types.ts';
import type { BandFace } from '../../src/core/design/index.ts';
import {
  gaussianFilter,
  type HeightGrid,
  removeForm,
  seededRandom,
  turnGridOver,
} from '../../src/core/geometry/index.ts';

export interface EngravedFace {
  readonly face: BandFace & { readonly relief: HeightGrid };
  readonly shape: DieShape;
  readonly legend: string;
  /** Letters in reading order: middle, impression's sense, mm. */
  readonly letters: ReadonlyArray<{ readonly char: string; readonly x: number; readonly y: number }>;
  readonly letterMm: number;
  /** Distance inward from the outline, mm. */
  readonly bandOuterMm: number;
  readonly bandInnerMm: number;
  /** Middle line of the band, clockwise from the top. */
  readonly midline: ReturnType<typeof clockwiseFromTop>;
  /** Without wear or noise, impression's sense: what is stroke and what is ground. */
  readonly sharp: HeightGrid;
}

export interface EngravedOptions {
  readonly shape?: DieShape;
  readonly sense?: 'intaglio' | 'relief';
  readonly sizeMm?: number;
  readonly pitchMm?: number;
  /** Share of the height of all strokes that is rubbed away. */
  readonly wear?: number;
  readonly noiseMm?: number;
  readonly legend?: string;
}

/**
 * A face straight from the sample generator's engraver, without scanning: known letters, band and outline. Wear
 * multiplies heights above the field by 1 − wear and rounds them over 0.15 mm, as rubbing does.
 */
export function engravedFace(seed: number, options: EngravedOptions = {}): EngravedFace {
  const random = seededRandom(seed);
  const shape = options.shape ?? shapes[seed % shapes.length];
  const sizeMm = options.sizeMm ?? (shape === 'pointedOval' ? random.between(32, 60) : random.between(22, 45));
  const design = designSeal(
    {
      shape,
      sizeMm,
      motif: random.pick(motifNames),
      patternSeed: seed * 7 + 1,
      legendSeed: seed * 7 + 2,
      legend: options.legend,
    },
    handOf,
  );
  const die = engrave(design, seed * 7 + 3, options.pitchMm ?? 0.1);
  const { depth } = die;
  const z = new Float32Array(depth.z.length);
  const mask = new Uint8Array(depth.z.length);
  for (let row = 0; row < depth.height; row++)
    for (let col = 0; col < depth.width; col++) {
      const j = depth.height - 1 - row;
      if (depthInside(design.outline, depth.left + col * depth.pitch, depth.bottom + j * depth.pitch) <= 0) continue;
      z[row * depth.width + col] = depth.z[j * depth.width + col];
      mask[row * depth.width + col] = 1;
    }
  const top = depth.bottom + (depth.height - 1) * depth.pitch;
  const sharp: HeightGrid = { ...depth, top, z, mask };
  const impression = worn(sharp, options.wear ?? 0, options.noiseMm ?? 0.006, seed);
  const sense = options.sense ?? 'relief';
  const relief = sense === 'intaglio' ? turnGridOver(impression) : impression;
  const polygon = design.outline.map((value, i) => (sense === 'intaglio' && i % 2 === 0 ? -value : value));
  const [a, b] = design.bandInnerOuterMm;
  const bandOuterMm = Math.min(a, b);
  const bandInnerMm = Math.max(a, b);
  return {
    face: { sense, outline: { shape, polygon }, relief, detail: removeForm(relief, 2).detail },
    shape,
    legend: design.legend,
    letters: design.letters,
    letterMm: design.letters[0].heightMm,
    bandOuterMm,
    bandInnerMm,
    midline: clockwiseFromTop(inset(design.outline, (bandOuterMm + bandInnerMm) / 2)),
    sharp,
  };
}

function worn(grid: HeightGrid, wear: number, noiseMm: number, seed: number): HeightGrid {
  const random = seededRandom(seed + 99);
  const rounded = wear > 0 ? gaussianFilter(grid, 0.15 / 0.187) : grid;
  const z = rounded.z.map((value, i) => (grid.mask[i] ? value * (1 - wear) + noiseMm * random.normal() : 0));
  return { ...grid, z };
}

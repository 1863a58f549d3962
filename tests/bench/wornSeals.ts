import { everydayAccidents } from '../../sample-scans/generator/accidents.ts';
import { chanceFor, smoothField, subSeed } from '../../sample-scans/generator/chance.ts';
import { type Design, designSeal } from '../../sample-scans/generator/design.ts';
import { engrave } from '../../sample-scans/generator/die.ts';
import { blurred, copyField, eachCell, type Field, heightAt } from '../../sample-scans/generator/field.ts';
import type { Made } from '../../sample-scans/generator/made.ts';
import { motifNames } from '../../sample-scans/generator/motifs/index.ts';
import { handOf } from '../../sample-scans/generator/node.ts';
import { clockwiseFromTop, inset } from '../../sample-scans/generator/outline.ts';
import { designFromScan, type Placement, place } from '../../sample-scans/generator/placement.ts';
import { anyStyle, asFile, scanFaults, scanObject } from '../../sample-scans/generator/scanned.ts';
import { type DieShape, shapes } from '../../sample-scans/generator/types.ts';
import { readingX } from '../../src/core/design/index.ts';
import { apply, type Similarity } from '../../src/core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { writePly } from '../../src/core/scan/index.ts';

/** A point of the face found, impression's sense, mm. */
export type Point = readonly [number, number];

/** A rubbed seal, scanned, with its face as the tool finds it and what is true of its legend. */
export interface WornSeal {
  readonly seed: number;
  readonly shape: DieShape;
  readonly sizeMm: number;
  readonly kind: 'matrix' | 'impression';
  readonly prepared: PreparedScan;
  readonly legend: string;
  /** Letters in reading order; middles on the face found. */
  readonly letters: ReadonlyArray<{ readonly char: string; readonly at: Point }>;
  readonly letterMm: number;
  readonly bandMm: number;
  /** Feet toward the rim. */
  readonly facingOutward: boolean;
  /** Parallel to the outline at a share of the band's width, 0 its outer and 1 its inner edge, on the face found. */
  readonly parallel: (share: number) => readonly Point[];
  /** Depth cut into the new die at a point of the face found, mm. */
  readonly cutAt: (x: number, y: number) => number;
}

export interface WornSealChoice {
  /** Share of the strokes' height that is gone, least and greatest over the face. */
  readonly lost?: readonly [number, number];
  readonly vertices?: number;
  /** Share of the face that a break leaves, 1 where left out. */
  readonly coverage?: number;
  /** Overrides `lost`: share gone at a point of the design, mm. */
  readonly lostAt?: (x: number, y: number) => number;
  /** Which of several impressions of the one die this is; the die itself is never scanned then. */
  readonly witness?: number;
}

/**
 * A die is engraved and pressed, the impression (or, every third time, the die itself) is rubbed, scratched, chipped and
 * pitted, and scanned with 5 to 15 µm of correlated noise. Of every stroke's height a share between the two of `lost` is
 * gone, wandering over the face. Every second one is rubbed in proportion (heights × (1 − share)), the others are planed
 * (what stands above 1 − share of the letters' height is cut off); edges are rounded over σ = 0.12 mm first.
 */
export async function wornSeal(seed: number, choice: WornSealChoice = {}): Promise<WornSeal> {
  const random = chanceFor(seed, 'reading bench');
  const shape = shapes[seed % shapes.length];
  const sizeMm = shape === 'pointedOval' ? random.between(34, 65) : random.between(24, 50);
  const motif = random.pick(motifNames);
  const design = designSeal(
    { shape, sizeMm, motif, patternSeed: subSeed(seed, 'pattern'), legendSeed: subSeed(seed, 'legend') },
    handOf,
  );
  const die = engrave(design, subSeed(seed, 'hand'), Math.max(0.06, sizeMm / 700));
  const own = subSeed(seed, `impression ${choice.witness ?? 0}`);
  const made = rubbed(die.depth, design, choice, own, seed);
  const scanRandom = chanceFor(own, 'scan');
  const scanned = scanObject(
    made,
    design,
    {
      coverage: choice.coverage ?? 1,
      warpMm: scanRandom.between(0, 0.1),
      whole: false,
      marginMm: made.sense === 'relief' ? scanRandom.between(0, 3) : scanRandom.between(0, 0.6),
      vertices: choice.vertices ?? 60_000,
      style: anyStyle(scanRandom),
      handle: 'none',
      table: false,
      offsetMm: 60,
      mirrored: false,
      faults: {
        ...scanFaults(0.3, scanRandom.between(0.005, 0.015), sizeMm, scanRandom),
        doubledShare: 0,
        strayPieces: 0,
      },
    },
    subSeed(own, 'scan'),
  );
  const file = asFile(scanned, 'mm', false);
  const kind = made.sense === 'relief' ? 'impression' : 'matrix';
  const prepared = await prepareScan({
    name: `seal-${seed}.ply`,
    bytes: writePly(file.positions, file.triangles),
    unit: 'mm',
    kind,
    sha256: () => '',
  });
  const { toFound, toDesign } = ways(scanned.placement, prepared);
  const [a, b] = design.bandInnerOuterMm;
  const [outer, inner] = [Math.min(a, b), Math.max(a, b)];
  const out = new Float64Array(3);
  return {
    seed,
    shape,
    sizeMm,
    kind,
    prepared,
    legend: design.legend,
    letters: design.letters.map(({ char, x, y }) => ({ char, at: toFound(x, y) })),
    letterMm: design.letters[0].heightMm * made.size,
    bandMm: (inner - outer) * made.size,
    facingOutward: facesOutward(design),
    parallel(share) {
      const path = clockwiseFromTop(inset(design.outline, outer + share * (inner - outer)));
      return Array.from({ length: 1500 }, (_, k) => {
        const { x, y } = path.at((path.length * k) / 1500);
        return toFound(x, y);
      });
    },
    cutAt(x, y) {
      toDesign(x, y, out);
      return heightAt(die.depth, out[0], out[1]);
    },
  };
}

/** Design plane → face found and back, both in the impression's sense; warp included. */
function ways(placement: Placement, { scan, face }: PreparedScan) {
  const toFace = face.faceFromScan;
  const { offset } = scan.mesh;
  const toFound = (x: number, y: number): Point => {
    const p = place(placement, Float64Array.from([x, y, 0]));
    const [u, v] = apply(toFace, [p[0] - offset[0], p[1] - offset[1], p[2] - offset[2]]);
    return [readingX(face.sense, u), v];
  };
  const { rotation: r, translation: t } = toFace;
  // File ← face found.
  const fileFromFace: Similarity = {
    scale: 1,
    rotation: [r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]],
    translation: [0, 1, 2].map(
      (k) => offset[k] - (r[k] * t[0] + r[3 + k] * t[1] + r[6 + k] * t[2]),
    ) as unknown as Similarity['translation'],
  };
  const back = designFromScan(placement, fileFromFace);
  const toDesign = (x: number, y: number, out: Float64Array): void => back(readingX(face.sense, x), y, 0, out);
  return { toFound, toDesign };
}

/** Letters run clockwise unless their feet are toward the rim. */
function facesOutward({ letters }: Design): boolean {
  let turn = 0;
  for (let i = 1; i < letters.length; i++)
    turn += letters[i - 1].x * letters[i].y - letters[i - 1].y * letters[i].x > 0 ? 1 : -1;
  return turn > 0;
}

/** Rubbed and knocked about; a matrix is worked on upside down, since down is into the metal. */
function rubbed(depth: Field, design: Design, choice: WornSealChoice, own: number, seed: number): Made {
  const [least, most] = choice.lost ?? [0.4, 0.8];
  const random = chanceFor(own, 'rubbed');
  const wander = smoothField(random, 0.3 * design.sizeMm);
  const share = choice.lostAt ?? ((x, y) => least + (most - least) * (0.5 + 0.5 * wander(x, y)));
  const field = copyField(depth, blurred(depth, 0.12));
  const letterMm = letterDepth(design);
  const planed = seed % 2 === 1;
  eachCell(field, (index, x, y) => {
    const left = 1 - share(x, y);
    const z = field.z[index];
    field.z[index] = planed ? z - softPlus(z - left * letterMm, 0.02) : left * z;
  });
  const relief = { field, flags: new Uint16Array(field.z.length) };
  const isDie = choice.witness === undefined && seed % 3 === 2;
  const negate = (): void => {
    if (isDie) for (let i = 0; i < field.z.length; i++) field.z[i] = -field.z[i];
  };
  negate();
  const marks = everydayAccidents(relief, design.outline, design.sizeMm, 0.3, isDie ? 'metal' : 'wax', own);
  negate();
  const wornMm = (1 - least) * letterMm;
  return isDie
    ? { kind: 'matrix', sense: 'intaglio', relief, size: 1, marks, wornMm }
    : { kind: 'impression', sense: 'relief', relief, size: 0.985, marks, wornMm };
}

const letterDepth = ({ cuts, letters }: Design): number =>
  letters.reduce((sum, letter) => sum + cuts[letter.cut].depthMm, 0) / letters.length;

const softPlus = (x: number, knee: number): number => (x <= -knee ? 0 : x >= knee ? x : (x + knee) ** 2 / (4 * knee));

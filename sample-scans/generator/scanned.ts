import { invert, type Random } from '../../src/core/geometry/index.ts';
import { chanceFor } from './chance.ts';
import type { Design } from './design.ts';
import type { HandleKind } from './handle.ts';
import { breakOff } from './loss.ts';
import type { Made } from './made.ts';
import { buildObject, type Reverse } from './object.ts';
import { type Placement, place, randomPose } from './placement.ts';
import { type ScanFaults, type ScannedShell, scan } from './scanning.ts';
import { type ScatterStyle, scatterStyles } from './scatter.ts';
import { type GeneratedScan, mmPerUnit, type ScanUnit } from './types.ts';
import { noWarp, randomWarp } from './warp.ts';

/** How an object was broken, bent, laid down and scanned. */
export interface ScanChoice {
  readonly coverage: number;
  readonly warpMm: number;
  readonly whole: boolean;
  readonly marginMm: number;
  readonly vertices: number;
  readonly style: ScatterStyle;
  readonly handle: HandleKind;
  readonly table: boolean;
  readonly offsetMm: number;
  readonly mirrored: boolean;
  readonly faults: ScanFaults;
  readonly reverse?: Reverse;
}

/** One object scanned: where its design lies in the file and what was recorded. */
export interface Scanned {
  readonly made: Made;
  readonly design: Design;
  readonly placement: Placement;
  readonly shell: ScannedShell;
  readonly whiteMm: number;
}

/**
 * Gives the object its body, breaks, bends and places it, and scans it. Each of these has its own sub-seed; breakage,
 * body and bending come from `shapeSeed`, which a cast shares with what it was cast from.
 */
export function scanObject(made: Made, design: Design, choice: ScanChoice, seed: number, shapeSeed = seed): Scanned {
  const { outline, sizeMm } = design;
  const remains = breakOff(outline, sizeMm, choice.coverage, chanceFor(shapeSeed, 'loss'));
  const plan = { ...choice, relief: made.relief, sense: made.sense, outline, sizeMm, remains };
  const shell = buildObject(plan, chanceFor(shapeSeed, 'body'));
  const placement: Placement = {
    sense: made.sense,
    size: made.size,
    warp: choice.warpMm > 0 ? randomWarp(sizeMm / 2, choice.warpMm, chanceFor(shapeSeed, 'warp')) : noWarp,
    scanFromFace: randomPose(chanceFor(seed, 'pose'), choice.offsetMm, choice.mirrored),
  };
  const recorded = scan(shell, choice.faults, sizeMm, chanceFor(seed, 'noise'));
  return { made, design, placement, shell: recorded, whiteMm: choice.faults.whiteMm };
}

/** Scanner noise and faults: `clutter` from 0 (none) to 1 (many). */
export function scanFaults(clutter: number, noiseMm: number, sizeMm: number, random: Random): ScanFaults {
  return {
    correlatedMm: noiseMm * random.between(0.7, 1),
    whiteMm: noiseMm * random.between(0.3, 0.7),
    correlationMm: random.between(0.3, 1),
    holes: Math.round(clutter * 5 * random.next()),
    holeMm: 0.06 * sizeMm,
    spikesPerThousand: clutter * random.between(0, 0.6),
    strayPieces: random.next() < 0.3 * clutter ? 1 + random.below(3) : 0,
    doubledShare: random.next() < 0.15 * clutter ? random.between(0.1, 0.4) : 0,
    shuffled: random.next() < 0.3,
  };
}

export const anyStyle = (random: Random): ScatterStyle => random.pick(scatterStyles);

/** The scan as a file would hold it. */
export function asFile(scanned: Scanned, unit: ScanUnit, reversed: boolean): GeneratedScan {
  const positions = place(scanned.placement, scanned.shell.points);
  for (let i = 0; i < positions.length; i++) positions[i] /= mmPerUnit[unit];
  const triangles = scanned.shell.triangles;
  if (reversed)
    for (let i = 0; i < triangles.length; i += 3) {
      const b = triangles[i + 1];
      triangles[i + 1] = triangles[i + 2];
      triangles[i + 2] = b;
    }
  return {
    positions,
    triangles,
    bits: scanned.shell.bits,
    unit,
    sense: scanned.made.sense,
    kind: scanned.made.kind,
    faceFromScan: invert(scanned.placement.scanFromFace),
  };
}

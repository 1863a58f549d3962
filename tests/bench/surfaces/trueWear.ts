import type { GeneratedPair } from '../../../sample-scans/generator/index.ts';
import { bit } from '../../../sample-scans/generator/types.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';
import { eachVertex, type FoundFrame } from './places.ts';

/** Cells in both, and in either, of: labelled lower or lost; truly rubbed, pressed, broken or gone. */
export interface WearOverlap {
  readonly both: number;
  readonly either: number;
  readonly truly: number;
  readonly labelled: number;
  readonly cells: number;
}

const gone = bit.worn | bit.chip | bit.pit;

/**
 * Truth per cell from the nearest vertex of the subject's face: touched where its bits say so, gone where none lies within
 * 1.6 times the vertices' spacing. Cells that the map says nothing of are left out, and so are gaps of the scan within the face.
 */
export function wearOverlap(pair: GeneratedPair, frame: FoundFrame, map: WearMap): WearOverlap {
  const truth = trueCells(pair, frame, map);
  const hit = new Set((['lower', 'lost'] as const).map(wearLabel));
  const silent = wearLabel('cannotJudge');
  const sums = { both: 0, either: 0, truly: 0, labelled: 0, cells: 0 };
  for (let i = 0; i < map.labels.length; i++) {
    if (!map.labels[i] || map.labels[i] === silent) continue;
    const [said, is] = [hit.has(map.labels[i]), truth[i] === 1];
    sums.cells++;
    if (said) sums.labelled++;
    if (is) sums.truly++;
    if (said && is) sums.both++;
    if (said || is) sums.either++;
  }
  return sums;
}

/** 1 where the subject was touched or is gone. */
export function trueCells(pair: GeneratedPair, { fromSubjectFile }: FoundFrame, map: WearMap): Uint8Array {
  const { width, height, pitch, left, top, turned } = map;
  const nearest = new Float32Array(width * height).fill(Number.POSITIVE_INFINITY);
  const bits = new Uint16Array(width * height);
  const truth = new Uint8Array(width * height);
  if (!fromSubjectFile) return truth;
  const reachMm = 1.6 * spacingOf(pair, map);
  const reach = Math.ceil(reachMm / pitch);
  eachVertex(pair.subject, fromSubjectFile, bit.face, (x, y, flags) => {
    if (flags & bit.spike) return;
    const c = ((turned ? -x : x) - left) / pitch;
    const r = (top - y) / pitch;
    for (let row = Math.max(0, Math.ceil(r - reach)); row <= Math.min(height - 1, r + reach); row++)
      for (let col = Math.max(0, Math.ceil(c - reach)); col <= Math.min(width - 1, c + reach); col++) {
        const away = Math.hypot(col - c, row - r) * pitch;
        const i = row * width + col;
        if (away >= nearest[i] || away > reachMm) continue;
        nearest[i] = away;
        bits[i] = flags;
      }
  });
  for (let i = 0; i < truth.length; i++) truth[i] = nearest[i] > reachMm || bits[i] & gone ? 1 : 0;
  return truth;
}

/** Mean distance between neighbouring vertices of the subject's face, mm, were they spread over the part of the map that is not gone. */
function spacingOf({ subject }: GeneratedPair, { labels, pitch }: WearMap): number {
  const [lost, silent] = [wearLabel('lost'), wearLabel('cannotJudge')];
  const cells = labels.reduce((sum, label) => sum + (label && label !== lost && label !== silent ? 1 : 0), 0);
  const vertices = subject.bits.reduce((sum, flags) => sum + (flags & bit.face ? 1 : 0), 0);
  return Math.max(pitch, pitch * Math.sqrt(cells / Math.max(1, vertices)));
}

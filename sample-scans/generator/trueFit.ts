import { compose, determinant3, type Similarity } from '../../src/core/geometry/index.ts';
import { differencesFrom } from './difference.ts';
import { heightAt, nearestCell } from './field.ts';
import { mirror, place } from './placement.ts';
import type { Scanned } from './scanned.ts';
import { bit } from './types.ts';
import { leastSquaresSimilarity } from './umeyama.ts';

/** Flags that do not move a surface point off the die's own shape. */
const soundBits = bit.face;

/**
 * Least-squares similarity between the subject's and the reference's places of the same design points, sound on
 * both, in file coordinates, mm. Where fewer than 300 points are sound, touched points help out.
 */
export function trueSimilarity(reference: Scanned, subject: Scanned): Similarity {
  const sound = matchingPoints(reference, subject, soundBits);
  const both =
    sound.length >= 900
      ? sound
      : matchingPoints(reference, subject, 0xffff & ~(bit.spike | bit.lip | bit.wall | bit.back));
  const onReference = both.slice();
  for (let i = 0; i < both.length; i += 3)
    onReference[i + 2] = heightAt(reference.made.relief.field, both[i], both[i + 1]);
  // A mirrored file is fitted as it was before it was mirrored: least squares alone would never choose a reflection.
  const { scanFromFace } = subject.placement;
  const mirrored = determinant3(scanFromFace.rotation) < 0;
  const proper = mirrored ? { ...subject.placement, scanFromFace: compose(mirror, scanFromFace) } : subject.placement;
  const fitted = leastSquaresSimilarity(place(proper, both), place(reference.placement, onReference));
  return mirrored ? compose(fitted, mirror) : fitted;
}

function matchingPoints(reference: Scanned, subject: Scanned, allowed: number): Float64Array {
  const { bits, clean } = subject.shell;
  const { field, flags } = reference.made.relief;
  const points: number[] = [];
  // Twenty thousand points settle the similarity to well under a micrometre.
  const step = Math.max(1, Math.floor(bits.length / 20_000));
  for (let i = 0; i < bits.length; i += step) {
    if (!(bits[i] & bit.face) || bits[i] & ~allowed) continue;
    if (flags[nearestCell(field, clean[3 * i], clean[3 * i + 1])] & ~allowed) continue;
    points.push(clean[3 * i], clean[3 * i + 1], clean[3 * i + 2]);
  }
  return Float64Array.from(points);
}

/** Signed closest distances of the subject's face to the reference, without noise; NaN elsewhere. */
export function trueDifferences(reference: Scanned, subject: Scanned, similarity: Similarity): Float32Array {
  const { bits, clean } = subject.shell;
  const wanted = new Uint8Array(bits.length);
  for (let i = 0; i < bits.length; i++) wanted[i] = bits[i] & bit.face && !(bits[i] & bit.spike) ? 1 : 0;
  return differencesFrom(
    place(subject.placement, clean),
    wanted,
    similarity,
    reference.placement,
    reference.made.relief.field,
    subject.made.sense === 'relief' ? 1 : -1,
  );
}

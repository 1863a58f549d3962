import { heightAt } from './field.ts';
import type { Scanned } from './scanned.ts';
import { bit } from './types.ts';

/** Raised: from this share of the height that 95 % of the face stays under; ground: up to this share of it. */
const raisedShare = 0.25;
const groundShare = 0.05;
/** What is broken, added or cut is no wear. */
const other = bit.pit | bit.chip | bit.damage | bit.spike | bit.debris | bit.bump;

/**
 * Share of the reference's raised volume that the subject keeps, Σ s / Σ r over the subject's face points that stand high on the
 * reference, s and r their heights without noise and warp over the ground, in the die's size. Null where too few stand high.
 */
export function heightKept(reference: Scanned, subject: Scanned): number | null {
  const { bits, clean } = subject.shell;
  const rows: { made: number; left: number }[] = [];
  for (let i = 0; i < bits.length; i++)
    if (bits[i] & bit.face && !(bits[i] & other))
      rows.push({
        made: heightAt(reference.made.relief.field, clean[3 * i], clean[3 * i + 1]),
        left: clean[3 * i + 2],
      });
  if (rows.length < 100) return null;
  const typical = rows.map(({ made }) => made).sort((p, q) => p - q)[Math.floor(0.95 * rows.length)];
  const ground = rows.filter(({ made }) => made < groundShare * typical);
  const sunk = ground.reduce((sum, { made, left }) => sum + made - left, 0) / Math.max(1, ground.length);
  const raised = rows.filter(({ made }) => made > raisedShare * typical);
  if (raised.length < 50) return null;
  const total = raised.reduce((sum, { made }) => sum + made, 0);
  return raised.reduce((sum, { left }) => sum + left + sunk, 0) / total;
}

import { type Kit, line, type Spot } from './kit.ts';

export const shieldOutline: readonly Spot[] = [
  [-0.66, 0.8],
  [0.66, 0.8],
  [0.66, 0.3],
  [0.6, -0.08],
  [0.4, -0.5],
  [0, -0.92],
  [-0.4, -0.5],
  [-0.6, -0.08],
  [-0.66, 0.3],
];

/** The outline of a shield as one line. */
export function escutcheon(kit: Kit, radius: number): void {
  line(kit, [...shieldOutline, shieldOutline[0]], radius, { straight: true });
}

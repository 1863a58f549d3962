import { type Kit, type Spot, stroke } from './kit.ts';

/** Four legs by hip, knee and foot, each with a paw or hoof. */
export function fourLegs(kit: Kit, spots: ReadonlyArray<readonly [Spot, Spot, Spot]>, radius: number): void {
  for (const [hip, knee, foot] of spots) {
    stroke(kit, [
      [hip[0], hip[1], radius * 1.6],
      [knee[0], knee[1], radius * 0.9],
      [foot[0], foot[1], radius * 0.75],
    ]);
    stroke(kit, [
      [foot[0], foot[1], radius * 0.8],
      [foot[0] + radius * 1.6, foot[1] - 0.005, radius * 0.7],
    ]);
  }
}

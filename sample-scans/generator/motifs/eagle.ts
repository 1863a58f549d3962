import { flecks } from './flecks.ts';
import { dot, flipped, type Kit, leaf, line, type Motif, stroke } from './kit.ts';

/** An eagle displayed. */
export const eagle: Motif = {
  aspect: 0.95,
  draw(kit) {
    const r = kit.random;
    stroke(
      kit,
      [
        [0, 0.5, 0.1],
        [0, 0.3, 0.14],
        [0, 0.02, 0.2],
        [0, -0.24, 0.14],
        [0, -0.42, 0.06],
      ],
      { deep: 1.1 },
    );
    const feathers = 5 + r.below(3);
    const droop = r.between(0.5, 0.8);
    const wing = (k: Kit): void => {
      stroke(k, [
        [0.1, 0.2, 0.1],
        [0.34, 0.5, 0.1],
        [0.62, 0.62, 0.08],
        [0.8, 0.5, 0.04],
      ]);
      for (let i = 0; i < feathers; i++) {
        const t = i / (feathers - 1);
        leaf(
          k,
          [
            [0.18 + 0.5 * t, 0.34 + 0.22 * t],
            [0.26 + 0.52 * t, 0.0 + 0.16 * t],
            [0.24 + 0.58 * t, -0.42 * droop + 0.36 * t - 0.1],
          ],
          0.07,
        );
      }
      stroke(k, [
        [0.08, -0.3, 0.07],
        [0.22, -0.48, 0.06],
        [0.3, -0.56, 0.03],
      ]);
      for (const [dx, dy] of [
        [0.14, 0.0],
        [0.12, -0.09],
        [0.03, -0.13],
        [-0.08, 0.0],
      ])
        line(
          k,
          [
            [0.3, -0.57],
            [0.3 + dx * 0.5, -0.57 + dy * 0.5 + 0.02],
            [0.3 + dx, -0.57 + dy],
          ],
          0.02,
        );
    };
    wing(kit);
    flipped(kit, wing);
    const tail = 3 + 2 * r.below(2);
    for (let i = 0; i < tail; i++) {
      const t = i / (tail - 1) - 0.5;
      leaf(
        kit,
        [
          [0, -0.38],
          [0.3 * t, -0.65],
          [0.62 * t, -0.95 + 0.14 * Math.abs(t)],
        ],
        0.075,
      );
    }
    const look = r.next() < 0.5 ? 1 : -1;
    dot(kit, 0, 0.68, 0.13, { deep: 1.15 });
    stroke(kit, [
      [0, 0.62, 0.09],
      [0, 0.5, 0.09],
    ]);
    stroke(kit, [
      [look * 0.1, 0.7, 0.055],
      [look * 0.22, 0.68, 0.035],
      [look * 0.25, 0.6, 0.012],
    ]);
    dot(kit, look * 0.04, 0.71, 0.025, { mode: 'stand' });
    flecks(
      kit,
      [
        [0, 0.3],
        [-0.07, 0.16],
        [0.07, 0.16],
        [0, 0.04],
        [-0.08, -0.08],
        [0.08, -0.08],
        [0, -0.2],
      ],
      0.045,
      0,
    );
  },
};

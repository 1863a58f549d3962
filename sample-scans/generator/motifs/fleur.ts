import { dot, flipped, type Kit, line, type Motif, parting, stroke } from './kit.ts';

/** A lily with a band, and now and then buds between the petals. */
export const fleur: Motif = {
  aspect: 0.8,
  draw(kit) {
    const r = kit.random;
    const spread = r.between(0.45, 0.62);
    const waist = r.between(-0.3, -0.15);
    const fat = r.between(0.13, 0.19);
    stroke(
      kit,
      [
        [0, 0.95, 0.02],
        [0, 0.7, fat * 0.8],
        [0, 0.4, fat],
        [0, 0.1, fat * 0.8],
        [0, waist, 0.06],
      ],
      { deep: 1.1 },
    );
    parting(
      kit,
      [
        [0, 0.8],
        [0, waist + 0.08],
      ],
      0.022,
    );
    const petal = (k: Kit): void => {
      stroke(k, [
        [0.04, waist, 0.05],
        [0.14, 0.1, fat * 0.6],
        [0.3, 0.42, fat * 0.85],
        [spread, 0.5, fat * 0.75],
        [spread + 0.13, 0.32, fat * 0.55],
        [spread + 0.06, 0.14, 0.05],
      ]);
      stroke(k, [
        [0.04, waist - 0.1, 0.05],
        [0.12, -0.42, 0.08],
        [spread * 0.6, -0.6, 0.09],
        [spread * 0.75, -0.42, 0.06],
      ]);
      parting(
        k,
        [
          [0.13, 0.02],
          [0.28, 0.4],
          [spread, 0.49],
        ],
        0.018,
      );
    };
    petal(kit);
    flipped(kit, petal);
    stroke(kit, [
      [0, waist - 0.1, 0.06],
      [0, -0.5, 0.09],
      [0, -0.85, 0.03],
    ]);
    line(
      kit,
      [
        [-0.24, waist - 0.05],
        [0.24, waist - 0.05],
      ],
      0.06,
      { deep: 1.6 },
    );
    if (r.next() < 0.6)
      for (const side of [-1, 1]) {
        line(
          kit,
          [
            [side * 0.08, waist],
            [side * 0.2, 0.45],
            [side * 0.24, 0.72],
          ],
          0.02,
        );
        dot(kit, side * 0.25, 0.76, 0.06);
      }
  },
};

import { arc, dot, flipped, type Kit, leaf, line, type Motif, parting, placed, stroke } from './kit.ts';

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

/** n petals about a boss, in one, two or three rings; exact turning symmetry. */
export const rosette: Motif = {
  aspect: 1,
  draw(kit, symmetryFold) {
    const r = kit.random;
    const fold = symmetryFold ?? r.pick([4, 5, 6, 7, 8]);
    const outer = r.between(0.85, 0.97);
    const blunt = r.next() < 0.5;
    const petalWidth = (outer * Math.sin(Math.PI / fold) * (blunt ? 0.62 : 0.5)) / 1;
    const core = r.between(0.15, 0.24);
    const rings = r.next() < 0.5 && fold < 7 ? 2 : 1;
    const sprig = r.below(3);
    for (let i = 0; i < fold; i++)
      placed(kit, 0, 0, 1, (360 * i) / fold, (k) => {
        if (blunt)
          stroke(
            k,
            [
              [0, core, petalWidth * 0.3],
              [0, outer * 0.55, petalWidth * 0.8],
              [0, outer - petalWidth * 0.8, petalWidth],
            ],
            { deep: 0.9 },
          );
        else
          leaf(
            k,
            [
              [0, core * 0.8],
              [0, outer * 0.5],
              [0, outer],
            ],
            petalWidth,
          );
        parting(
          k,
          [
            [0, core + 0.06],
            [0, outer * 0.78],
          ],
          0.02,
        );
        if (rings === 2)
          leaf(
            k,
            [
              [0, core],
              [0, outer * 0.4],
              [0, outer * 0.62],
            ],
            petalWidth * 0.62,
            { mode: 'add' },
          );
      });
    for (let i = 0; i < fold; i++)
      placed(kit, 0, 0, 1, (360 * (i + 0.5)) / fold, (k) => {
        if (sprig === 1)
          leaf(
            k,
            [
              [0, core + 0.1],
              [0, outer * 0.6],
              [0, outer * 0.93],
            ],
            0.045,
          );
        if (sprig === 2) dot(k, 0, outer * 0.92, 0.05);
      });
    dot(kit, 0, 0, core, { deep: 1.2 });
    if (core > 0.19)
      for (let i = 0; i < fold; i++)
        placed(kit, 0, 0, 1, (360 * i) / fold, (k) => dot(k, 0, core * 0.6, 0.03, { mode: 'stand' }));
  },
};

/** A star of straight or waved rays above a crescent. */
export const starAndCrescent: Motif = {
  aspect: 0.85,
  draw(kit) {
    const r = kit.random;
    const rays = r.pick([5, 6, 7, 8]);
    const starY = r.between(0.3, 0.42);
    const reach = r.between(0.42, 0.52);
    for (let i = 0; i < rays; i++)
      placed(kit, 0, starY, 1, (360 * i) / rays, (k) =>
        leaf(
          k,
          [
            [0, 0.02],
            [0, reach * 0.4],
            [0, reach],
          ],
          r.between(0.07, 0.08),
        ),
      );
    dot(kit, 0, starY, 0.1, { deep: 1.3 });
    const open = r.between(150, 190);
    const radius = r.between(0.55, 0.68);
    const beads = arc(0, starY - 0.3, radius, 270 - open / 2, 270 + open / 2, 20).map(
      ([x, y], i) => [x, y, 0.01 + 0.15 * Math.sin((Math.PI * i) / 20) ** 0.8] as const,
    );
    stroke(kit, beads, { straight: true, deep: 1.1 });
    if (r.next() < 0.5) for (const side of [-1, 1]) dot(kit, side * r.between(0.5, 0.62), starY + 0.35, 0.05);
  },
};

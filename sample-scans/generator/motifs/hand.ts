import { arc, type Bead, dot, leaf, line, type Motif, parting, placed, shape, stroke } from './kit.ts';

/** An open hand, cuffed, between small signs. */
export const hand: Motif = {
  aspect: 0.7,
  draw(kit) {
    const r = kit.random;
    const folded = r.next() < 0.5;
    shape(
      kit,
      [
        [-0.22, -0.4],
        [0.2, -0.4],
        [0.28, -0.1],
        [0.26, 0.14],
        [0, 0.18],
        [-0.26, 0.14],
        [-0.28, -0.1],
      ],
      { flank: 0.16 },
    );
    const fingers: ReadonlyArray<readonly [number, number, number]> = [
      [-0.2, 0.62, 0.066],
      [-0.065, 0.78, 0.07],
      [0.075, 0.74, 0.068],
      [0.205, 0.56, 0.058],
    ];
    fingers.forEach(([x, top, radius], i) => {
      if (folded && i > 1)
        stroke(
          kit,
          [
            [x, 0.12, radius],
            [x + 0.02, 0.24, radius * 1.05],
            [x - 0.01, 0.1, radius * 0.95],
          ],
          { mode: 'deepen', deep: 1.35 },
        );
      else {
        stroke(kit, [
          [x * 0.9, 0.08, radius],
          [x, 0.35, radius],
          [x * 1.05, top, radius * 0.85],
        ]);
        for (const y of [0.3, 0.3 + (top - 0.3) * 0.5])
          parting(
            kit,
            [
              [x - 0.05, y],
              [x + 0.05, y],
            ],
            0.01,
            { deep: 0.6 },
          );
        line(
          kit,
          [
            [x * 1.05, top - 0.01],
            [x * 1.05, top + 0.03],
          ],
          0.022,
          { mode: 'stand', deep: 0.5 },
        );
      }
    });
    stroke(kit, [
      [0.2, -0.24, 0.09],
      [0.4, -0.02, 0.075],
      [0.44, 0.2, 0.06],
    ]);
    parting(
      kit,
      [
        [-0.18, -0.02],
        [0.05, -0.1],
        [0.2, -0.05],
      ],
      0.014,
    );
    parting(
      kit,
      [
        [-0.2, -0.16],
        [0.0, -0.24],
      ],
      0.014,
    );
    shape(
      kit,
      [
        [-0.3, -0.44],
        [0.28, -0.44],
        [0.36, -0.92],
        [-0.38, -0.92],
      ],
      { straight: true, section: 'flat', flank: 0.1, deep: 1.2 },
    );
    for (let i = 0; i < 5; i++)
      parting(
        kit,
        [
          [-0.2 + 0.1 * i, -0.5],
          [-0.26 + 0.13 * i, -0.9],
        ],
        0.016,
        { deep: 0.7 },
      );
    line(
      kit,
      [
        [-0.3, -0.46],
        [0.28, -0.46],
      ],
      0.035,
      { mode: 'add', deep: 0.6 },
    );
    const sign = r.below(3);
    for (const side of [-1, 1])
      if (sign === 0) dot(kit, side * 0.56, 0.5, 0.08);
      else if (sign === 1)
        for (let i = 0; i < 6; i++)
          placed(kit, side * 0.56, 0.5, 1, 60 * i, (k) =>
            leaf(
              k,
              [
                [0, 0.01],
                [0, 0.07],
                [0, 0.14],
              ],
              0.035,
            ),
          );
      else
        stroke(
          kit,
          arc(side * 0.56, 0.5, 0.11, 110, 250, 12).map(
            ([x, y], i): Bead => [x, y, 0.01 + 0.04 * Math.sin((Math.PI * i) / 12)],
          ),
          { straight: true },
        );
  },
};

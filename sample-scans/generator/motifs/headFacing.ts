import {
  arc,
  type Bead,
  dot,
  flipped,
  type Kit,
  leaf,
  line,
  type Motif,
  parting,
  placed,
  shape,
  stroke,
} from './kit.ts';

/** A head to the front, crowned or with curled hair, on a collar. */
export const headFacing: Motif = {
  aspect: 0.72,
  draw(kit) {
    const r = kit.random;
    const crowned = r.next() < 0.5;
    const bearded = r.next() < 0.5;
    shape(
      kit,
      [
        [-0.3, 0.34],
        [0, 0.46],
        [0.3, 0.34],
        [0.33, 0.04],
        [0.24, -0.3],
        [0, -0.46],
        [-0.24, -0.3],
        [-0.33, 0.04],
      ],
      { flank: 0.34, deep: 1 },
    );
    stroke(
      kit,
      [
        [0, 0.2, 0.03],
        [0, 0.02, 0.05],
        [0, -0.06, 0.075],
      ],
      { mode: 'add', deep: 0.7 },
    );
    for (const side of [-1, 1]) {
      stroke(
        kit,
        arc(side * 0.15, 0.1, 0.1, side > 0 ? 20 : 60, side > 0 ? 120 : 160, 8).map(([x, y]): Bead => [x, y, 0.022]),
        { mode: 'add', deep: 0.7 },
      );
      leaf(
        kit,
        [
          [side * 0.06, 0.09],
          [side * 0.15, 0.115],
          [side * 0.24, 0.08],
        ],
        0.045,
        { mode: 'stand', deep: 0.9 },
      );
      dot(kit, side * 0.15, 0.098, 0.032, { mode: 'add' });
      stroke(
        kit,
        [
          [side * 0.2, -0.08, 0.09],
          [side * 0.17, -0.16, 0.07],
        ],
        { mode: 'add', deep: 0.25 },
      );
    }
    line(
      kit,
      [
        [-0.1, -0.205],
        [0, -0.19],
        [0.1, -0.205],
      ],
      0.024,
      { mode: 'add', deep: 0.6 },
    );
    parting(
      kit,
      [
        [-0.11, -0.225],
        [0, -0.22],
        [0.11, -0.225],
      ],
      0.014,
    );
    line(
      kit,
      [
        [-0.07, -0.25],
        [0.07, -0.25],
      ],
      0.026,
      { mode: 'add', deep: 0.5 },
    );
    const locks = (k: Kit): void => {
      for (let i = 0; i < 5; i++) {
        const y = 0.3 - 0.16 * i;
        stroke(
          k,
          arc(0.41 - 0.015 * i, y, 0.09, 110, 430, 12).map(([x, y0], n): Bead => [x, y0, 0.042 - 0.002 * n]),
          { straight: true },
        );
      }
      if (bearded)
        for (let i = 0; i < 4; i++)
          leaf(
            k,
            [
              [0.05 + 0.075 * i, -0.3 + 0.05 * i],
              [0.06 + 0.08 * i, -0.46 + 0.06 * i],
              [0.03 + 0.085 * i, -0.62 + 0.09 * i],
            ],
            0.045,
          );
    };
    locks(kit);
    flipped(kit, locks);
    if (crowned) {
      shape(
        kit,
        [
          [-0.36, 0.36],
          [0.36, 0.36],
          [0.4, 0.52],
          [-0.4, 0.52],
        ],
        { straight: true, section: 'flat', flank: 0.05, deep: 1.3 },
      );
      for (let i = -2; i <= 2; i++) {
        dot(kit, i * 0.14, 0.44, 0.035, { mode: i % 2 ? 'stand' : 'add' });
        if (i % 2 === 0)
          for (const a of [-35, 0, 35])
            placed(kit, i * 0.185, 0.54, 1, a, (k) =>
              leaf(
                k,
                [
                  [0, 0],
                  [0, 0.13],
                  [0, 0.26],
                ],
                0.055,
              ),
            );
        else dot(kit, i * 0.185, 0.6, 0.045);
      }
    } else
      for (let i = 0; i < 7; i++) {
        const a = ((20 + (140 * i) / 6) * Math.PI) / 180;
        stroke(
          kit,
          arc(0.34 * Math.cos(a), 0.22 + 0.34 * Math.sin(a), 0.085, 0, 300, 12).map(
            ([x, y], n): Bead => [x, y, 0.045 - 0.002 * n],
          ),
          { straight: true },
        );
      }
    if (!bearded)
      stroke(
        kit,
        [
          [0, -0.42, 0.13],
          [0, -0.6, 0.15],
        ],
        { deep: 0.6 },
      );
    for (const side of [-1, 1])
      stroke(kit, [
        [side * 0.06, -0.74, 0.1],
        [side * 0.3, -0.78, 0.12],
        [side * 0.58, -0.92, 0.05],
      ]);
    for (let i = -4; i <= 4; i++) dot(kit, i * 0.1, -0.7 - 0.012 * i * i * 0.6, 0.04, { mode: 'add', deep: 0.7 });
  },
};

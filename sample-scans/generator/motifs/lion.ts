import { fourLegs } from './fourLegs.ts';
import { type Bead, dot, leaf, line, type Motif, parting, placed, type Spot, stroke } from './kit.ts';

/** A lion or leopard walking or rearing, tail over its back. */
export const lion: Motif = {
  aspect: 0.95,
  draw(kit) {
    const r = kit.random;
    const rearing = r.next() < 0.5;
    placed(kit, rearing ? 0.05 : 0, rearing ? -0.02 : -0.05, rearing ? 0.92 : 1, rearing ? 52 : 0, (k) => {
      stroke(
        k,
        [
          [0.36, 0.1, 0.23],
          [0.1, 0.03, 0.18],
          [-0.18, 0.0, 0.16],
          [-0.42, 0.03, 0.21],
        ],
        { deep: 1.1 },
      );
      const legs: Array<readonly [Spot, Spot, Spot]> = rearing
        ? [
            [
              [-0.46, -0.04],
              [-0.5, -0.34],
              [-0.72, -0.52],
            ],
            [
              [-0.38, -0.08],
              [-0.3, -0.42],
              [-0.42, -0.66],
            ],
            [
              [0.4, -0.02],
              [0.62, -0.12],
              [0.78, 0.06],
            ],
            [
              [0.34, -0.06],
              [0.44, -0.34],
              [0.66, -0.4],
            ],
          ]
        : [
            [
              [-0.44, -0.06],
              [-0.58, -0.36],
              [-0.5, -0.64],
            ],
            [
              [-0.36, -0.1],
              [-0.3, -0.38],
              [-0.22, -0.64],
            ],
            [
              [0.38, -0.06],
              [0.34, -0.36],
              [0.36, -0.64],
            ],
            [
              [0.44, 0.0],
              [0.64, -0.2],
              [0.72, -0.02],
            ],
          ];
      fourLegs(k, legs, 0.07);
      for (const [, , foot] of legs)
        for (let i = -1; i <= 1; i++)
          leaf(
            k,
            [
              [foot[0] + 0.05, foot[1]],
              [foot[0] + 0.12, foot[1] + 0.035 * i],
              [foot[0] + 0.17, foot[1] + 0.06 * i],
            ],
            0.026,
          );
      placed(k, 0.54, 0.36, 1, rearing ? -40 : 0, (h) => {
        dot(h, 0, 0, 0.19, { deep: 1.1 });
        stroke(h, [
          [0.08, -0.03, 0.1],
          [0.2, -0.07, 0.07],
        ]);
        const locks = 9;
        for (let i = 0; i < locks; i++) {
          const a = ((60 + (240 * i) / (locks - 1)) * Math.PI) / 180;
          leaf(
            h,
            [
              [0.12 * Math.cos(a), 0.12 * Math.sin(a)],
              [0.22 * Math.cos(a + 0.1), 0.22 * Math.sin(a + 0.1)],
              [0.31 * Math.cos(a + 0.25), 0.31 * Math.sin(a + 0.25)],
            ],
            0.05,
          );
        }
        dot(h, 0.08, 0.05, 0.028, { mode: 'stand' });
        parting(
          h,
          [
            [0.12, -0.11],
            [0.25, -0.09],
          ],
          0.014,
        );
        leaf(
          h,
          [
            [-0.02, 0.14],
            [0.0, 0.22],
            [0.04, 0.27],
          ],
          0.045,
          { mode: 'add' },
        );
      });
      const tail: Bead[] = [
        [-0.56, 0.1, 0.05],
        [-0.78, 0.2, 0.04],
        [-0.76, 0.46, 0.034],
        [-0.54, 0.5, 0.03],
        [-0.42, 0.62, 0.03],
      ];
      stroke(k, tail);
      for (const a of [20, 60, 100])
        leaf(
          k,
          [
            [-0.42, 0.6],
            [-0.42 + 0.1 * Math.cos((a * Math.PI) / 180), 0.6 + 0.1 * Math.sin((a * Math.PI) / 180)],
            [-0.42 + 0.2 * Math.cos((a * Math.PI) / 180), 0.6 + 0.2 * Math.sin((a * Math.PI) / 180)],
          ],
          0.045,
        );
    });
    if (!rearing)
      line(
        kit,
        [
          [-0.7, -0.78],
          [0.72, -0.78],
        ],
        0.025,
      );
    const extras = r.below(4);
    for (let i = 0; i < extras; i++) dot(kit, [-0.75, 0.75, 0.05][i % 3], [-0.55, -0.5, 0.85][i % 3], 0.06);
  },
};

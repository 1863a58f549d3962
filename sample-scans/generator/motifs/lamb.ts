import { fourLegs } from './fourLegs.ts';
import { arc, dot, leaf, line, type Motif, parting, type Spot, shape, stroke } from './kit.ts';

/** A lamb that looks back at the banner it carries. */
export const lamb: Motif = {
  aspect: 0.95,
  draw(kit) {
    const r = kit.random;
    stroke(
      kit,
      [
        [0.34, 0.0, 0.2],
        [0.1, -0.04, 0.24],
        [-0.2, -0.04, 0.24],
        [-0.42, -0.02, 0.2],
      ],
      { deep: 1.1 },
    );
    fourLegs(
      kit,
      [
        [
          [-0.44, -0.2],
          [-0.5, -0.48],
          [-0.46, -0.8],
        ],
        [
          [-0.28, -0.2],
          [-0.3, -0.5],
          [-0.24, -0.8],
        ],
        [
          [0.2, -0.2],
          [0.2, -0.5],
          [0.22, -0.8],
        ],
      ],
      0.052,
    );
    stroke(kit, [
      [0.38, -0.12, 0.08],
      [0.56, -0.34, 0.05],
      [0.38, -0.5, 0.042],
    ]);
    stroke(kit, [
      [0.4, 0.08, 0.14],
      [0.46, 0.3, 0.11],
      [0.36, 0.44, 0.1],
    ]);
    stroke(
      kit,
      [
        [0.38, 0.45, 0.105],
        [0.26, 0.44, 0.085],
        [0.12, 0.38, 0.055],
      ],
      { deep: 1.2 },
    );
    leaf(
      kit,
      [
        [0.42, 0.52],
        [0.52, 0.5],
        [0.6, 0.42],
      ],
      0.04,
    );
    dot(kit, 0.3, 0.475, 0.02, { mode: 'stand' });
    line(kit, arc(0.32, 0.46, 0.2, 0, 360, 30), 0.016, { deep: 0.8 });
    for (const a of [40, 90, 140])
      line(
        kit,
        [
          [0.32 + 0.13 * Math.cos((a * Math.PI) / 180), 0.46 + 0.13 * Math.sin((a * Math.PI) / 180)],
          [0.32 + 0.2 * Math.cos((a * Math.PI) / 180), 0.46 + 0.2 * Math.sin((a * Math.PI) / 180)],
        ],
        0.018,
      );
    stroke(kit, [
      [-0.56, 0.06, 0.06],
      [-0.68, -0.1, 0.05],
      [-0.68, -0.3, 0.02],
    ]);
    const curls: Spot[] = [];
    for (let j = 0; j < 4; j++)
      for (let i = 0; i < 8; i++)
        curls.push([-0.52 + 0.125 * i + (j % 2) * 0.06 + 0.012 * r.normal(), 0.13 - 0.11 * j + 0.012 * r.normal()]);
    for (const [x, y] of curls)
      line(kit, arc(x, y, 0.032, r.between(0, 360), r.between(380, 560), 7), 0.012, {
        mode: 'stand',
        section: 'vee',
        deep: 0.7,
      });
    // Staff with cross and banner, held by the bent foreleg.
    const tilt = r.between(-0.12, 0.0);
    line(
      kit,
      [
        [0.46, -0.56],
        [tilt, 0.95],
      ],
      0.02,
      { straight: true },
    );
    line(
      kit,
      [
        [tilt - 0.1, 0.84],
        [tilt + 0.12, 0.88],
      ],
      0.02,
      { straight: true },
    );
    const tails = r.between(0.05, 0.14);
    shape(
      kit,
      [
        [tilt + 0.02, 0.8],
        [-0.36, 0.84],
        [-0.68, 0.72],
        [-0.5, 0.68],
        [-0.72, 0.56],
        [-0.4, 0.6 - tails],
        [tilt + 0.1, 0.56],
      ],
      { straight: true, section: 'flat', flank: 0.05, deep: 0.8 },
    );
    parting(
      kit,
      [
        [-0.62, 0.7],
        [-0.1, 0.69],
      ],
      0.012,
    );
    parting(
      kit,
      [
        [-0.32, 0.8],
        [-0.3, 0.6],
      ],
      0.012,
    );
    line(
      kit,
      [
        [-0.66, -0.87],
        [0, -0.84],
        [0.6, -0.87],
      ],
      0.03,
    );
  },
};

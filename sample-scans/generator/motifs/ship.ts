import { dot, line, type Motif, parting, type Spot, shape, stroke } from './kit.ts';

/** A one-masted ship with castles, on waves. */
export const ship: Motif = {
  aspect: 0.95,
  draw(kit) {
    const r = kit.random;
    const sheer = r.between(0.1, 0.22);
    shape(
      kit,
      [
        [-0.88, -0.18 + sheer],
        [-0.6, -0.3],
        [0, -0.36],
        [0.6, -0.3],
        [0.88, -0.18 + sheer],
        [0.72, -0.5],
        [0.4, -0.68],
        [0, -0.72],
        [-0.4, -0.68],
        [-0.72, -0.5],
      ],
      { flank: 0.2, deep: 1.1 },
    );
    for (let i = 0; i < 3; i++) {
      const y = -0.4 - 0.09 * i;
      parting(
        kit,
        [
          [-0.76 + 0.07 * i, y + 0.1],
          [-0.4, y - 0.03],
          [0, y - 0.06],
          [0.4, y - 0.03],
          [0.76 - 0.07 * i, y + 0.1],
        ],
        0.015,
        { deep: 0.7 },
      );
    }
    for (let i = -4; i <= 4; i++) dot(kit, i * 0.15, -0.385 + 0.012 * i * i * 0.35, 0.016, { mode: 'stand' });
    for (const side of [-1, 1]) {
      const x = side * 0.72;
      shape(
        kit,
        [
          [x - 0.16, -0.14 + sheer],
          [x + 0.16, -0.14 + sheer],
          [x + 0.16, 0.02 + sheer],
          [x - 0.16, 0.02 + sheer],
        ],
        { straight: true, section: 'flat', flank: 0.05 },
      );
      for (let i = 0; i < 4; i++) dot(kit, x - 0.135 + 0.09 * i, 0.055 + sheer, 0.035);
      for (let i = 0; i < 3; i++)
        parting(
          kit,
          [
            [x - 0.09 + 0.09 * i, -0.11 + sheer],
            [x - 0.09 + 0.09 * i, 0.0 + sheer],
          ],
          0.014,
        );
    }
    line(
      kit,
      [
        [0, -0.36],
        [0, 0.86],
      ],
      0.032,
      { straight: true },
    );
    for (const side of [-1, 1])
      line(
        kit,
        [
          [0, 0.84],
          [side * 0.56, -0.02],
        ],
        0.011,
        { straight: true },
      );
    const belly = r.between(0.08, 0.16);
    if (r.next() < 0.65) {
      shape(
        kit,
        [
          [-0.5, 0.68],
          [0, 0.64],
          [0.5, 0.68],
          [0.46, 0.4],
          [0.5 + belly * 0.4, 0.14],
          [0, 0.1 - belly],
          [-0.5 - belly * 0.4, 0.14],
          [-0.46, 0.4],
        ],
        { flank: 0.2, deep: 0.9 },
      );
      for (let i = -3; i <= 3; i++)
        parting(
          kit,
          [
            [i * 0.14, 0.63],
            [i * 0.15, 0.36],
            [i * 0.15, 0.1],
          ],
          0.013,
          { deep: 0.6 },
        );
    } else
      stroke(kit, [
        [-0.5, 0.62, 0.03],
        [0, 0.58, 0.06],
        [0.5, 0.62, 0.03],
      ]);
    line(
      kit,
      [
        [-0.56, 0.7],
        [0.56, 0.7],
      ],
      0.026,
    );
    const wind = r.next() < 0.5 ? 1 : -1;
    shape(
      kit,
      [
        [0, 0.96],
        [wind * 0.34, 0.92],
        [wind * 0.2, 0.88],
        [wind * 0.34, 0.82],
        [0, 0.84],
      ],
      { straight: true, section: 'flat', flank: 0.04 },
    );
    for (let i = 0; i < 3; i++) {
      const y = -0.76 - 0.085 * i;
      const wave = Array.from(
        { length: 29 },
        (_, k): Spot => [(-0.84 + 0.06 * k) * (1 - 0.1 * i), y + 0.025 * Math.sin(k * 1.1 + i * 1.7)],
      );
      line(kit, wave, 0.017);
    }
  },
};

import { flecks } from './flecks.ts';
import { dot, leaf, line, type Motif, stroke } from './kit.ts';

/** A walking bird, wing raised, sometimes with a sprig in its beak. */
export const bird: Motif = {
  aspect: 0.95,
  draw(kit) {
    const r = kit.random;
    const lift = r.between(0.02, 0.1);
    stroke(
      kit,
      [
        [0.42, 0.62, 0.11],
        [0.4, 0.42, 0.09],
        [0.3, 0.16, 0.16],
        [0.06, -0.06, 0.27],
        [-0.24, -0.14, 0.2],
        [-0.46, -0.14, 0.07],
      ],
      { deep: 1.05 },
    );
    dot(kit, 0.44, 0.64, 0.13, { deep: 1.2 });
    stroke(kit, [
      [0.52, 0.64, 0.06],
      [0.72, 0.58 + lift, 0.015],
    ]);
    dot(kit, 0.47, 0.67, 0.026, { mode: 'stand' });
    const tailFeathers = 3 + r.below(3);
    for (let i = 0; i < tailFeathers; i++) {
      const t = i / (tailFeathers - 1) - 0.5;
      leaf(
        kit,
        [
          [-0.36, -0.14],
          [-0.62, -0.22 + 0.25 * t],
          [-0.9, -0.3 + 0.62 * t - lift],
        ],
        0.075,
      );
    }
    const wingFeathers = 5 + r.below(3);
    for (let i = 0; i < wingFeathers; i++) {
      const t = i / (wingFeathers - 1);
      leaf(
        kit,
        [
          [0.14 - 0.1 * t, 0.06],
          [-0.1 - 0.2 * t, 0.36 - 0.1 * t],
          [-0.34 - 0.36 * t, 0.88 - 0.62 * t],
        ],
        0.075,
        { mode: 'deepen', deep: 1.15 },
      );
    }
    stroke(
      kit,
      [
        [0.2, 0.08, 0.1],
        [0.02, 0.08, 0.1],
        [-0.16, 0.0, 0.06],
      ],
      { mode: 'add', deep: 0.5 },
    );
    flecks(
      kit,
      [
        [0.3, 0.3],
        [0.22, 0.1],
        [0.2, -0.08],
        [0.06, -0.2],
        [-0.08, -0.24],
        [0.36, 0.46],
      ],
      0.035,
      60,
    );
    for (const x of [0.0, 0.16]) {
      line(
        kit,
        [
          [x, -0.28],
          [x - 0.04, -0.5],
          [x + 0.05, -0.76],
        ],
        0.028,
      );
      for (const toe of [-0.12, 0.08, 0.16])
        line(
          kit,
          [
            [x + 0.05, -0.76],
            [x + 0.05 + toe, -0.84],
          ],
          0.02,
        );
    }
    line(
      kit,
      [
        [-0.6, -0.9],
        [0, -0.87],
        [0.62, -0.9],
      ],
      0.03,
    );
    if (r.next() < 0.5) {
      line(
        kit,
        [
          [0.7, 0.58],
          [0.76, 0.4],
          [0.72, 0.2],
        ],
        0.018,
      );
      for (let i = 0; i < 4; i++)
        leaf(
          kit,
          [
            [0.74, 0.46 - 0.08 * i],
            [0.82, 0.42 - 0.08 * i],
            [0.87, 0.4 - 0.08 * i],
          ],
          0.04,
        );
    }
  },
};

import { dot, flipped, type Kit, leaf, line, type Motif, parting, stroke } from './kit.ts';

/** A tree with roots, paired branches and leaves or fruit. */
export const tree: Motif = {
  aspect: 0.8,
  draw(kit) {
    const r = kit.random;
    const pairs = 3 + r.below(2);
    const fruit = r.next() < 0.4;
    stroke(
      kit,
      [
        [0, -0.82, 0.085],
        [0.02, -0.4, 0.06],
        [-0.015, 0.0, 0.05],
        [0, 0.5, 0.03],
        [0, 0.74, 0.015],
      ],
      { deep: 1.2 },
    );
    for (let i = -2; i <= 2; i++)
      if (i !== 0)
        stroke(kit, [
          [i * 0.03, -0.76, 0.035],
          [i * 0.1, -0.88, 0.03],
          [i * 0.18, -0.94, 0.01],
        ]);
    leaf(
      kit,
      [
        [0, 0.66],
        [0, 0.82],
        [0, 0.98],
      ],
      0.07,
    );
    for (let p = 0; p < pairs; p++) {
      const t = p / (pairs - 1);
      const y = -0.28 + 0.78 * t;
      const reach = r.between(0.52, 0.62) * (1 - 0.42 * t);
      const rise = r.between(0.18, 0.3);
      const branch = (k: Kit): void => {
        stroke(k, [
          [0, y, 0.04],
          [reach * 0.5, y + rise * 0.7, 0.032],
          [reach, y + rise, 0.018],
        ]);
        const leaves = 4;
        for (let i = 1; i <= leaves; i++) {
          const s = i / leaves;
          const x = reach * s;
          const h = y + rise * (1.25 * s - 0.25 * s * s);
          for (const way of [-1, 1]) {
            if (fruit && way < 0) {
              line(
                k,
                [
                  [x, h],
                  [x + 0.01, h - 0.06],
                ],
                0.012,
              );
              dot(k, x + 0.01, h - 0.09, 0.045);
            } else
              leaf(
                k,
                [
                  [x, h],
                  [x + 0.05, h + way * 0.07],
                  [x + 0.09 * s + 0.05, h + way * 0.14],
                ],
                0.042,
              );
          }
        }
        leaf(
          k,
          [
            [reach, y + rise],
            [reach + 0.08, y + rise + 0.03],
            [reach + 0.15, y + rise + 0.08],
          ],
          0.045,
        );
      };
      branch(kit);
      flipped(kit, branch);
    }
    for (let i = 0; i < 3; i++)
      parting(
        kit,
        [
          [-0.03 + 0.03 * i, -0.76],
          [-0.015 + 0.02 * i, -0.4],
        ],
        0.01,
        { deep: 0.7 },
      );
    line(
      kit,
      [
        [-0.5, -0.96],
        [0.5, -0.96],
      ],
      0.022,
    );
  },
};

import { arc, dot, type Kit, leaf, line, type Motif, parting, placed, stroke } from './kit.ts';

/** Fishes, one above another or crossed, with scales and fins. */
export const fishes: Motif = {
  aspect: 0.9,
  draw(kit) {
    const r = kit.random;
    const one = (k: Kit): void => {
      stroke(
        k,
        [
          [0.7, 0, 0.03],
          [0.6, 0.01, 0.1],
          [0.34, 0.02, 0.17],
          [0, 0, 0.19],
          [-0.34, -0.01, 0.12],
          [-0.6, 0, 0.05],
        ],
        { deep: 1.1 },
      );
      for (let i = -2; i <= 2; i++)
        leaf(
          k,
          [
            [-0.56, 0],
            [-0.74, 0.05 * i],
            [-0.9, 0.12 * i],
          ],
          0.055,
        );
      for (let i = 0; i < 5; i++)
        line(
          k,
          [
            [0.2 - 0.1 * i, 0.16],
            [0.12 - 0.12 * i, 0.3 - 0.02 * i],
          ],
          0.018,
        );
      leaf(
        k,
        [
          [0.2, -0.14],
          [0.1, -0.24],
          [0.0, -0.28],
        ],
        0.04,
      );
      dot(k, 0.54, 0.04, 0.03, { mode: 'stand' });
      parting(k, arc(0.36, 0, 0.13, 100, 260, 8), 0.014);
      for (let i = 0; i < 6; i++)
        for (let j = -1; j <= 1; j++)
          if (Math.abs(j) * 0.08 < 0.17 - 0.022 * i)
            parting(k, arc(0.14 - 0.12 * i + (j % 2) * 0.04, 0.075 * j, 0.045, 110, 250, 5), 0.011, { deep: 0.6 });
    };
    const layout = r.below(3);
    if (layout === 0) {
      placed(kit, 0, 0.36, 0.92, 0, one);
      placed(kit, 0, -0.36, 0.92, 180, one);
    } else if (layout === 1) {
      placed(kit, 0, 0, 0.95, 45, one);
      placed(kit, 0, 0, 0.95, 135, one);
    } else {
      for (const y of [0.6, 0, -0.6]) placed(kit, 0, y, y === 0 ? 0.9 : 0.78, y === 0 ? 180 : 0, one);
    }
  },
};

import { arc, dot, flipped, type Kit, line, type Motif, parting, placed, shape, stroke } from './kit.ts';

/** Two keys, or a key and a sword, crossed or side by side. */
export const keys: Motif = {
  aspect: 0.72,
  draw(kit) {
    const r = kit.random;
    const wards = 2 + r.below(2);
    const quatrefoil = r.next() < 0.5;
    const key = (k: Kit): void => {
      line(
        k,
        [
          [0, -0.5],
          [0, 0.86],
        ],
        0.04,
        { straight: true },
      );
      if (quatrefoil)
        for (const [x, y] of [
          [0, -0.58],
          [-0.12, -0.7],
          [0.12, -0.7],
          [0, -0.82],
        ])
          line(k, arc(x, y, 0.085, 0, 360, 16), 0.034);
      else line(k, arc(0, -0.7, 0.17, 0, 360, 26), 0.042);
      dot(k, 0, -0.46, 0.06);
      dot(k, 0, 0.88, 0.05);
      shape(
        k,
        [
          [0.03, 0.4],
          [0.3, 0.4],
          [0.3, 0.82],
          [0.03, 0.82],
        ],
        { straight: true, section: 'flat', flank: 0.06, deep: 1.1 },
      );
      for (let i = 0; i < wards; i++)
        parting(
          k,
          [
            [0.12, 0.44 + (0.36 * (i + 0.5)) / wards],
            [0.32, 0.44 + (0.36 * (i + 0.5)) / wards],
          ],
          0.028,
          { straight: true, deep: 1.4 },
        );
      line(
        k,
        [
          [0.16, 0.61 - 0.09],
          [0.16, 0.61 + 0.09],
        ],
        0.022,
        { mode: 'stand', straight: true },
      );
    };
    const sword = (k: Kit): void => {
      stroke(
        k,
        [
          [0, -0.42, 0.055],
          [0, 0.5, 0.045],
          [0, 0.95, 0.012],
        ],
        { section: 'vee' },
      );
      parting(
        k,
        [
          [0, -0.38],
          [0, 0.6],
        ],
        0.012,
      );
      stroke(k, [
        [-0.24, -0.46, 0.04],
        [0, -0.43, 0.045],
        [0.24, -0.46, 0.04],
      ]);
      line(
        k,
        [
          [0, -0.46],
          [0, -0.78],
        ],
        0.042,
      );
      dot(k, 0, -0.84, 0.09, { deep: 1.2 });
    };
    const second = r.next() < 0.5 ? sword : key;
    if (r.next() < 0.6) {
      placed(kit, 0, 0, 0.98, -27, key);
      placed(kit, 0, 0, 0.98, 27, (k) => (second === sword ? sword(k) : flipped(k, key)));
    } else {
      placed(kit, -0.26, 0, 0.95, 0, (k) => flipped(k, key));
      placed(kit, 0.26, 0, 0.95, 0, second);
    }
  },
};

import { escutcheon, shieldOutline } from './escutcheon.ts';
import { arc, type Bead, dot, leaf, line, type Motif, placed, type Spot, shape, stroke } from './kit.ts';

/** A shield of arms with one of several charges. */
export const shieldOfArms: Motif = {
  aspect: 0.78,
  draw(kit) {
    const r = kit.random;
    const raised = r.next() < 0.5;
    if (raised) shape(kit, shieldOutline, { straight: true, section: 'bowl', flank: 0.25, deep: 0.9 });
    escutcheon(kit, 0.03);
    const mode = raised ? 'add' : 'deepen';
    const band = (points: readonly Spot[], half: number): void =>
      line(kit, points, half, { straight: true, mode, section: 'flat', deep: 0.6 });
    const small = (x: number, y: number, size: number, kind: number): void =>
      placed(kit, x, y, size, 0, (k) => {
        if (kind === 0) dot(k, 0, 0, 0.5, { mode });
        if (kind === 1)
          for (let i = 0; i < 5; i++)
            placed(k, 0, 0, 1, 72 * i, (q) =>
              leaf(
                q,
                [
                  [0, 0],
                  [0, 0.3],
                  [0, 0.62],
                ],
                0.16,
                { mode },
              ),
            );
        if (kind === 2) {
          leaf(
            k,
            [
              [0, -0.5],
              [0, 0.1],
              [0, 0.7],
            ],
            0.2,
            { mode },
          );
          for (const side of [-1, 1])
            stroke(
              k,
              [
                [side * 0.05, -0.2, 0.08],
                [side * 0.35, 0.3, 0.13],
                [side * 0.55, 0.05, 0.06],
              ],
              { mode },
            );
          line(
            k,
            [
              [-0.3, -0.18],
              [0.3, -0.18],
            ],
            0.07,
            { mode },
          );
        }
        if (kind === 3)
          stroke(
            k,
            arc(0, 0.1, 0.4, 200, 340, 12).map(
              ([x0, y0], i): Bead => [x0, y0, 0.03 + 0.16 * Math.sin((Math.PI * i) / 12)],
            ),
            { straight: true, mode },
          );
      });
    const kind = r.below(4);
    const charge = r.below(5);
    if (charge === 0) {
      band(
        [
          [-0.56, -0.3],
          [0, 0.26],
          [0.56, -0.3],
        ],
        0.1,
      );
      for (const [x, y] of [
        [-0.36, 0.42],
        [0.36, 0.42],
        [0, -0.42],
      ])
        small(x, y, 0.3, kind);
    } else if (charge === 1) {
      band(
        [
          [-0.58, 0.72],
          [0.4, -0.42],
        ],
        0.13,
      );
      small(0.34, 0.4, 0.34, kind);
      small(-0.28, -0.22, 0.34, kind);
    } else if (charge === 2) {
      band(
        [
          [0, 0.76],
          [0, -0.82],
        ],
        0.1,
      );
      band(
        [
          [-0.62, 0.24],
          [0.62, 0.24],
        ],
        0.1,
      );
      for (const side of [-1, 1]) {
        small(side * 0.36, 0.54, 0.22, kind);
        small(side * 0.28, -0.12, 0.22, kind);
      }
    } else if (charge === 3) {
      for (const [x, y, s] of [
        [-0.33, 0.42, 0.44],
        [0.33, 0.42, 0.44],
        [0, -0.28, 0.44],
      ])
        small(x, y, s, kind);
    } else {
      band(
        [
          [-0.62, 0.5],
          [0.62, 0.5],
        ],
        0.12,
      );
      for (let i = 0; i < 3; i++)
        band(
          [
            [-0.5 + 0.5 * i, 0.28],
            [-0.42 + 0.42 * i, -0.2],
          ],
          0.05,
        );
      small(0, -0.5, 0.22, kind);
    }
    const sprays = r.below(3);
    if (sprays > 0)
      for (const side of [-1, 1]) {
        line(
          kit,
          [
            [side * 0.66, -0.5],
            [side * 0.78, -0.1],
            [side * 0.76, 0.4],
          ],
          0.016,
        );
        for (let i = 0; i < 5; i++)
          leaf(
            kit,
            [
              [side * (0.7 + 0.02 * i), -0.36 + 0.16 * i],
              [side * 0.8, -0.32 + 0.16 * i],
              [side * 0.88, -0.24 + 0.16 * i],
            ],
            0.035,
          );
      }
    if (sprays !== 1)
      for (const x of [-0.4, 0, 0.4])
        leaf(
          kit,
          [
            [x, 0.84],
            [x, 0.92],
            [x, 1],
          ],
          0.035,
        );
  },
};

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
  type Spot,
  shape,
  stroke,
} from './kit.ts';

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

/** A merchant's mark: a straight sign of staves, cross-bars and a foot, alone or on a shield. */
export const merchantMark: Motif = {
  aspect: 0.72,
  draw(kit) {
    const r = kit.random;
    const w = 0.042;
    const bar = (a: Spot, b: Spot): void =>
      line(kit, [a, b], w, { straight: true, section: r.next() < 0.5 ? 'vee' : 'round' });
    const onShield = r.next() < 0.4;
    const s = onShield ? 0.7 : 1;
    const at = (x: number, y: number): Spot => [x * s, y * s + (onShield ? 0.08 : 0)];
    if (onShield) escutcheon(kit, 0.022);
    bar(at(0, -0.72), at(0, 0.92));
    if (r.next() < 0.6) {
      bar(at(0, 0.92), at(-0.42, 0.4));
      bar(at(-0.46, 0.4), at(0.36, 0.4));
      bar(at(0.26, 0.54), at(0.26, 0.28));
    } else {
      bar(at(-0.34, 0.5), at(0.34, 0.5));
      for (const side of [-1, 1]) bar(at(side * 0.34, 0.62), at(side * 0.34, 0.38));
      dot(kit, ...at(0, 0.95), 0.07);
    }
    const foot = r.below(3);
    if (foot === 0)
      for (const side of [-1, 1]) {
        bar(at(0, -0.3), at(side * 0.4, -0.86));
        bar(at(side * 0.4, -0.86), at(side * 0.12, -0.86));
      }
    if (foot === 1) line(kit, arc(at(0, -0.66)[0], at(0, -0.62)[1], 0.24 * s, 0, 360, 30), w);
    if (foot === 2)
      for (const side of [-1, 1]) {
        bar(at(0, -0.72), at(side * 0.36, -0.32));
        bar(at(side * 0.36, -0.32), at(side * 0.36, -0.8));
      }
    for (const side of [-1, 1]) {
      if (r.next() < 0.5) dot(kit, ...at(side * 0.45, -0.05), 0.05);
      else bar(at(side * 0.3, 0.06), at(side * 0.06, -0.12));
    }
    if (r.next() < 0.6) bar(at(-0.3, 0.0), at(0.3, 0.0));
  },
};

const shieldOutline: readonly Spot[] = [
  [-0.66, 0.8],
  [0.66, 0.8],
  [0.66, 0.3],
  [0.6, -0.08],
  [0.4, -0.5],
  [0, -0.92],
  [-0.4, -0.5],
  [-0.6, -0.08],
  [-0.66, 0.3],
];

function escutcheon(kit: Kit, radius: number): void {
  line(kit, [...shieldOutline, shieldOutline[0]], radius, { straight: true });
}

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

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

/** Short strokes left standing inside a hollow: feathers, scales or wool. */
function flecks(kit: Kit, spots: readonly Spot[], size: number, turnDeg: number): void {
  const c = Math.cos((turnDeg * Math.PI) / 180) * size;
  const s = Math.sin((turnDeg * Math.PI) / 180) * size;
  for (const [x, y] of spots)
    parting(
      kit,
      [
        [x - c, y - s],
        [x + 0.4 * s, y - 0.4 * c],
        [x + c, y + s],
      ],
      0.013,
      { deep: 0.6 },
    );
}

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

/** An eagle displayed. */
export const eagle: Motif = {
  aspect: 0.95,
  draw(kit) {
    const r = kit.random;
    stroke(
      kit,
      [
        [0, 0.5, 0.1],
        [0, 0.3, 0.14],
        [0, 0.02, 0.2],
        [0, -0.24, 0.14],
        [0, -0.42, 0.06],
      ],
      { deep: 1.1 },
    );
    const feathers = 5 + r.below(3);
    const droop = r.between(0.5, 0.8);
    const wing = (k: Kit): void => {
      stroke(k, [
        [0.1, 0.2, 0.1],
        [0.34, 0.5, 0.1],
        [0.62, 0.62, 0.08],
        [0.8, 0.5, 0.04],
      ]);
      for (let i = 0; i < feathers; i++) {
        const t = i / (feathers - 1);
        leaf(
          k,
          [
            [0.18 + 0.5 * t, 0.34 + 0.22 * t],
            [0.26 + 0.52 * t, 0.0 + 0.16 * t],
            [0.24 + 0.58 * t, -0.42 * droop + 0.36 * t - 0.1],
          ],
          0.07,
        );
      }
      stroke(k, [
        [0.08, -0.3, 0.07],
        [0.22, -0.48, 0.06],
        [0.3, -0.56, 0.03],
      ]);
      for (const [dx, dy] of [
        [0.14, 0.0],
        [0.12, -0.09],
        [0.03, -0.13],
        [-0.08, 0.0],
      ])
        line(
          k,
          [
            [0.3, -0.57],
            [0.3 + dx * 0.5, -0.57 + dy * 0.5 + 0.02],
            [0.3 + dx, -0.57 + dy],
          ],
          0.02,
        );
    };
    wing(kit);
    flipped(kit, wing);
    const tail = 3 + 2 * r.below(2);
    for (let i = 0; i < tail; i++) {
      const t = i / (tail - 1) - 0.5;
      leaf(
        kit,
        [
          [0, -0.38],
          [0.3 * t, -0.65],
          [0.62 * t, -0.95 + 0.14 * Math.abs(t)],
        ],
        0.075,
      );
    }
    const look = r.next() < 0.5 ? 1 : -1;
    dot(kit, 0, 0.68, 0.13, { deep: 1.15 });
    stroke(kit, [
      [0, 0.62, 0.09],
      [0, 0.5, 0.09],
    ]);
    stroke(kit, [
      [look * 0.1, 0.7, 0.055],
      [look * 0.22, 0.68, 0.035],
      [look * 0.25, 0.6, 0.012],
    ]);
    dot(kit, look * 0.04, 0.71, 0.025, { mode: 'stand' });
    flecks(
      kit,
      [
        [0, 0.3],
        [-0.07, 0.16],
        [0.07, 0.16],
        [0, 0.04],
        [-0.08, -0.08],
        [0.08, -0.08],
        [0, -0.2],
      ],
      0.045,
      0,
    );
  },
};

function fourLegs(kit: Kit, spots: ReadonlyArray<readonly [Spot, Spot, Spot]>, radius: number): void {
  for (const [hip, knee, foot] of spots) {
    stroke(kit, [
      [hip[0], hip[1], radius * 1.6],
      [knee[0], knee[1], radius * 0.9],
      [foot[0], foot[1], radius * 0.75],
    ]);
    stroke(kit, [
      [foot[0], foot[1], radius * 0.8],
      [foot[0] + radius * 1.6, foot[1] - 0.005, radius * 0.7],
    ]);
  }
}

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

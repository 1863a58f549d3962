import { canopy } from './canopy.ts';
import { arc, type Bead, dot, type Kit, leaf, line, type Motif, parting, shape, stroke } from './kit.ts';

/** A standing cleric, mitred or bare-headed, under a canopy: blessing or with a book, and with a staff. */
export const figure: Motif = {
  aspect: 0.52,
  boxy: true,
  draw(kit) {
    const r = kit.random;
    canopy(kit);
    robe(kit);
    head(kit, r.next() < 0.6);
    const staffX = r.between(0.26, 0.31);
    staff(kit, staffX, r.below(3));
    stroke(kit, [
      [0.13, 0.32, 0.06],
      [0.24, 0.16, 0.065],
      [staffX, 0.22, 0.05],
    ]);
    dot(kit, staffX, 0.24, 0.042, { deep: 1.2 });
    if (r.next() < 0.6) blessing(kit);
    else book(kit);
    for (const side of [-1, 1])
      stroke(kit, [
        [side * 0.06, -0.84, 0.045],
        [side * 0.12, -0.88, 0.035],
      ]);
  },
};

function robe(kit: Kit): void {
  const r = kit.random;
  const hem = r.between(0.23, 0.28);
  shape(
    kit,
    [
      [-0.11, 0.42],
      [0.11, 0.42],
      [0.17, 0.2],
      [0.17, -0.2],
      [hem, -0.84],
      [0, -0.88],
      [-hem, -0.84],
      [-0.17, -0.2],
      [-0.17, 0.2],
    ],
    { flank: 0.11 },
  );
  const folds = 4 + r.below(3);
  for (let i = 0; i < folds; i++) {
    const x = (i / (folds - 1) - 0.5) * 1.5;
    parting(
      kit,
      [
        [x * 0.12, -0.24],
        [x * 0.17 + 0.02 * r.normal(), -0.5],
        [x * hem, -0.84],
      ],
      0.014,
      { deep: 0.7 },
    );
  }
  // Chasuble: a second layer that falls to a point, with curved folds.
  const point = r.between(-0.34, -0.22);
  shape(
    kit,
    [
      [-0.13, 0.4],
      [0.13, 0.4],
      [0.2, 0.18],
      [0.12, -0.1],
      [0, point],
      [-0.12, -0.1],
      [-0.2, 0.18],
    ],
    { flank: 0.07, mode: 'add', deep: 0.7 },
  );
  for (let i = 0; i < 4; i++) {
    const y = 0.2 - 0.12 * i;
    parting(
      kit,
      [
        [-0.15 + 0.025 * i, y + 0.08],
        [0, y - 0.06],
        [0.15 - 0.025 * i, y + 0.08],
      ],
      0.012,
      { deep: 0.7 },
    );
  }
  line(
    kit,
    [
      [0, 0.36],
      [0, point + 0.05],
    ],
    0.018,
    { mode: 'add', deep: 0.6 },
  );
  line(kit, arc(0, 0.42, 0.085, 200, 340, 8), 0.026, { mode: 'add', deep: 0.6 });
}

function head(kit: Kit, mitred: boolean): void {
  stroke(
    kit,
    [
      [0, 0.56, 0.078],
      [0, 0.49, 0.07],
    ],
    { deep: 1.15 },
  );
  for (const side of [-1, 1]) {
    dot(kit, side * 0.03, 0.555, 0.012, { mode: 'stand' });
    stroke(kit, [
      [side * 0.085, 0.57, 0.022],
      [side * 0.095, 0.5, 0.026],
      [side * 0.075, 0.45, 0.016],
    ]);
  }
  stroke(
    kit,
    [
      [0, 0.56, 0.008],
      [0, 0.52, 0.014],
    ],
    { mode: 'add', deep: 0.6 },
  );
  parting(
    kit,
    [
      [-0.022, 0.482],
      [0.022, 0.482],
    ],
    0.009,
  );
  if (mitred) {
    shape(
      kit,
      [
        [-0.085, 0.61],
        [0.085, 0.61],
        [0.1, 0.68],
        [0, 0.8],
        [-0.1, 0.68],
      ],
      { straight: true, section: 'flat', flank: 0.05, deep: 1.1 },
    );
    parting(
      kit,
      [
        [-0.07, 0.63],
        [0.07, 0.63],
      ],
      0.01,
    );
    parting(
      kit,
      [
        [0, 0.64],
        [0, 0.77],
      ],
      0.01,
    );
  } else {
    stroke(
      kit,
      arc(0, 0.575, 0.07, 200, -20, 14).map(([x, y]): Bead => [x, y, 0.028]),
    );
    line(kit, arc(0, 0.55, 0.15, 215, -35, 24), 0.014, { deep: 0.8 });
  }
}

function staff(kit: Kit, x: number, kind: number): void {
  const top = 0.56;
  line(
    kit,
    [
      [x, -0.84],
      [x, top],
    ],
    0.018,
  );
  if (kind === 0) {
    const spiral = Array.from({ length: 26 }, (_, i): Bead => {
      const a = (i / 25) * 2.6 * Math.PI;
      const radius = 0.072 * (1 - 0.8 * (i / 25));
      return [x - 0.072 + radius * Math.cos(a), top + radius * Math.sin(a), 0.02 - 0.009 * (i / 25)];
    });
    stroke(kit, spiral, { straight: true });
    dot(kit, x, top - 0.05, 0.03);
  } else if (kind === 1) {
    line(
      kit,
      [
        [x - 0.07, top - 0.01],
        [x + 0.07, top - 0.01],
      ],
      0.018,
    );
    line(
      kit,
      [
        [x, top],
        [x, top + 0.08],
      ],
      0.018,
    );
    line(
      kit,
      [
        [x - 0.045, top + 0.05],
        [x + 0.045, top + 0.05],
      ],
      0.014,
    );
  } else {
    dot(kit, x, top + 0.03, 0.045);
    for (const side of [-1, 1])
      leaf(
        kit,
        [
          [x, top],
          [x + side * 0.05, top + 0.06],
          [x + side * 0.07, top + 0.13],
        ],
        0.022,
      );
  }
}

function blessing(kit: Kit): void {
  stroke(kit, [
    [-0.13, 0.32, 0.06],
    [-0.25, 0.16, 0.065],
    [-0.3, 0.3, 0.045],
  ]);
  dot(kit, -0.305, 0.345, 0.04, { deep: 1.1 });
  for (const [dx, tall] of [
    [-0.012, 0.1],
    [0.014, 0.105],
  ])
    line(
      kit,
      [
        [-0.305 + dx, 0.36],
        [-0.305 + dx * 1.4, 0.36 + tall],
      ],
      0.014,
    );
  line(
    kit,
    [
      [-0.28, 0.35],
      [-0.255, 0.39],
    ],
    0.013,
  );
  stroke(
    kit,
    [
      [-0.27, 0.14, 0.04],
      [-0.3, -0.06, 0.05],
      [-0.28, -0.2, 0.02],
    ],
    { deep: 0.8 },
  );
}

function book(kit: Kit): void {
  stroke(kit, [
    [-0.13, 0.32, 0.06],
    [-0.22, 0.12, 0.065],
    [-0.1, 0.1, 0.045],
  ]);
  shape(
    kit,
    [
      [-0.19, 0.08],
      [-0.05, 0.06],
      [-0.03, 0.26],
      [-0.17, 0.28],
    ],
    { straight: true, section: 'flat', flank: 0.03, mode: 'add', deep: 1.4 },
  );
  dot(kit, -0.11, 0.17, 0.022, { mode: 'stand' });
}

import { around, curve, type Motif, type P, sway } from './pen.ts';

export const cross: Motif = (pen, chance) => {
  const arm = chance.range(0.7, 0.86);
  const flare = chance.range(0.1, 0.24);
  const waist = chance.range(0.05, 0.09);
  for (const [x, y] of [
    [0, 1],
    [1, 0],
    [0, -1],
    [-1, 0],
  ] as P[]) {
    pen.track(
      [
        [0, 0],
        [x * arm * 0.6, y * arm * 0.6],
        [x * arm, y * arm],
      ],
      [waist, waist * 1.2, flare],
      0.8,
      'flat',
    );
    pen.fine(
      [
        [x * 0.12, y * 0.12],
        [x * arm * 0.9, y * arm * 0.9],
      ],
      0.025,
      0.15,
    );
    for (const side of [-1, 1])
      pen.dot(x * arm + side * y * flare * 0.8, y * arm - side * x * flare * 0.8, sway(chance, 0.06), 0.7);
    const corner = chance.whole(3);
    const cx = 0.4 * (x + y);
    const cy = 0.4 * (y - x);
    if (corner === 0) pen.dot(cx, cy, 0.12, 0.7);
    else if (corner === 1)
      for (let k = 0; k < 5; k++)
        pen.track(around(cx, cy, 0.11, k * 1.257, k * 1.257 + 0.01, 1).concat([[cx, cy]]), [0.05, 0.03], 0.5);
    else pen.track(around(cx, cy, 0.11, 0, 2 * Math.PI), [0.035, 0.035], 0.5);
  }
  pen.dot(0, 0, 0.14, 1);
};

export const tower: Motif = (pen, chance) => {
  const wide = chance.range(0.26, 0.36);
  const base = -0.8;
  const top = chance.range(0.1, 0.3);
  const courses = 5 + chance.whole(4);
  for (let i = 0; i < courses; i++) {
    const y = base + ((top - base) * (i + 0.5)) / courses;
    pen.track(
      [
        [-wide, y],
        [wide, y],
      ],
      [0.075, 0.075],
      0.8,
      'flat',
    );
    for (let k = -2; k <= 2; k++)
      pen.fine(
        [
          [k * wide * 0.45 + (i % 2) * 0.06, y - 0.06],
          [k * wide * 0.45 + (i % 2) * 0.06, y + 0.06],
        ],
        0.02,
        0.12,
      );
  }
  const teeth = 3 + chance.whole(3);
  pen.track(
    [
      [-wide - 0.1, top],
      [wide + 0.1, top],
    ],
    [0.05, 0.05],
    0.9,
    'flat',
  );
  for (let i = 0; i < teeth; i++) {
    const x = -wide - 0.04 + ((2 * wide + 0.08) * i) / (teeth - 1);
    pen.track(
      [
        [x, top],
        [x, top + 0.16],
      ],
      [0.055, 0.055],
      0.85,
      'flat',
    );
  }
  pen.track(
    [
      [0, base],
      [0, base + 0.3],
      [0, base + 0.42],
    ],
    [0.09, 0.09, 0.04],
    0.35,
    'round',
  );
  pen.track(
    curve([
      [-0.12, top + 0.18],
      [0, top + 0.52],
      [0.12, top + 0.18],
    ]),
    [0.05, 0.06, 0.05],
    0.7,
  );
  pen.track(
    [
      [0, top + 0.4],
      [0, Math.min(0.95, top + 0.7)],
    ],
    [0.025, 0.025],
    0.4,
    'v',
  );
  for (const side of [-1, 1]) {
    pen.track(
      [
        [side * 0.62, base],
        [side * 0.62, sway(chance, -0.2)],
      ],
      [0.12, 0.1],
      0.65,
      'full',
    );
    pen.track(
      [
        [side * 0.74, -0.18],
        [side * 0.62, 0.06],
        [side * 0.5, -0.18],
      ],
      [0.04, 0.05, 0.04],
      0.6,
    );
  }
  const waves = 3;
  for (let i = 0; i < waves; i++)
    pen.track(
      curve([
        [-0.5, -0.9 - 0.03 * i],
        [-0.2, -0.86],
        [0.1, -0.92],
        [0.5, -0.88 - 0.03 * i],
      ]),
      [0.02, 0.03, 0.02],
      0.4,
      'v',
    );
};

export const ship: Motif = (pen, chance) => {
  const belly = chance.range(-0.55, -0.42);
  for (let i = 0; i < 4; i++) {
    const w = 0.74 - 0.1 * i;
    const y = belly - 0.1 * i;
    pen.track(
      curve([
        [-w, y + 0.28],
        [-w * 0.6, y],
        [0, y - 0.06],
        [w * 0.6, y],
        [w, y + 0.28],
      ]),
      [0.03, 0.06, 0.06, 0.06, 0.03],
      0.75,
    );
  }
  pen.track(
    [
      [0, belly],
      [sway(chance, 0.02), 0.8],
    ],
    [0.045, 0.03],
    0.6,
  );
  pen.track(
    [
      [-0.5, 0.56],
      [0.5, sway(chance, 0.56, 0.05)],
    ],
    [0.03, 0.035, 0.03],
    0.5,
  );
  const folds = 4 + chance.whole(4);
  for (let i = 0; i < folds; i++) {
    const x = -0.42 + (0.84 * i) / (folds - 1);
    pen.track(
      curve([
        [x, 0.52],
        [x * 1.2 + 0.06, 0.2],
        [x * 0.9, -0.14],
      ]),
      [0.06, 0.1, 0.05],
      0.55,
    );
  }
  for (const side of [-1, 1]) {
    pen.track(
      [
        [0, 0.78],
        [side * 0.7, belly + 0.3],
      ],
      [0.016, 0.016],
      0.3,
      'v',
    );
    pen.track(
      curve([
        [side * 0.72, belly + 0.26],
        [side * 0.84, belly + 0.5],
        [side * 0.7, belly + 0.64],
      ]),
      [0.05, 0.05, 0.06],
      0.6,
    );
  }
  const waves = 2 + chance.whole(3);
  for (let i = 0; i < waves; i++)
    pen.track(
      curve(Array.from({ length: 7 }, (_, k): P => [-0.6 + 0.2 * k, -0.84 - 0.07 * i + 0.03 * (k % 2)])),
      [0.02, 0.03, 0.02],
      0.35,
      'v',
    );
};

import { curve, type Motif, type P, sway } from './pen.ts';

export const beast: Motif = (pen, chance) => {
  const lean = chance.range(-0.08, 0.08);
  pen.track(
    curve([
      [0.22 + lean, -0.42],
      [0.12, -0.1],
      [-0.06, 0.2],
      [-0.14 - lean, 0.44],
    ]),
    [0.2, 0.15, sway(chance, 0.24)],
    1,
    'full',
  );
  pen.track(
    curve([
      [-0.14 - lean, 0.4],
      [-0.2, 0.6],
      [-0.3, 0.66],
    ]),
    [0.2, 0.18, 0.11],
    0.95,
    'full',
  );
  pen.track(
    [
      [-0.3, 0.62],
      [-0.46, 0.58],
    ],
    [0.09, 0.05],
    0.7,
  );
  pen.track(
    curve([
      [-0.12, 0.34],
      [-0.4, 0.4],
      [-0.62, sway(chance, 0.3)],
    ]),
    [0.11, 0.07, 0.05],
    0.75,
  );
  pen.track(
    curve([
      [-0.02, 0.16],
      [-0.36, 0.08],
      [-0.5, sway(chance, -0.1)],
    ]),
    [0.1, 0.07, 0.05],
    0.7,
  );
  pen.track(
    curve([
      [0.2, -0.4],
      [-0.06, -0.5],
      [-0.12, -0.76],
      [-0.3, -0.78],
    ]),
    [0.16, 0.1, 0.06, 0.04],
    0.85,
  );
  pen.track(
    curve([
      [0.28, -0.4],
      [0.36, -0.62],
      [0.24, -0.84],
      [0.06, -0.88],
    ]),
    [0.16, 0.1, 0.06, 0.04],
    0.8,
  );
  const tail = chance.range(0.1, 0.35);
  pen.track(
    curve([
      [0.3, -0.34],
      [0.62, -0.2],
      [0.5, 0.1 + tail],
      [0.72, 0.4 + tail],
      [0.5, 0.6],
    ]),
    [0.06, 0.045, 0.045, 0.08],
    0.55,
  );
  const locks = 5 + chance.whole(5);
  for (let i = 0; i < locks; i++) {
    const t = i / locks;
    const x = -0.02 + 0.1 * t;
    const y = 0.62 - 0.42 * t;
    pen.track(
      curve([
        [x - 0.06, y],
        [x + 0.1, y + 0.05],
        [x + 0.2, y - 0.03],
      ]),
      [0.04, 0.05, 0.015],
      0.6,
      'v',
    );
  }
  for (const [x, y] of [
    [-0.62, 0.3],
    [-0.5, -0.1],
    [-0.3, -0.78],
    [0.06, -0.88],
  ] as P[])
    for (let i = -1; i <= 1; i++)
      pen.track(
        [
          [x, y],
          [x - 0.09, y - 0.07 * i - 0.02],
        ],
        [0.035, 0.012],
        0.4,
        'v',
      );
  pen.dot(-0.28, 0.68, 0.035, 0.25, true);
  const ribs = 3 + chance.whole(4);
  for (let i = 0; i < ribs; i++)
    pen.fine(
      [
        [0.0 + 0.03 * i, 0.1 - 0.08 * i],
        [0.14 + 0.03 * i, 0.06 - 0.08 * i],
      ],
      0.02,
      0.12,
    );
};

export const tree: Motif = (pen, chance) => {
  const bend = chance.range(-0.12, 0.12);
  pen.track(
    curve([
      [0, -0.9],
      [bend, -0.4],
      [-bend, 0.1],
      [bend / 2, 0.7],
    ]),
    [0.14, 0.1, 0.08, 0.03],
    0.9,
    'full',
  );
  const pairs = 3 + chance.whole(3);
  for (let i = 0; i < pairs; i++)
    for (const side of [-1, 1]) {
      const y = -0.3 + (0.85 * i) / pairs + 0.06 * chance.gauss();
      const reach = side * (0.62 - (0.32 * i) / pairs) * sway(chance, 1, 0.1);
      const rise = chance.range(0.18, 0.34);
      const branch = curve([
        [0, y],
        [reach * 0.5, y + rise * 0.4],
        [reach, y + rise],
      ]);
      pen.track(branch, [0.06, 0.045, 0.025], 0.6);
      const leaves = 3 + chance.whole(2);
      for (let k = 1; k <= leaves; k++) {
        const [bx, by] = branch[Math.min(branch.length - 1, Math.round((k * branch.length) / leaves))];
        const turn = chance.range(-0.5, 0.5);
        pen.track(
          [
            [bx, by],
            [bx + side * 0.07, by + 0.1 + 0.06 * turn],
            [bx + side * 0.12 * turn, by + 0.2],
          ],
          [0.02, 0.06, 0.01],
          0.65,
        );
      }
    }
  for (let i = -2; i <= 2; i++)
    pen.track(
      [
        [0.05 * i, -0.86],
        [0.13 * i, -0.98],
      ],
      [0.06, 0.02],
      0.5,
      'v',
    );
  for (let i = 0; i < 5; i++)
    pen.fine(
      [
        [-0.05, -0.75 + 0.14 * i],
        [0.06, -0.68 + 0.14 * i],
      ],
      0.018,
      0.1,
    );
};

export const bird: Motif = (pen, chance) => {
  const spread = chance.range(0.55, 0.75);
  pen.track(
    curve([
      [0, 0.5],
      [0.02, 0.1],
      [0, -0.36],
    ]),
    [0.12, 0.22, 0.1],
    1,
    'full',
  );
  pen.track(
    curve([
      [0, 0.42],
      [0.02, 0.62],
      [-0.12, 0.74],
    ]),
    [0.1, 0.09, 0.11],
    0.9,
  );
  pen.track(
    curve([
      [-0.14, 0.74],
      [-0.28, 0.74],
      [-0.32, 0.66],
    ]),
    [0.06, 0.04, 0.02],
    0.6,
    'v',
  );
  const feathers = 5 + chance.whole(4);
  for (const side of [-1, 1]) {
    pen.track(
      curve([
        [side * 0.14, 0.3],
        [side * spread * 0.7, 0.56],
        [side * spread, 0.44],
      ]),
      [0.1, 0.08, 0.05],
      0.8,
    );
    for (let i = 0; i < feathers; i++) {
      const t = (i + 1) / feathers;
      const x = side * (0.18 + (spread - 0.14) * t);
      const length = sway(chance, 0.75 - 0.25 * t, 0.06);
      pen.track(
        [
          [x, 0.42],
          [x + side * 0.05, 0.42 - length / 2],
          [x + side * 0.03, 0.42 - length],
        ],
        [0.05, 0.055, 0.02],
        0.6,
      );
    }
    pen.track(
      [
        [side * 0.08, -0.3],
        [side * 0.2, -0.56],
      ],
      [0.07, 0.04],
      0.6,
    );
    for (let k = -1; k <= 1; k++)
      pen.track(
        [
          [side * 0.2, -0.56],
          [side * 0.2 + 0.1 * k, -0.7],
        ],
        [0.03, 0.012],
        0.45,
        'v',
      );
  }
  const tail = 3 + chance.whole(3);
  for (let i = 0; i < tail; i++) {
    const a = -0.5 + i / (tail - 1);
    pen.track(
      [
        [0, -0.32],
        [0.2 * a, -0.6],
        [0.4 * a, -0.88],
      ],
      [0.06, 0.05, 0.06],
      0.55,
    );
  }
  for (let i = 0; i < 4; i++)
    for (let k = -1; k <= 1; k++) pen.dot(0.07 * k + 0.03 * (i % 2), 0.3 - 0.14 * i, 0.03, 0.12, true);
  pen.dot(-0.13, 0.77, 0.03, 0.2, true);
};

export const vine: Motif = (pen, chance) => {
  const arms = 2 + chance.whole(3);
  const coils = chance.range(1.2, 1.9);
  for (let i = 0; i < arms; i++) {
    const start = (2 * Math.PI * i) / arms + chance.range(0, 0.4);
    const spiral = Array.from({ length: 34 }, (_, k): P => {
      const t = k / 33;
      const r = 0.34 * (1 - 0.85 * t);
      const a = start + Math.PI + coils * 2 * Math.PI * t;
      return [0.48 * Math.sin(start) + r * Math.sin(a), 0.48 * Math.cos(start) + r * Math.cos(a)];
    });
    pen.track(spiral, [0.055, 0.045, 0.03], 0.65);
    for (let k = 2; k < 20; k += 5) {
      const [x, y] = spiral[k];
      const a = chance.range(0, 6.283);
      pen.track(
        [
          [x, y],
          [x + 0.08 * Math.sin(a), y + 0.08 * Math.cos(a)],
          [x + 0.17 * Math.sin(a + 0.4), y + 0.17 * Math.cos(a + 0.4)],
        ],
        [0.02, 0.055, 0.01],
        0.7,
      );
    }
    const [ex, ey] = spiral[33];
    for (let k = 0; k < 4; k++) pen.dot(ex + 0.05 * Math.sin(k * 1.57), ey + 0.05 * Math.cos(k * 1.57), 0.04, 0.6);
  }
  pen.dot(0, 0, 0.1, 0.9);
};

import type { Chance } from './chance.ts';
import type { Section, Stroke } from './strokes.ts';

/**
 * Motifs as a person would draw them with gravers and punches, in a disc of radius 1. Depth 1 is the deepest of the
 * motif. Numbers of limbs, turns and proportions come from chance, so two trees are two trees.
 */
export type Motif = (pen: Pen, chance: Chance) => void;

/** Collects strokes; each call is one stroke, one group. */
export interface Pen {
  /** A track through points; widths run from the first through the middle to the last. */
  track(
    points: readonly (readonly [number, number])[],
    widths: readonly number[],
    depth: number,
    section?: Section,
  ): void;
  /** A fine line cut into what is there already. */
  fine(points: readonly (readonly [number, number])[], width: number, depth: number): void;
  dot(x: number, y: number, radius: number, depth: number, detail?: boolean): void;
}

export function penInto(strokes: Stroke[], firstGroup: number, radius: number, deepest: number): Pen {
  let group = firstGroup;
  const put = (
    points: readonly (readonly [number, number])[],
    widths: readonly number[],
    depth: number,
    section: Section,
    detail: boolean,
  ): void => {
    const last = points.length - 1;
    const half = points.map((_, i) => radius * alongList(widths, last ? i / last : 0));
    // A thinner end is a shallower end, as with a pointed graver.
    const widest = Math.max(...half);
    // No tool cuts a groove much deeper than wide.
    const full = Math.min(deepest * depth, 1.4 * Math.max(widest, 0.06));
    strokes.push({
      x: points.map(([px]) => px * radius),
      y: points.map(([, py]) => py * radius),
      half: half.map((h) => Math.max(0.06, h)),
      depth: half.map((h) => full * Math.sqrt(Math.max(0.05, h) / Math.max(widest, 0.05))),
      section,
      detail,
      group: group++,
    });
  };
  return {
    track: (points, widths, depth, section = 'round') => put(points, widths, depth, section, false),
    fine: (points, width, depth) => put(points, [width * 0.6, width, width * 0.4], depth, 'v', true),
    dot: (x, y, r, depth, detail = false) => put([[x, y]], [r], depth, 'round', detail),
  };
}

function alongList(list: readonly number[], t: number): number {
  const at = t * (list.length - 1);
  const i = Math.min(list.length - 1, Math.floor(at));
  const j = Math.min(list.length - 1, i + 1);
  return list[i] + (at - i) * (list[j] - list[i]);
}

type P = [number, number];
const sway = (chance: Chance, value: number, by = 0.12): number => value * (1 + by * chance.gauss());

/** A smooth course through a few points (Catmull and Rom). */
function curve(points: readonly P[], parts = 5): P[] {
  const out: P[] = [];
  const at = (i: number): P => points[Math.min(points.length - 1, Math.max(0, i))];
  for (let i = 0; i < points.length - 1; i++)
    for (let k = 0; k < parts; k++) {
      const t = k / parts;
      const mix = (axis: 0 | 1): number => {
        const [a, b, c, d] = [at(i - 1)[axis], at(i)[axis], at(i + 1)[axis], at(i + 2)[axis]];
        return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
      };
      out.push([mix(0), mix(1)]);
    }
  out.push(points[points.length - 1]);
  return out;
}

const around = (cx: number, cy: number, r: number, from: number, to: number, parts = 16): P[] =>
  Array.from({ length: parts + 1 }, (_, i) => {
    const angle = from + ((to - from) * i) / parts;
    return [cx + r * Math.sin(angle), cy + r * Math.cos(angle)];
  });

const beast: Motif = (pen, chance) => {
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

const tree: Motif = (pen, chance) => {
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

const cross: Motif = (pen, chance) => {
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

const tower: Motif = (pen, chance) => {
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

const bird: Motif = (pen, chance) => {
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

const lattice: Motif = (pen, chance) => {
  const lines = 3 + chance.whole(3);
  const turn = chance.range(0.2, 1.2);
  for (const angle of [turn, turn + Math.PI / 2 + chance.range(-0.2, 0.2)])
    for (let i = -lines; i <= lines; i++) {
      const off = (0.9 * (i + 0.15 * chance.gauss())) / lines;
      const half = Math.sqrt(Math.max(0.02, 0.86 - off * off));
      const [s, c] = [Math.sin(angle), Math.cos(angle)];
      pen.track(
        [
          [off * c - half * s, off * s + half * c],
          [off * c + half * s, off * s - half * c],
        ],
        [0.03, 0.04, 0.03],
        sway(chance, 0.5),
        'v',
      );
    }
  const studs = 8 + chance.whole(8);
  for (let i = 0; i < studs; i++) {
    const r = Math.sqrt(chance.unit()) * 0.8;
    const a = chance.range(0, 6.283);
    pen.dot(r * Math.sin(a), r * Math.cos(a), chance.range(0.04, 0.09), 0.8);
  }
};

const star: Motif = (pen, chance) => {
  const rays = 5 + chance.whole(6);
  const turn = chance.range(0, 1);
  for (let i = 0; i < rays; i++) {
    const a = turn + (2 * Math.PI * i) / rays + 0.03 * chance.gauss();
    const long = sway(chance, i % 2 ? 0.6 : 0.8, 0.06);
    pen.track(
      [
        [0, 0],
        [0.5 * long * Math.sin(a), 0.5 * long * Math.cos(a)],
        [long * Math.sin(a), long * Math.cos(a)],
      ],
      [0.12, 0.1, 0.015],
      0.9,
      'v',
    );
    const b = a + Math.PI / rays;
    pen.dot(0.62 * Math.sin(b), 0.62 * Math.cos(b), sway(chance, 0.05), 0.5);
  }
  const moon = chance.range(2, 4.3);
  pen.track(around(0, -0.1, 0.82, moon - 0.9, moon + 0.9), [0.02, 0.12, 0.02], 0.7);
  pen.dot(0, 0, 0.15, 1);
  for (let i = 0; i < 6; i++) pen.dot(0.08 * Math.sin(i * 1.047), 0.08 * Math.cos(i * 1.047), 0.03, 0.12, true);
};

const knot: Motif = (pen, chance) => {
  const lobes = 3 + chance.whole(4);
  const turn = chance.range(0, 1);
  const strands = 6 * lobes;
  const place = (t: number): P => {
    const r = 0.52 + 0.3 * Math.cos(lobes * t * 0.5 * (lobes % 2 ? 1 : 2));
    return [r * Math.sin(t + turn), r * Math.cos(t + turn)];
  };
  const whole = lobes % 2 ? 4 * Math.PI : 2 * Math.PI;
  for (let i = 0; i < strands; i++) {
    const points = Array.from({ length: 5 }, (_, k) => place((whole * (i + k / 3.6)) / strands));
    pen.track(points, [0.06, 0.07, 0.06], 0.6 + 0.25 * (i % 2), 'full');
    pen.fine(points, 0.02, 0.12);
  }
  for (let i = 0; i < lobes; i++) {
    const a = turn + (2 * Math.PI * (i + 0.5)) / lobes;
    pen.dot(0.28 * Math.sin(a), 0.28 * Math.cos(a), sway(chance, 0.06), 0.5);
    pen.dot(0.92 * Math.sin(a), 0.92 * Math.cos(a), sway(chance, 0.05), 0.5);
  }
};

const vine: Motif = (pen, chance) => {
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

const ship: Motif = (pen, chance) => {
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

export const motifs: Readonly<Record<string, Motif>> = {
  beast,
  tree,
  cross,
  tower,
  bird,
  lattice,
  star,
  knot,
  vine,
  ship,
};
export const motifKinds = Object.keys(motifs);

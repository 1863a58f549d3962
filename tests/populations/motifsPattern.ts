import { around, type Motif, type P, sway } from './pen.ts';

export const lattice: Motif = (pen, chance) => {
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

export const star: Motif = (pen, chance) => {
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

export const knot: Motif = (pen, chance) => {
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

import { arc, dot, type Kit, line, type Motif, parting, type Spot, shape } from './kit.ts';

const box = (kit: Kit, x0: number, x1: number, y0: number, y1: number, flank = 0.06, deep = 1): void =>
  shape(
    kit,
    [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
    { straight: true, section: 'flat', flank, deep },
  );

/** Courses of masonry as grooves on the wax. */
function masonry(kit: Kit, x0: number, x1: number, y0: number, y1: number, course: number): void {
  const rows = Math.max(1, Math.round((y1 - y0) / course));
  for (let i = 1; i <= rows; i++) {
    const y = y0 + ((y1 - y0) * i) / rows;
    if (i < rows)
      parting(
        kit,
        [
          [x0 + 0.015, y],
          [x1 - 0.015, y],
        ],
        0.013,
        { deep: 0.55 },
      );
    const joints = Math.max(1, Math.round((x1 - x0) / (course * 1.7)));
    for (let k = 0; k < joints; k++) {
      const x = x0 + ((x1 - x0) * (k + (i % 2 ? 0.5 : 1))) / joints;
      if (x < x1 - 0.02)
        parting(
          kit,
          [
            [x, y - (y1 - y0) / rows + 0.015],
            [x, y - 0.015],
          ],
          0.011,
          { deep: 0.5 },
        );
    }
  }
}

function battlements(kit: Kit, x0: number, x1: number, y: number, count: number): void {
  const w = (x1 - x0) / (2 * count - 1);
  for (let i = 0; i < count; i++) box(kit, x0 + 2 * i * w, x0 + (2 * i + 1) * w, y - 0.02, y + w * 1.25, 0.04, 0.9);
}

/** A castle: curtain wall with a gate between two towers, a keep behind. */
export const tower: Motif = {
  aspect: 0.85,
  boxy: true,
  draw(kit) {
    const r = kit.random;
    const wide = r.between(0.26, 0.32);
    const gap = r.between(0.42, 0.5);
    const top = r.between(0.1, 0.3);
    const keepTop = r.between(0.5, 0.68);
    const floor = -0.82;
    const course = r.between(0.11, 0.15);
    box(kit, -0.2, 0.2, -0.3, keepTop, 0.07, 0.9);
    masonry(kit, -0.2, 0.2, -0.3, keepTop, course);
    battlements(kit, -0.26, 0.26, keepTop, 3);
    box(kit, -gap, gap, floor, -0.25, 0.06, 0.85);
    masonry(kit, -gap, gap, floor, -0.25, course);
    battlements(kit, -gap, gap, -0.25, 5);
    for (const side of [-1, 1]) {
      const x = side * (gap + 0.06);
      box(kit, x - wide / 2, x + wide / 2, floor, top, 0.09, 1.25);
      masonry(kit, x - wide / 2, x + wide / 2, floor, top, course);
      battlements(kit, x - wide / 2 - 0.03, x + wide / 2 + 0.03, top, 3);
      parting(
        kit,
        [
          [x, top - 0.28],
          [x, top - 0.12],
        ],
        0.03,
        { straight: true },
      );
    }
    const gate: Spot[] = [[-0.15, floor], ...arc(0, -0.55, 0.15, 180, 0, 10), [0.15, floor]];
    shape(kit, gate, { straight: true, mode: 'stand', section: 'flat', flank: 0.04, deep: 1.5 });
    for (let i = -1; i <= 1; i++)
      line(
        kit,
        [
          [i * 0.08, floor + 0.03],
          [i * 0.08, -0.46],
        ],
        0.016,
        { deep: 0.8 },
      );
    line(
      kit,
      [
        [-0.13, -0.62],
        [0.13, -0.62],
      ],
      0.014,
      { deep: 0.8 },
    );
    const banner = r.below(3);
    if (banner > 0) {
      line(
        kit,
        [
          [0, keepTop + 0.06],
          [0, 0.97],
        ],
        0.018,
      );
      shape(
        kit,
        [
          [0.02, 0.95],
          [0.3, banner === 1 ? 0.85 : 0.92],
          [banner === 1 ? 0.02 : 0.18, 0.84],
          [banner === 1 ? 0.02 : 0.3, 0.76],
          [0.02, 0.76],
        ],
        { straight: true, section: 'flat', flank: 0.04 },
      );
    } else for (const side of [-1, 1]) dot(kit, side * 0.48, 0.68, 0.07);
    line(
      kit,
      [
        [-0.82, floor - 0.06],
        [0.82, floor - 0.06],
      ],
      0.045,
    );
  },
};

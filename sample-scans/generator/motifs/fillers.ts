import { depthInside, type Ring } from '../outline.ts';
import { arc, type Bead, dot, type Kit, leaf, line, type Motif, placed, stroke } from './kit.ts';

/** A field of shallow crossed lines with a dot in each lozenge, as behind many figures. */
export function diaper(kit: Kit, inner: Ring): void {
  const step = Math.max(1.3 / kit.unitMm, kit.random.between(0.12, 0.2));
  const angle = (kit.random.between(40, 60) * Math.PI) / 180;
  // Half the inner field's height in motif units is under two.
  const reach = 2;
  const lines = Math.ceil(reach / step);
  const inside = (x: number, y: number): boolean => depthInside(inner, x * kit.unitMm, y * kit.unitMm) > 0.25;
  for (const way of [1, -1])
    for (let k = -lines; k <= lines; k++) {
      // Points of one line that lie inside; the field is convex, so they form one stretch.
      let from: [number, number] | null = null;
      let to: [number, number] | null = null;
      for (let t = -reach; t <= reach; t += 0.04) {
        const x = t * Math.cos(angle) * way + k * step * Math.sin(angle);
        const y = t * Math.sin(angle) - k * step * Math.cos(angle) * way;
        if (!inside(x, y)) continue;
        from ??= [x, y];
        to = [x, y];
      }
      if (from && to) line(kit, [from, to], 0.09 / kit.unitMm, { straight: true, section: 'vee', deep: 0.6 });
    }
  // The lines are x sin a ∓ y cos a = k · step; lozenges have their middles at half-integer k of both families.
  for (let k = -lines; k < lines; k++)
    for (let m = -lines; m < lines; m++) {
      const x = ((k + m + 1) * step) / (2 * Math.sin(angle));
      const y = ((m - k) * step) / (2 * Math.cos(angle));
      if (inside(x, y) && kit.random.next() < 0.95) dot(kit, x, y, 0.1 / kit.unitMm, { deep: 0.5 });
    }
}

/** Small signs in what the motif leaves free, above, below and beside it. */
export function fillers(kit: Kit, motif: Motif, inner: Ring): void {
  const r = kit.random;
  const free = (x: number, y: number): number => depthInside(inner, x * kit.unitMm, y * kit.unitMm) / kit.unitMm;
  const kind = r.below(5);
  for (const way of [1, -1]) {
    let tall = 0;
    while (tall < 3 && free(0, way * (1.02 + tall)) > 0.16) tall += 0.05;
    if (tall < 0.3 || r.next() < 0.15) continue;
    const size = Math.min(0.34, 0.42 * tall);
    placed(kit, 0, way * (1.04 + size * 1.05), size, 0, (k) => sign(k, (kind + (way > 0 ? 0 : 1)) % 5));
    if (tall > 1.2) placed(kit, 0, way * (1.1 + 2.9 * size), size * 0.7, 0, (k) => sign(k, (kind + 2) % 5));
  }
  if (r.next() < 0.6) return;
  for (const side of [-1, 1]) {
    const x = side * (motif.aspect + 0.12);
    if (free(x, 0.2) > 0.12) dot(kit, x, 0.2, Math.min(0.07, free(x, 0.2) * 0.4));
    if (free(x, -0.25) > 0.12) dot(kit, x, -0.25, Math.min(0.07, free(x, -0.25) * 0.4));
  }
}

/** A star, crescent, rosette, sprig or cross within ±1. */
function sign(kit: Kit, kind: number): void {
  if (kind === 0)
    for (let i = 0; i < 6; i++)
      placed(kit, 0, 0, 1, 60 * i, (k) =>
        leaf(
          k,
          [
            [0, 0],
            [0, 0.45],
            [0, 0.95],
          ],
          0.2,
        ),
      );
  if (kind === 1)
    stroke(
      kit,
      arc(0, 0.2, 0.7, 200, 340, 14).map(([x, y], i): Bead => [x, y, 0.03 + 0.26 * Math.sin((Math.PI * i) / 14)]),
      { straight: true },
    );
  if (kind === 2) {
    for (let i = 0; i < 5; i++) placed(kit, 0, 0, 1, 72 * i, (k) => dot(k, 0, 0.6, 0.32));
    dot(kit, 0, 0, 0.3, { deep: 1.3 });
  }
  if (kind === 3) {
    line(
      kit,
      [
        [0, -0.9],
        [0, 0.5],
      ],
      0.08,
    );
    for (const side of [-1, 1])
      for (const y of [-0.5, 0])
        leaf(
          kit,
          [
            [0, y],
            [side * 0.35, y + 0.25],
            [side * 0.55, y + 0.6],
          ],
          0.17,
        );
    leaf(
      kit,
      [
        [0, 0.3],
        [0, 0.65],
        [0, 1],
      ],
      0.18,
    );
  }
  if (kind === 4)
    for (let i = 0; i < 4; i++)
      placed(kit, 0, 0, 1, 90 * i, (k) =>
        stroke(k, [
          [0, 0.1, 0.08],
          [0, 0.8, 0.22],
        ]),
      );
}

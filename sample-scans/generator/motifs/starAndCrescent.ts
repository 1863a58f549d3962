import { arc, dot, leaf, type Motif, placed, stroke } from './kit.ts';

/** A star of straight or waved rays above a crescent. */
export const starAndCrescent: Motif = {
  aspect: 0.85,
  draw(kit) {
    const r = kit.random;
    const rays = r.pick([5, 6, 7, 8]);
    const starY = r.between(0.3, 0.42);
    const reach = r.between(0.42, 0.52);
    for (let i = 0; i < rays; i++)
      placed(kit, 0, starY, 1, (360 * i) / rays, (k) =>
        leaf(
          k,
          [
            [0, 0.02],
            [0, reach * 0.4],
            [0, reach],
          ],
          r.between(0.07, 0.08),
        ),
      );
    dot(kit, 0, starY, 0.1, { deep: 1.3 });
    const open = r.between(150, 190);
    const radius = r.between(0.55, 0.68);
    const beads = arc(0, starY - 0.3, radius, 270 - open / 2, 270 + open / 2, 20).map(
      ([x, y], i) => [x, y, 0.01 + 0.15 * Math.sin((Math.PI * i) / 20) ** 0.8] as const,
    );
    stroke(kit, beads, { straight: true, deep: 1.1 });
    if (r.next() < 0.5) for (const side of [-1, 1]) dot(kit, side * r.between(0.5, 0.62), starY + 0.35, 0.05);
  },
};

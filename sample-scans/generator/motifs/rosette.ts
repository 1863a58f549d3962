import { dot, leaf, type Motif, parting, placed, stroke } from './kit.ts';

/** n petals about a boss, in one, two or three rings; exact turning symmetry. */
export const rosette: Motif = {
  aspect: 1,
  draw(kit, symmetryFold) {
    const r = kit.random;
    const fold = symmetryFold ?? r.pick([4, 5, 6, 7, 8]);
    const outer = r.between(0.85, 0.97);
    const blunt = r.next() < 0.5;
    const petalWidth = (outer * Math.sin(Math.PI / fold) * (blunt ? 0.62 : 0.5)) / 1;
    const core = r.between(0.15, 0.24);
    const rings = r.next() < 0.5 && fold < 7 ? 2 : 1;
    const sprig = r.below(3);
    for (let i = 0; i < fold; i++)
      placed(kit, 0, 0, 1, (360 * i) / fold, (k) => {
        if (blunt)
          stroke(
            k,
            [
              [0, core, petalWidth * 0.3],
              [0, outer * 0.55, petalWidth * 0.8],
              [0, outer - petalWidth * 0.8, petalWidth],
            ],
            { deep: 0.9 },
          );
        else
          leaf(
            k,
            [
              [0, core * 0.8],
              [0, outer * 0.5],
              [0, outer],
            ],
            petalWidth,
          );
        parting(
          k,
          [
            [0, core + 0.06],
            [0, outer * 0.78],
          ],
          0.02,
        );
        if (rings === 2)
          leaf(
            k,
            [
              [0, core],
              [0, outer * 0.4],
              [0, outer * 0.62],
            ],
            petalWidth * 0.62,
            { mode: 'add' },
          );
      });
    for (let i = 0; i < fold; i++)
      placed(kit, 0, 0, 1, (360 * (i + 0.5)) / fold, (k) => {
        if (sprig === 1)
          leaf(
            k,
            [
              [0, core + 0.1],
              [0, outer * 0.6],
              [0, outer * 0.93],
            ],
            0.045,
          );
        if (sprig === 2) dot(k, 0, outer * 0.92, 0.05);
      });
    dot(kit, 0, 0, core, { deep: 1.2 });
    if (core > 0.19)
      for (let i = 0; i < fold; i++)
        placed(kit, 0, 0, 1, (360 * i) / fold, (k) => dot(k, 0, core * 0.6, 0.03, { mode: 'stand' }));
  },
};

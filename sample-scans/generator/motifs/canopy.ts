import { arc, dot, type Kit, leaf, line } from './kit.ts';

/** Two posts with pinnacles, and a gabled trefoil or an ogee arch between them. */
export function canopy(kit: Kit): void {
  const r = kit.random;
  const spring = r.between(0.6, 0.68);
  const post = 0.47;
  for (const side of [-1, 1]) {
    line(
      kit,
      [
        [side * post, -0.92],
        [side * post, spring],
      ],
      0.024,
    );
    line(
      kit,
      [
        [side * (post - 0.045), -0.92],
        [side * (post - 0.045), spring - 0.02],
      ],
      0.011,
    );
    line(
      kit,
      [
        [side * (post - 0.07), spring],
        [side * (post + 0.04), spring],
      ],
      0.028,
    );
    leaf(
      kit,
      [
        [side * post, spring],
        [side * post, spring + 0.16],
        [side * post, spring + 0.3],
      ],
      0.04,
    );
    dot(kit, side * post, spring + 0.32, 0.025);
  }
  if (r.next() < 0.5) {
    // Trefoil arch under a gable with crockets.
    line(kit, arc(-0.24, spring, 0.2, 180, 40, 12), 0.02);
    line(kit, arc(0.24, spring, 0.2, 0, 140, 12), 0.02);
    line(kit, arc(0, spring + 0.1, 0.13, 0, 180, 12), 0.02);
    for (const side of [-1, 1]) {
      line(
        kit,
        [
          [side * 0.46, spring + 0.04],
          [0, 0.97],
        ],
        0.02,
        { straight: true },
      );
      for (let i = 1; i < 4; i++)
        dot(kit, side * (0.46 - 0.115 * i) + side * 0.03, spring + 0.06 + (0.93 - spring) * 0.25 * i, 0.022);
    }
    dot(kit, 0, spring + 0.18, 0.03);
  } else {
    line(
      kit,
      [...arc(0, spring - 0.05, 0.45, 170, 97, 14), [0, 0.98], ...arc(0, spring - 0.05, 0.45, 83, 10, 14)],
      0.022,
    );
    line(kit, arc(0, spring - 0.02, 0.36, 178, 2, 20), 0.012);
    for (let i = 1; i < 8; i++)
      dot(kit, 0.405 * Math.cos((Math.PI * i) / 8), spring - 0.03 + 0.4 * Math.sin((Math.PI * i) / 8), 0.015);
  }
  line(
    kit,
    [
      [-0.5, -0.93],
      [0.5, -0.93],
    ],
    0.03,
  );
  line(
    kit,
    [
      [-0.42, -0.985],
      [0.42, -0.985],
    ],
    0.016,
  );
}

import { escutcheon } from './escutcheon.ts';
import { arc, dot, line, type Motif, type Spot } from './kit.ts';

/** A merchant's mark: a straight sign of staves, cross-bars and a foot, alone or on a shield. */
export const merchantMark: Motif = {
  aspect: 0.72,
  draw(kit) {
    const r = kit.random;
    const w = 0.042;
    const bar = (a: Spot, b: Spot): void =>
      line(kit, [a, b], w, { straight: true, section: r.next() < 0.5 ? 'vee' : 'round' });
    const onShield = r.next() < 0.4;
    const s = onShield ? 0.7 : 1;
    const at = (x: number, y: number): Spot => [x * s, y * s + (onShield ? 0.08 : 0)];
    if (onShield) escutcheon(kit, 0.022);
    bar(at(0, -0.72), at(0, 0.92));
    if (r.next() < 0.6) {
      bar(at(0, 0.92), at(-0.42, 0.4));
      bar(at(-0.46, 0.4), at(0.36, 0.4));
      bar(at(0.26, 0.54), at(0.26, 0.28));
    } else {
      bar(at(-0.34, 0.5), at(0.34, 0.5));
      for (const side of [-1, 1]) bar(at(side * 0.34, 0.62), at(side * 0.34, 0.38));
      dot(kit, ...at(0, 0.95), 0.07);
    }
    const foot = r.below(3);
    if (foot === 0)
      for (const side of [-1, 1]) {
        bar(at(0, -0.3), at(side * 0.4, -0.86));
        bar(at(side * 0.4, -0.86), at(side * 0.12, -0.86));
      }
    if (foot === 1) line(kit, arc(at(0, -0.66)[0], at(0, -0.62)[1], 0.24 * s, 0, 360, 30), w);
    if (foot === 2)
      for (const side of [-1, 1]) {
        bar(at(0, -0.72), at(side * 0.36, -0.32));
        bar(at(side * 0.36, -0.32), at(side * 0.36, -0.8));
      }
    for (const side of [-1, 1]) {
      if (r.next() < 0.5) dot(kit, ...at(side * 0.45, -0.05), 0.05);
      else bar(at(side * 0.3, 0.06), at(side * 0.06, -0.12));
    }
    if (r.next() < 0.6) bar(at(-0.3, 0.0), at(0.3, 0.0));
  },
};

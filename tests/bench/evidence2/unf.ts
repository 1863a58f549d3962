import { bandPass } from '../../../src/core/geometry/index.ts';
import { clearSignificance } from '../../../src/core/judge/clear.ts';
import { isWhole } from '../../../src/core/judge/whole.ts';
import { load, names } from './dev.ts';

for (const name of names().filter((n) => new RegExp(process.argv[2]).test(n))) {
  const p = load(name);
  const c = clearSignificance(p.reference, p.subject, p.searched.sizeMm);
  const i = p.info as any;
  const d = (f: typeof p.reference) => {
    const size = Math.max(f.outline.widthMm, f.outline.heightMm);
    const g = bandPass(f.detail, size / 50, size / 9);
    const v = g.z
      .filter((_, k) => g.mask[k])
      .map(Math.abs)
      .sort();
    const q = (x: number) => (1000 * v[Math.floor(x * (v.length - 1))]).toFixed(0);
    const area = v.length * g.pitch ** 2;
    return `${f.outline.shape} ${f.outline.widthMm.toFixed(1)}x${f.outline.heightMm.toFixed(1)} area ${area.toFixed(0)} whole ${isWhole(f)} q50 ${q(0.5)} q90 ${q(0.9)} q99 ${q(0.99)} noise ${(1000 * f.noiseMm).toFixed(0)} conf ${f.senseConfidence.toFixed(2)}`;
  };
  console.log(
    name,
    p.same,
    i.question,
    'left',
    i.left?.toFixed(2),
    'lip',
    i.lip,
    'acc',
    i.accidents,
    'spc',
    i.spacingMm?.toFixed(2),
    i.shape,
    i.sizeMm,
    'z',
    p.searched.best.significance.toFixed(1),
    'clear',
    c.toFixed(1),
    '\n   R',
    d(p.reference),
    '\n   S',
    d(p.subject),
  );
}

import { clearSignificance } from '../../../src/core/judge/clear.ts';
import { load, names } from './dev.ts';

for (const name of names().filter((n) => new RegExp(process.argv[2] ?? '.').test(n))) {
  const p = load(name);
  const { best, sizeMm } = p.searched;
  const t0 = performance.now();
  const c = clearSignificance(p.reference, p.subject, sizeMm);
  console.log(
    name.padEnd(34),
    p.same ? 'S' : 'D',
    'z',
    best.significance.toFixed(1).padStart(5),
    'r',
    best.correlation.toFixed(2),
    'clear',
    c.toFixed(1),
    'ratio',
    (best.significance / c).toFixed(2),
    (performance.now() - t0).toFixed(0),
  );
}

import { measurePlaces } from '../../../src/core/judge/measure.ts';
import { weigh } from '../../../src/core/judge/rivals.ts';
import { load } from './dev.ts';

for (const n of process.argv.slice(2)) {
  const p = load(n);
  const m = measurePlaces(p.reference, p.subject, p.fit);
  const w = weigh({ ...m, patches: m.seen, absent: m.absent.length });
  m.seen.forEach((q, i) =>
    console.log(
      q.x.toFixed(1).padStart(6),
      q.y.toFixed(1).padStart(6),
      'd',
      (q.dx * 1000).toFixed(0).padStart(5),
      (q.dy * 1000).toFixed(0).padStart(5),
      'err',
      (Math.sqrt(q.covariance[0]) * 1000).toFixed(0),
      (Math.sqrt(q.covariance[2]) * 1000).toFixed(0),
      'rho',
      q.correlation.toFixed(2),
      'rel',
      q.relief.map((v) => (v * 1000).toFixed(0)).join('/'),
      'left',
      (w.best.left[2 * i] * 1000).toFixed(0).padStart(5),
      (w.best.left[2 * i + 1] * 1000).toFixed(0).padStart(5),
      w.best.member[i].toFixed(2),
      'turn',
      q.turnDeg.toFixed(1),
    ),
  );
  console.log(n, w.score);
}

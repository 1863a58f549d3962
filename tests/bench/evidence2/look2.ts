import { measurePlaces } from '../../../src/core/judge/measure.ts';
import { weigh } from '../../../src/core/judge/rivals.ts';
import { load } from './dev.ts';

for (const n of process.argv.slice(2)) {
  const p = load(n);
  const { fit } = p;
  console.log(n, p.kind, JSON.stringify(p.info).slice(0, 400));
  const m = measurePlaces(p.reference, p.subject, fit);
  const w = m.seen.length > 5 ? weigh({ ...m, patches: m.seen, absent: m.absent.length }) : null;
  const err = m.seen.map((q) => 1000 * Math.sqrt((q.covariance[0] + q.covariance[2]) / 2)).sort((a, b) => a - b);
  console.log(
    m.seen.length,
    m.found,
    'absent',
    m.absent.length,
    'spc',
    m.spacingMm,
    'across',
    m.pointsAcross,
    'err',
    err[err.length >> 2]?.toFixed(0),
    err[err.length >> 1]?.toFixed(0),
    'scatter',
    w?.scatterMm,
    w?.best.epsilon,
    w?.score,
    'profile',
    [0.003, 0.012, 0.025, 0.03, 0.042, 0.06, 0.085, 0.12].length,
  );
}

import { measurePlaces } from '../../../src/core/judge/measure.ts';
import { weigh } from '../../../src/core/judge/rivals.ts';
import { load, names } from './dev.ts';

const filter = new RegExp(process.argv[2] ?? '.');
for (const name of names().filter((n) => filter.test(n))) {
  const p = load(name);
  if (!p.fit.found) continue;
  const t0 = performance.now();
  const m = measurePlaces(p.reference, p.subject, p.fit);
  const t1 = performance.now();
  const w = weigh({ ...m, patches: m.seen, absent: m.absent.length });
  const t2 = performance.now();
  // leave a sector out: rescored from the fixed flow's terms
  const inner = m.seen.filter(
    (q) => Math.hypot(q.x / p.reference.outline.widthMm, q.y / p.reference.outline.heightMm) < 0.3,
  );
  const wi = inner.length >= 8 ? weigh({ ...m, patches: inner, absent: 0 }) : null;
  console.log(
    name.padEnd(34),
    p.same ? 'S' : 'D',
    'n',
    m.seen.length,
    '/',
    m.found,
    'abs',
    m.absent.length,
    'cut',
    m.nullCut.toFixed(2),
    'sh',
    m.share.toFixed(2),
    'sig',
    (w.scatterMm * 1000).toFixed(0).padStart(4),
    'eps',
    w.best.epsilon.toFixed(2),
    'SCORE',
    w.score.toFixed(1).padStart(6),
    'vsCopy',
    (w.same - w.handCopy).toFixed(1),
    'vsStock',
    (w.same - w.stockMotif).toFixed(1),
    'inner',
    wi ? (wi.same - wi.handCopy).toFixed(1) : '-',
    'jit',
    (p.info as any).jitterMm?.toFixed(3) ?? '-',
    (t1 - t0).toFixed(0),
    (t2 - t1).toFixed(0),
  );
}

import { alignRelief } from '../../../src/core/fit/index.ts';
import { bandPass, erode, type HeightGrid, median, quantile } from '../../../src/core/geometry/index.ts';
import { findLandmarks } from '../../../src/core/judge/landmarks.ts';
import { type Patch, registerPatch } from '../../../src/core/judge/patches.ts';
import { scatterFit } from '../../../src/core/judge/scatter.ts';
import { load, names } from './dev.ts';

const filter = new RegExp(process.argv[2] ?? '.');
for (const name of names().filter((n) => filter.test(n))) {
  const p = load(name);
  if (!p.fit.found) continue;
  const t0 = performance.now();
  const { reference, subject, fit } = p;
  const sizeMm = Math.max(reference.outline.widthMm, reference.outline.heightMm);
  const spacing = Math.max(reference.detail.pitch, subject.detail.pitch * fit.models[1].scale);
  const pitch = Math.max(reference.detail.pitch, sizeMm / 320);
  const al = alignRelief(reference, subject, fit.models[Number(process.env.M ?? 1)], pitch);
  const shortest = Math.max(2.5 * spacing, sizeMm / 100);
  const mask = erode(
    al.reference.mask.map((v, i) => v & al.subject.mask[i]),
    al.reference.width,
    Math.round((0.02 * sizeMm) / pitch),
  );
  const a: HeightGrid = { ...bandPass(al.reference, shortest, sizeMm / 10), mask };
  const b = bandPass(al.subject, shortest, sizeMm / 10);
  const radius = Math.max(5, Math.round(sizeMm / 30 / pitch));
  const reach = Math.max(4, Math.round((0.03 * sizeMm) / pitch));
  const noiseCells = Math.max(1, (shortest / pitch / 2.2) ** 2);
  const marks = findLandmarks(a, sizeMm).slice(0, 110);
  const got: Patch[] = [];
  const nul: number[] = [];
  for (let i = 0; i < marks.length; i++) {
    const m = marks[i];
    const q = registerPatch(a, b, m.x, m.y, { radius, reach, noiseCells });
    if (q) got.push(q);
    const other = marks[(i * 7 + 13) % marks.length];
    if (Math.hypot(other.x - m.x, other.y - m.y) < 3 * radius * pitch) continue;
    const w = registerPatch(a, b, m.x, m.y, {
      radius,
      reach,
      noiseCells,
      offset: [Math.round((other.x - m.x) / pitch), -Math.round((other.y - m.y) / pitch)],
    });
    if (w) nul.push(w.correlation);
  }
  const cut = Math.max(0.5, quantile(nul, 0.9));
  const seen = got.filter((q) => q.inside && q.correlation > cut);
  const opt = {
    sizeMm,
    windowMm2: (2 * reach * pitch) ** 2,
    spacingMm: 0.05 * spacing,
    degree: seen.length >= 50 ? 3 : seen.length >= 24 ? 2 : 1,
    outliers: 0.1,
  };
  const grid = [3, 5, 8, 12, 18, 25, 36, 50, 75, 110, 160, 240, 350, 500, 750].map((v) => v / 1000);
  if (process.env.CAL && p.same) {
    const f5 = scatterFit(seen, 0.004, opt);
    for (let i = 0; i < seen.length; i++) {
      const c = seen[i].covariance;
      if (f5.member[i] > 0.02)
        console.log(
          'CAL',
          seen[i].correlation.toFixed(3),
          (Math.hypot(f5.left[2 * i], f5.left[2 * i + 1]) * 1000).toFixed(1),
          (Math.sqrt(c[0] + c[2]) * 1000).toFixed(1),
          (spacing * 1000).toFixed(0),
          seen[i].kept.toFixed(2),
          (seen[i].relief[1] / seen[i].relief[0]).toFixed(2),
          (shortest * 1000).toFixed(0),
          name,
        );
    }
  }
  const fits = grid.map((s) => scatterFit(seen, s, opt));
  const ev = (list: typeof fits) => {
    const top = Math.max(...list.map((f) => f.logLikelihood));
    return top + Math.log(list.reduce((s, f) => s + Math.exp(f.logLikelihood - top), 0) / list.length);
  };
  const lr = (ev(fits.slice(0, 6)) - ev(fits.slice(6))) / Math.LN10;
  const best = fits.reduce((x, y) => (y.logLikelihood > x.logLikelihood ? y : x));
  if (process.env.MAP)
    for (let i = 0; i < seen.length; i++) {
      const q = seen[i];
      console.log(
        'MAP',
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
        'kept',
        q.kept.toFixed(2),
        'rel',
        q.relief.map((v) => (v * 1000).toFixed(0)).join('/'),
        'left',
        (best.left[2 * i] * 1000).toFixed(0).padStart(5),
        (best.left[2 * i + 1] * 1000).toFixed(0).padStart(5),
        best.member[i].toFixed(2),
        'turn',
        q.turnDeg.toFixed(1),
      );
    }
  const out = 1 - best.member.reduce((s, v) => s + v, 0) / seen.length;
  const errs = seen.map((q) => Math.sqrt((q.covariance[0] + q.covariance[2]) / 2) * 1000);
  console.log(
    name.padEnd(36),
    p.same ? 'S' : 'D',
    'spc',
    (spacing * 1000).toFixed(0).padStart(4),
    'size',
    sizeMm.toFixed(0),
    'R',
    radius,
    'n',
    seen.length,
    '/',
    marks.length,
    'cut',
    cut.toFixed(2),
    'rho',
    median(seen.map((q) => q.correlation)).toFixed(2),
    'err',
    median(errs).toFixed(0),
    'sig*',
    (best.sigmaMm * 1000).toFixed(0).padStart(4),
    'out',
    out.toFixed(2),
    'LR',
    lr.toFixed(1).padStart(6),
    'jit',
    (p.info as any).jitterMm?.toFixed(3) ?? '',
    (performance.now() - t0).toFixed(0),
  );
}

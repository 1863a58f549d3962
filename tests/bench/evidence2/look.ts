import { load } from './dev.ts';

for (const n of process.argv.slice(2)) {
  const p = load(n);
  const { info, fit } = p;
  console.log(n, JSON.stringify(info).slice(0, 900));
  console.log(
    fit.models.map((m) => [m.model, m.scale.toFixed(4), m.rmsMm.toFixed(3), m.heldOutRmsMm.toFixed(3)].join(' ')),
    fit.chosen,
    fit.doubts,
    p.reference.noiseMm,
    p.subject.noiseMm,
    p.reference.noiseLengthMm,
    p.subject.noiseLengthMm,
    p.reference.detail.pitch,
    p.subject.detail.pitch,
    p.reference.outline.shape,
    p.subject.outline.shape,
    p.subject.outline.widthMm,
    p.reference.outline.widthMm,
    p.subject.filled,
  );
}

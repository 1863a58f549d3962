import { load, names } from './dev.ts';

for (const n of names()) {
  const p = load(n);
  if (/^c-/.test(n) && !/-1$/.test(n)) continue;
  const o = (f: typeof p.reference) =>
    `${f.outline.shape} ${f.outline.confidence.toFixed(2)} ${f.outline.widthMm.toFixed(0)}x${f.outline.heightMm.toFixed(0)} filled ${f.filled.toFixed(2)} holes ${f.holes}`;
  console.log(
    n.padEnd(30),
    (p.info as any).shape,
    (p.info as any).coverage?.toFixed(2),
    JSON.stringify((p.info as any).lost ?? ''),
    '|',
    o(p.reference),
    '|',
    o(p.subject),
  );
}

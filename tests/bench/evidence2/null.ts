import { load, names } from './dev.ts';
import { searchLists } from './nullSearch.ts';

for (const name of names()) {
  const p = load(name);
  const t0 = performance.now();
  const { fams, ms } = searchLists(p.reference, p.subject);
  const row = Object.entries(fams).map(
    ([k, v]) =>
      `${k}: ${v
        .slice(0, 4)
        .map((c) => c.significance.toFixed(1))
        .join(' ')} (n${v.length})`,
  );
  console.log(
    name.padEnd(34),
    p.fit.found ? 'F' : '-',
    p.fit.significance.toFixed(1).padStart(5),
    '|',
    row.join(' | '),
    ms.join('/'),
    (performance.now() - t0).toFixed(0),
  );
}

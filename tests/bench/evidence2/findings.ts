import { chanceOf, searchFaces } from '../../../src/core/fit/index.ts';
import { pairEvidence } from '../../../src/core/judge/gates.ts';
import { load, names } from './dev.ts';

const filter = new RegExp(process.argv[2] ?? '.');
const table: Record<string, Record<string, number>> = {};
for (const name of names().filter((n) => filter.test(n))) {
  const p = load(name);
  // Pairs that were kept before the search had a chance of its own are searched again.
  const searched = p.searched.none ? p.searched : searchFaces(p.reference, p.subject);
  const chance = chanceOf(searched.best.significance, searched.none.wrongSign, searched.none.mirror);
  const equal = searched.rivals.some((r) => r.significance > 0.9 * searched.best.significance);
  const found =
    chance.log10P <= -4 &&
    searched.best.significance >= 1.15 * chance.mirror &&
    !(equal && searched.best.correlation < 0.45);
  const t0 = performance.now();
  const e = pairEvidence(p.reference, p.subject, { ...p.fit, chance, found });
  const k = `${p.same ? 'S' : 'D'} ${p.kind}`;
  table[k] ??= {};
  table[k][e.finding] = (table[k][e.finding] ?? 0) + 1;
  const bad = e.gates.filter((g) => !g.passed).map((g) => `${g.group[0]}:${g.code}=${g.value.toFixed(2)}`);
  console.log(
    name.padEnd(34),
    p.same ? 'S' : 'D',
    found ? 'F' : '-',
    chance.log10P.toFixed(1).padStart(6),
    'sc',
    (e.weighed?.score ?? Number.NaN).toFixed(1).padStart(6),
    '[',
    e.weighed?.interval.map((v) => v.toFixed(1)).join(' ') ?? '',
    ']',
    e.finding.padEnd(11),
    e.finding === 'undecided' || (p.same && e.finding !== 'supported') ? bad.join(' ') : '',
    (performance.now() - t0).toFixed(0),
  );
}
console.table(table);

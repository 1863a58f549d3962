import { chanceOf } from '../../../src/core/fit/chance.ts';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { load, names } from './dev.ts';
import { searchLists } from './nullSearch.ts';

// unrelated faces of like outline, across all cached pairs
const random = seededRandom(Number(process.argv[2] ?? 1));
const list = names()
  .filter((n) => !/unrelated|^c-.*-(cut|pits|lip|lumps|half)|-2$/.test(n))
  .map((n) => ({ n, p: load(n) }));
const count = Number(process.argv[3] ?? 40);
const top: number[] = [];
for (let k = 0; k < count; ) {
  const [x, y] = [random.pick(list), random.pick(list)];
  const key = (n: string) => n.split('-').slice(0, 2).join('-');
  if (key(x.n) === key(y.n) || (x.n[0] === 't') !== (y.n[0] === 't') || /^t/.test(x.n)) continue;
  const [a, b] = [random.next() < 0.5 ? x.p.reference : x.p.subject, random.next() < 0.5 ? y.p.reference : y.p.subject];
  const fa = (f: typeof a) => f.outline.heightMm / f.outline.widthMm;
  if (Math.abs(Math.log(fa(a) / fa(b))) > 0.12) continue;
  // scaled to the same size: the search does not know mm
  k++;
  const s = a.outline.heightMm / b.outline.heightMm;
  const b2 = {
    ...b,
    detail: { ...b.detail, pitch: b.detail.pitch * s, left: b.detail.left * s, top: b.detail.top * s },
    outline: { ...b.outline, widthMm: b.outline.widthMm * s, heightMm: b.outline.heightMm * s },
  };
  const { fams } = searchLists(a, b2);
  const best = Math.max(fams['..'][0]?.significance ?? 0, fams.FN[0]?.significance ?? 0);
  const neg = (fams.FN[0]?.significance ?? 0) > (fams['..'][0]?.significance ?? 0);
  const wrong = neg
    ? [...fams['..'].slice(0, 4), ...fams['F.'].slice(0, 4)]
    : [...fams['.N'].slice(0, 4), ...fams.FN.slice(0, 4)];
  const mir = (neg ? fams['.N'] : fams['F.'])[0]?.significance ?? 0;
  const c = chanceOf(
    best,
    wrong.map((v) => v.significance),
    mir,
  );
  top.push(c.log10P);

  console.log(
    x.n.padEnd(28),
    y.n.padEnd(28),
    'best',
    best.toFixed(1),
    'r',
    Math.max(fams['..'][0]?.correlation ?? 0, fams.FN[0]?.correlation ?? 0).toFixed(2),
    'mir',
    mir.toFixed(1),
    'loc',
    c.location.toFixed(1),
    's',
    c.spread.toFixed(2),
    'log10P',
    c.log10P.toFixed(1),
  );
}

import type { Face } from '../../../src/core/face/index.ts';
import { align, alignTarget } from '../../../src/core/fit/align.ts';
import { coarseDefaults, coarseSearch } from '../../../src/core/fit/coarse.ts';
import { type Candidate, distinct, searchDefaults as o } from '../../../src/core/fit/search.ts';
import { signalOf } from '../../../src/core/fit/signal.ts';

const long = ({ outline }: Face) => Math.max(outline.widthMm, outline.heightMm);
export function searchLists(a: Face, b: Face) {
  const sizeMm = Math.max(Math.min(long(a), long(b)), 0.65 * Math.max(long(a), long(b)));
  const lev = (across: number, from: number, to: number) => {
    const pitch = sizeMm / across;
    const widest = Math.max(...[a.detail, b.detail].map((g) => Math.max(g.width, g.height) * g.pitch));
    const cells = Math.round(Math.max(across * 1.25, Math.min(1.05 * (widest / pitch), 1.7 * across)));
    return [a.detail, b.detail].map((g) => signalOf(g, cells, pitch, from * sizeMm, to * sizeMm));
  };
  const t: number[] = [performance.now()];
  const coarse = lev(o.coarseAcross, o.coarseFrom, o.coarseTo);
  const fine = lev(o.fineAcross, o.fineFrom, o.fineTo);
  t.push(performance.now());
  const peaks = coarseSearch(coarse[0], coarse[1], coarseDefaults);
  t.push(performance.now());
  const [tc, tf] = [alignTarget(coarse[0]), alignTarget(fine[0])];
  const score = (f: ReturnType<typeof align>, w: number): Candidate => ({
    ...f,
    significance:
      Math.atanh(Math.max(-0.999, Math.min(0.999, f.correlation))) * Math.sqrt(Math.max(0, f.cells / w ** 2 - 3)),
  });
  const fams: Record<string, Candidate[]> = {};
  for (const flipX of [false, true])
    for (const negate of [false, true]) {
      const list = [...peaks.proper, ...peaks.reflected]
        .filter((p) => p.fit.flipX === flipX && p.fit.negate === negate)
        .slice(0, 16);
      const rough = distinct(
        list.map(({ fit }) => score(align(tc, coarse[1], fit, 8, 0.05), o.coarseAcross * o.coarseFrom)),
      );
      fams[`${flipX ? 'F' : '.'}${negate ? 'N' : '.'}`] = distinct(
        rough.slice(0, 6).map(({ fit }) => score(align(tf, fine[1], fit, 20, 0.01), o.fineAcross * o.fineFrom)),
      );
    }
  t.push(performance.now());
  return { fams, ms: t.slice(1).map((v, i) => (v - t[i]).toFixed(0)) };
}

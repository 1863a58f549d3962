import { readFileSync } from 'node:fs';
import { pairEvidence } from '../../../src/core/judge/evidence.ts';
import { fitBestFaces, prepareScan } from '../../../src/core/pipeline.ts';

const s = [];
for (const n of ['1-1', '1-2', '2-1']) {
  const t = performance.now();
  s.push(
    await prepareScan({
      name: `${n}.x3p`,
      bytes: new Uint8Array(readFileSync(`/work/shared/data/same-tool/fadul${n}_processed.x3p`)),
      sha256: () => '',
    }),
  );
  console.log('prep', performance.now() - t);
}
for (const [i, j] of [
  [0, 1],
  [0, 2],
  [1, 2],
]) {
  const t = performance.now();
  const f = fitBestFaces(s[i], s[j]);
  const t1 = performance.now();
  const e = pairEvidence(f.cut.reference.face, f.cut.subject.face, f.fit);
  console.log(
    f.fit.significance,
    f.fit.chance,
    f.fit.found,
    f.fit.rivalTurns.length,
    e.finding,
    e.weighed?.score,
    e.weighed?.interval,
    e.gates.filter((g) => !g.passed).map((g) => [g.code, g.value, g.limit]),
    'fit',
    (t1 - t).toFixed(0),
    'ev',
    (performance.now() - t1).toFixed(0),
  );
}

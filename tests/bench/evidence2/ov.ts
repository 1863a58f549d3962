import { readFileSync } from 'node:fs';
import { overlapsAt, searchFaces } from '../../../src/core/fit/index.ts';
import { prepareScan } from '../../../src/core/pipeline.ts';

const s = [];
for (const n of ['1-1', '1-2', '2-1'])
  s.push(
    await prepareScan({
      name: `${n}.x3p`,
      bytes: new Uint8Array(readFileSync(`/work/shared/data/same-tool/fadul${n}_processed.x3p`)),
      sha256: () => '',
    }),
  );
for (const [i, j] of [
  [0, 1],
  [0, 2],
]) {
  const q = searchFaces(s[i].face, s[j].face);
  console.log(
    q.best.correlation.toFixed(2),
    'n',
    (q.best.cells / 7.84).toFixed(0),
    'overlap',
    q.best.overlap.toFixed(2),
    q.best.fit,
    'size',
    q.sizeMm,
    s[i].face.outline.widthMm,
    s[i].face.filled,
    s[i].face.holes,
  );
  console.log(
    overlapsAt(
      s[i].face.detail,
      s[j].face.detail,
      q.sizeMm,
      [0, 1, 2, 3, 4, 5, 6].map((v) => v),
    )
      .map((v) => v.toFixed(0))
      .join(' '),
    'self',
    overlapsAt(s[i].face.detail, s[i].face.detail, q.sizeMm, [0])
      .map((v) => v.toFixed(0))
      .join(' '),
  );
  console.log(q.rivals.map((r) => [r.cells / 7.84, r.correlation, r.fit.tx, r.fit.ty]));
}

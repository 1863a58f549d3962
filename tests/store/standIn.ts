import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { ScanInput } from '../../src/core/pipeline.ts';
import type { FaceSearch } from '../../src/store/search.ts';
import type { Tools } from '../../src/store/steps.ts';

/** Stands in for the index: puts the faces of most like size forward, likely where they differ by less than 5 %. */
export const bySize: FaceSearch = {
  version: 1,
  index: ({ outline }) => {
    const global = new Uint8Array(Float64Array.of(outline.widthMm).buffer);
    return { version: 1, global, local: global };
  },
  find: (query, { count, bytes }, localOf, want) => {
    const width = (at: Uint8Array): number => new Float64Array(at.slice().buffer)[0];
    return Array.from({ length: count }, (_, index) => {
      if (width(localOf(index)) !== width(bytes.subarray(8 * index, 8 * index + 8)))
        throw new Error('not its local form');
      const apart = Math.abs(width(query.global) / width(localOf(index)) - 1);
      return { index, score: -apart, likely: apart < 0.05, why: {} };
    })
      .sort((a, b) => b.score - a.score || a.index - b.index)
      .slice(0, want);
  },
};

/** Tools for tests: files are read as they lie, pictures are a few bytes. */
export const standIn: Tools = {
  search: bySize,
  read: ({ path, kind, unit }): ScanInput => ({
    name: basename(path),
    bytes: readFileSync(path),
    sha256: (bytes) => createHash('sha256').update(bytes).digest('hex'),
    kind: kind as ScanInput['kind'],
    unit: (unit ?? undefined) as ScanInput['unit'],
  }),
  picture: ({ scan }) => new TextEncoder().encode(scan.name),
  tool: 'test',
};

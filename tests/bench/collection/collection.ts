import { appendFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { indexFace } from '../../../src/core/collection/index.ts';
import { makeCollection } from '../../populations/collection.ts';
import { tableOf as printed } from '../table.ts';
import { indexedCollections } from './indexed.ts';
import { recallRows, searchAll } from './recall.ts';
import { groupRows } from './simulatedGroups.ts';
import { sizeRows } from './sizes.ts';
import { type Trial, triedRows } from './tried.ts';

/** Search and groups of `count` simulated collections from seed `from`, all searched as one; printed and appended to results.md. */
export function collection(count: number, from: number, sizes: readonly number[]): void {
  const say = (line: string): void => void process.stderr.write(`${line}\n`);
  const { objects, secondsEach } = indexedCollections(from, count, say);
  const searched = searchAll(objects, say);
  // Groups are made within each collection, which is searched by itself.
  const collections = [...new Set(objects.map(({ seed }) => seed))].map((seed) =>
    objects.filter((object) => object.seed === seed),
  );
  const alone = collections.map((own) => searchAll(own, say));
  const rows = [
    { what: 'indexing a prepared face', floor: '', measured: `${secondsEach.toFixed(3)} s of CPU` },
    ...recallRows(objects, searched),
    ...groupRows(collections, alone, false),
    ...groupRows(collections, alone, true),
    ...sizeRows(
      objects.map(({ index }) => index),
      sizes,
      say,
    ),
  ];
  const text = [
    `## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, ${count} collections from seed ${from}: ${objects.length} faces in one table`,
    '',
    `Node ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model.trim()}. Second generator, about 170 cells across a face.`,
    '',
    printed(rows),
    '',
  ].join('\n');
  process.stdout.write(`${text}\n`);
  appendFileSync('tests/bench/results.md', `\n${text}`);
}

/** Global forms alone against each other, on collections whose faces are all kept. */
export function collectionTried(count: number, from: number, step: number): void {
  const trials = Array.from({ length: count }, (_, k) => makeCollection(from + k)).flatMap((objects) =>
    objects.map((object): Trial => {
      const face = object.face();
      return { ...object, face, index: indexFace(face) };
    }),
  );
  process.stdout.write(`${printed(triedRows(trials, step))}\n`);
}

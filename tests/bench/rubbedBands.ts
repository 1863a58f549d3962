import { appendFileSync } from 'node:fs';
import { findLegendBand } from '../../src/core/design/index.ts';
import { bandError, isFound } from './bandTruth.ts';
import { quantileOf, share, tableOf } from './table.ts';
import { wornSeal } from './wornSeals.ts';

/**
 * `npm run bench -- rubbed-bands FROM COUNT`: legend bands of rubbed seals of the first generator, seeds FROM to FROM + COUNT − 1, as
 * `reading` makes and judges them, without the readers.
 */
export async function rubbedBands(from: number, count: number): Promise<void> {
  const middles: number[] = [];
  let found = 0;
  for (let seed = from; seed < from + count; seed++) {
    const seal = await wornSeal(seed);
    const band = findLegendBand(seal.prepared.face);
    const error = band && bandError(seal, band);
    middles.push(error?.middleMm ?? Number.POSITIVE_INFINITY);
    if (error && isFound(error, seal)) found++;
    else
      process.stderr.write(
        `missed ${seed} ${seal.shape} ${seal.kind}, confidence ${band?.confidence.toFixed(2) ?? 'none'}, middle line off by ${error?.middleMm.toFixed(2)} mm\n`,
      );
  }
  const near = middles.filter((mm) => mm <= 0.1).length;
  const rows = [
    { what: 'legend band found', floor: '97 of 100', measured: share(found, count) },
    { what: 'middle line within 0.1 mm (median of its points)', floor: '97 of 100', measured: share(near, count) },
    { what: 'median of that', floor: '–', measured: `${quantileOf(middles, 0.5).toFixed(3)} mm` },
  ];
  const text = `## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, legend bands, rubbed seals of the first generator, seeds ${from} to ${from + count - 1}\n\n${tableOf(rows)}\n`;
  process.stdout.write(`${text}\n`);
  appendFileSync('tests/bench/results.md', `\n${text}`);
}

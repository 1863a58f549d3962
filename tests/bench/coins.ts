import { readFileSync } from 'node:fs';
import { modelOf } from '../../src/core/fit/index.ts';
import { comparePrepared, type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { accidents, castOf } from './evidence2/casts.ts';
import { type Row, share } from './table.ts';

/** mm a cell and mm a unit of height of the two, from the README beside them. */
const coins = {
  dime: { pixelSize: 0.0631887, heightStep: 1 },
  euro: { pixelSize: 0.03836, heightStep: 1 },
} as const;

/**
 * `npm run bench -- coins [SEED]`: two real coins (source in their README) against each other, and against two casts of each with each accident,
 * made of their own scans: turned over, shrunk, bent, noised, a part lost.
 */
export async function coinRows(folder: string, firstSeed: number, say: (line: string) => void): Promise<Row[]> {
  const scans = { dime: await coinOf(folder, 'dime'), euro: await coinOf(folder, 'euro') };
  const unlike = comparePrepared(scans.dime, scans.euro).judgement.finding;
  const told: { finding: string; apart: number }[] = [];
  for (const [name, scan] of Object.entries(scans))
    for (const accident of accidents)
      for (const seed of [firstSeed, firstSeed + 1]) {
        const cast = await castOf(scan, accident, seed);
        const { judgement, fit } = comparePrepared(scan, cast.scan);
        // Of the fit alone: a scan and the cast made of it share their scale.
        const { scale, scaleSd } = modelOf(fit, 'oneScale');
        const apart = (1 / scale - cast.size) / (scaleSd / scale ** 2);
        told.push({ finding: judgement.finding, apart });
        say(
          `${name}, ${accident}, ${seed}: ${judgement.finding} ${judgement.score.toFixed(1)}, size off by ${apart.toFixed(2)} σ`,
        );
      }
  return [
    { what: 'two coins: their designs are not one', floor: 'another design', measured: unlike },
    {
      what: 'casts of each with accidents: supported',
      floor: 'all',
      measured: share(told.filter(({ finding }) => finding === 'supported').length, told.length),
    },
    {
      what: '… size within 2 σ of the fit’s own',
      floor: 'all',
      measured: share(told.filter(({ apart }) => Math.abs(apart) <= 2).length, told.length),
    },
  ];
}

const coinOf = (folder: string, name: keyof typeof coins): Promise<PreparedScan> =>
  prepareScan({
    name: `${name}.tif`,
    bytes: new Uint8Array(readFileSync(`${folder}/coins/${name}.tif`)),
    unit: 'mm',
    ...coins[name],
    sha256: () => '',
  });

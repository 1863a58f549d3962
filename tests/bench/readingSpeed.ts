import { emptyGrid, type HeightGrid, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';
import { lightPrepared, openness, type PreparedLight, prepareLight, skyView } from '../../src/core/read/index.ts';
import type { Row } from './table.ts';

/** Raking light and sky view on 4 megapixels: processor time of one thread, best of several. */
export function readingSpeedRows(): Row[] {
  const grid = fourMegapixels();
  let prepared: PreparedLight | undefined;
  const preparing = bestOf(2, () => {
    prepared = prepareLight(grid);
  });
  const out = new Uint8ClampedArray(grid.z.length);
  let turn = 0;
  const frame = bestOf(12, () => {
    if (prepared) lightPrepared(prepared, [{ azimuthDeg: 37 * turn++, heightDeg: 20 }], out);
  });
  const sky = bestOf(3, () => void skyView(grid, { radiusMm: 2 }));
  const open = bestOf(2, () => void openness(grid, { radiusMm: 2 }));
  const ms = (value: number): string => `${value.toFixed(0)} ms`;
  return [
    {
      what: 'raking light, 4 megapixels, one frame',
      floor: 'at most 60 ms',
      measured: `${ms(frame)} (normals before the first: ${ms(preparing)})`,
    },
    {
      what: 'sky view within 2 mm (50 cells), 4 megapixels',
      floor: 'at most 3 s',
      measured: `${(sky / 1000).toFixed(2)} s (openness ${(open / 1000).toFixed(2)} s)`,
    },
  ];
}

/** Processor time, ms: a busy machine makes the clock tell of others. */
function bestOf(times: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k < times; k++) {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** Waves as steep as lettering with a little noise, 80 × 80 mm at 0.04 mm. */
function fourMegapixels(): HeightGrid {
  const random = seededRandom(3);
  const grid = emptyGrid(-40, 40, -40, 40, 0.04);
  for (let i = 0; i < grid.z.length; i++) {
    const x = xOf(grid, i % grid.width);
    const y = yOf(grid, Math.floor(i / grid.width));
    const letters = 0.3 * Math.max(0, Math.sin(2.1 * x) * Math.sin(1.7 * y));
    grid.z[i] = letters + 0.2 * Math.max(0, Math.sin(5 * x + 2 * y)) + 0.005 * random.normal();
    grid.mask[i] = 1;
  }
  return grid;
}

import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { readScan } from '../../src/core/scan/index.ts';
import { makeTiff, type Sample, type TiffRecipe } from './tiffMaker.ts';

const scale = { pixelSize: 1, heightStep: 1, sha256: () => '' };
const [width, height] = [37, 23];
const random = seededRandom(4);
/** Slopes, steps and repeats, so that every way of packing has something to do. */
const values = Float64Array.from({ length: width * height }, (_, i) =>
  i % 5 === 0 ? 1000 : Math.round((i % width) * 37 + random.below(40) * (i % 3)),
);
const negative = values.map((value) => value - 900);

async function heights(bytes: Uint8Array): Promise<number[]> {
  const { mesh } = await readScan(bytes, 'a.tif', scale);
  return Array.from(
    mesh.positions.filter((_, i) => i % 3 === 2),
    (z) => Math.round(z + mesh.offset[2]),
  );
}

const samples: readonly Sample[] = ['1/16', '1/32', '2/16', '2/32', '3/32', '3/64'];
const ways: ReadonlyArray<readonly [string, Partial<TiffRecipe>]> = [
  ['plain', {}],
  ['of the other byte order', { little: false }],
  ['BigTIFF', { big: true }],
  ['BigTIFF of the other byte order', { big: true, little: false }],
  ['in tiles that reach over the edge', { tile: 16 }],
  ['with LZW', { compression: 5 }],
  ['with LZW, all in one strip', { compression: 5, rows: 64 }],
  ['with deflate', { compression: 8 }],
  ['with PackBits', { compression: 32773 }],
  ['with PackBits in tiles', { compression: 32773, tile: 16 }],
  ['with deflate and differences', { compression: 8, predictor: 2 }],
  ['with LZW and differences, the other byte order', { compression: 5, predictor: 2, little: false }],
];

describe('TIFF heights', () => {
  describe.each(samples)('sample %s', (sample) => {
    const stored = sample.startsWith('1') ? values : negative;
    it.each(ways)('%s: the numbers as they were written', async (_, way) => {
      if (way.predictor === 2 && sample === '3/64') return;
      expect(await heights(makeTiff({ width, height, values: stored, sample, ...way }))).toEqual([...stored]);
    });
  });

  it.each<[Sample, boolean, number | undefined]>([
    ['3/32', true, undefined],
    ['3/32', false, undefined],
    ['3/64', true, undefined],
    ['3/32', true, 16],
  ])('floats %s with the bytes in planes (predictor 3), little-endian %s, tile %s', async (sample, little, tile) => {
    const bytes = makeTiff({ width, height, values: negative, sample, little, tile, compression: 8, predictor: 3 });
    expect(await heights(bytes)).toEqual([...negative]);
  });

  it('white as the least (photometric 0) changes the look, not the numbers', async () => {
    for (const sample of ['1/16', '3/32'] as const)
      expect(await heights(makeTiff({ width, height, values, sample, fields: [[262, 0]] }))).toEqual([...values]);
  });

  it('a picture stored from the bottom or from the right is set upright; one on its side is refused', async () => {
    const rows = (order: readonly number[], turned: boolean) =>
      order.flatMap((row) => {
        const cells = [...values.subarray(row * width, row * width + width)];
        return turned ? cells.reverse() : cells;
      });
    const down = Array.from({ length: height }, (_, row) => row);
    const up = [...down].reverse();
    const turnedBy = (turn: number) =>
      heights(makeTiff({ width, height, values, sample: '1/16', fields: [[274, turn]] }));
    expect(await turnedBy(2)).toEqual(rows(down, true));
    expect(await turnedBy(3)).toEqual(rows(up, true));
    expect(await turnedBy(4)).toEqual(rows(up, false));
    await expect(turnedBy(6)).rejects.toMatchObject({ code: 'unsupported' });
  });

  it.each<[string, ReadonlyArray<readonly [number, number]>, string]>([
    ['with a palette', [[262, 3]], 'unsupported'],
    ['in colours', [[262, 2]], 'unsupported'],
    ['of several channels', [[277, 3]], 'unsupported'],
    ['of 8 bits', [[258, 8]], 'unsupported'],
    ['packed as JPEG', [[259, 7]], 'unsupported'],
    ['with strips longer than the file', [[279, 1e9]], 'malformed'],
    ['of no width', [[256, 0]], 'malformed'],
    ['far wider than its bytes', [[256, 2 ** 25]], 'tooLarge'],
    ['with bits in the other order', [[266, 2]], 'unsupported'],
  ])('%s are refused', async (_, fields, code) => {
    const bytes = makeTiff({ width, height, values, sample: '1/16', rows: 64, fields });
    await expect(readScan(bytes, 'a.tif', scale)).rejects.toMatchObject({ name: 'ScanError', code });
  });

  it('without a page, or with a directory that is cut short, is refused', async () => {
    const header = Uint8Array.from([0x49, 0x49, 42, 0, 0, 0, 0, 0]);
    await expect(readScan(header, 'a.tif', scale)).rejects.toMatchObject({ code: 'noTriangles' });
    const whole = makeTiff({ width, height, values, sample: '3/32' });
    for (const length of [8, 9, 20, 100, whole.length - 1])
      await expect(readScan(whole.slice(0, length), 'a.tif', scale)).rejects.toMatchObject({ code: 'malformed' });
  });
});

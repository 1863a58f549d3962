import { deflateSync } from 'node:zlib';
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { writePng } from '../../src/core/report/drawing/writePng.ts';

const random = seededRandom(77);

describe('pixels as PNG', () => {
  it('are read back by a library as they were, its checksums right, with its own deflate and another', () => {
    for (const channels of [1, 3, 4] as const)
      for (const [width, height] of [
        [1, 1],
        [7, 3],
        [130, 61],
      ])
        for (const deflate of [undefined, deflateSync]) {
          const data = Uint8Array.from({ length: width * height * channels }, () => random.below(256));
          const back = decode(writePng({ width, height, channels, data, description: 'Très net' }, deflate), {
            checkCrc: true,
          });
          expect([back.width, back.height, back.channels, back.depth]).toEqual([width, height, channels, 8]);
          expect([...back.data]).toEqual([...data]);
          expect(back.text.Description).toBe('Très net');
        }
  });

  it('may be indices of colours, clear ones among them', () => {
    const palette = [
      [0, 0, 0, 0],
      [10, 20, 30, 255],
    ];
    const back = decode(writePng({ width: 2, height: 1, channels: 1, data: Uint8Array.of(1, 0), palette }), {
      checkCrc: true,
    });
    expect([...back.data]).toEqual([1, 0]);
    expect(back.palette).toEqual(palette);
  });
});

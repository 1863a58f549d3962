import { describe, expect, it } from 'vitest';
import { ringMargin, ringRows } from '../../src/core/design/legend/ringPicture.ts';
import { arcOver } from '../../src/core/design/legend/strokesOver.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';

const [width, height] = [60 * ringRows, ringRows + 2 * ringMargin];

/** Upright strokes by chance between both edges; beyond the inner one from column `from` on they run on along `share` of the round, else `beyond` stands there. */
function ring(from: number, share: number, beyond: (random: { normal(): number }) => number): HeightGrid {
  const random = seededRandom(5);
  const column = Float32Array.from({ length: width }, () => random.normal());
  const z = new Float32Array(width * height);
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const on = r >= ringMargin && (r < ringMargin + ringRows || (c + width - from) % width < share * width);
      z[r * width + c] = on ? column[c] + 0.3 * random.normal() : beyond(random);
    }
  return { width, height, pitch: 0.2, left: 0, top: 0, z, mask: new Uint8Array(z.length).fill(1) };
}

describe('the arc along which strokes run on over an edge', () => {
  it.each([0, 0.2, 0.35, 0.7, 1])('is %d of the round where they do so along that, wherever it begins', (share) => {
    for (const from of [0, 200, 500]) {
      const picture = ring(from, share, (random) => random.normal());
      expect(Math.abs(arcOver(picture, 'inner') - share)).toBeLessThan(0.06);
      expect(arcOver(picture, 'outer')).toBeLessThan(0.06);
    }
  });

  it('is none over a border line, over bare ground, or where nothing was scanned', () => {
    expect(
      arcOver(
        ring(0, 0, () => 1.5),
        'inner',
      ),
    ).toBeLessThan(0.06);
    expect(
      arcOver(
        ring(0, 0, () => 0),
        'inner',
      ),
    ).toBe(0);
    const bare = ring(0, 1, () => 0);
    expect(arcOver({ ...bare, mask: new Uint8Array(bare.z.length) }, 'inner')).toBe(0);
  });
});

import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { readScan, sha256 } from '../../src/core/scan/index.ts';
import { ball, binaryStl, bytesOf } from './shapes.ts';

describe('SHA-256', () => {
  it('of "abc" is as published (FIPS 180-4, example)', () =>
    expect(sha256(bytesOf('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'));

  it("agrees with Node's for every length around a block", () => {
    const random = seededRandom(1);
    for (let length = 0; length < 200; length++) {
      const bytes = Uint8Array.from({ length }, () => random.below(256));
      expect(sha256(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
    }
  });

  it('is of the bytes as given, not as read', async () => {
    const bytes = binaryStl(ball(3));
    const expected = createHash('sha256').update(bytes).digest('hex');
    expect((await readScan(bytes, 'a.stl')).sha256).toBe(expected);
    expect((await readScan(bytes, 'a.stl', { sha256: async () => 'handed in' })).sha256).toBe('handed in');
  });
});

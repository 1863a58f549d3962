import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { saysSimulated } from '../../src/core/scan/simulated.ts';

const sample = (name: string): Uint8Array => readFileSync(new URL(`../../sample-scans/${name}`, import.meta.url));
const text = (words: string): Uint8Array => new TextEncoder().encode(words);

describe('saysSimulated', () => {
  it('hears it from the sample scans of both formats', () => {
    expect(saysSimulated(sample('averholt-matrix.glb'), 'gltf')).toBe(true);
    expect(saysSimulated(sample('odric-impression.ply'), 'ply')).toBe(true);
  });

  it('hears it from nothing else', () => {
    expect(saysSimulated(text('{"asset":{"version":"2.0"},"nodes":[{"extras":{"simulated":true}}]}'), 'gltf')).toBe(
      false,
    );
    expect(saysSimulated(text('{"asset":{"version":"2.0","extras":{"simulated":false}}}'), 'gltf')).toBe(false);
    expect(saysSimulated(text('ply\ncomment not simulated\nend_header\ncomment simulated'), 'ply')).toBe(false);
    expect(saysSimulated(text('comment simulated'), 'stl')).toBe(false);
  });
});

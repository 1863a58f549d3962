import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { calibrationSchemaName, knownScores } from '../../src/cli/known.ts';

const file = (content: unknown): string => {
  const path = join(mkdtempSync(join(tmpdir(), 'known-')), 'calibration.json');
  writeFileSync(path, JSON.stringify(content));
  return path;
};
const scores = { name: 'two pairs', same: [6.1], different: [-3.2] };

describe('scores of known pairs', () => {
  it('are read as calibrate writes them', () => {
    expect(knownScores(file({ schema: calibrationSchemaName, ...scores }))).toMatchObject(scores);
    expect(knownScores(undefined)).toBeUndefined();
  });

  it('of an earlier version are refused, since they are on another scale', () => {
    expect(() => knownScores(file({ schema: 'ectype/calibration/1', ...scores }))).toThrow(
      /run ectype calibrate again/,
    );
  });

  it('that are something else are refused', () => {
    expect(() => knownScores(file({ ...scores }))).toThrow(/not a file that ectype calibrate wrote/);
  });
});

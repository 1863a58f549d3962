import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makeSamples } from '../../sample-scans/generator/node.ts';
import type { SampleIndex, SampleStory } from '../../sample-scans/generator/samples/index.ts';
import { readScan } from '../../src/core/scan/index.ts';

const folder = 'sample-scans';
const bytesOf = (file: string): Uint8Array => new Uint8Array(readFileSync(`${folder}/${file}`));
const index = JSON.parse(readFileSync(`${folder}/samples.json`, 'utf8')) as SampleIndex;
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

describe('the sample scans', () => {
  it('are what the generator makes, byte for byte, and together at most 10 MB', async () => {
    const made = await makeSamples();
    let total = 0;
    for (const [file, bytes] of made) {
      total += bytes.length;
      expect(`${file} ${sha256(bytes)}`).toBe(`${file} ${sha256(bytesOf(file))}`);
    }
    expect(total).toBeLessThan(10e6);
  }, 300_000);

  it('are read by the project’s own reader, with the unit where the file gives one', async () => {
    for (const entry of index.samples) {
      const scan = await readScan(bytesOf(entry.file), entry.file);
      expect(scan.unitInFile).toBe(entry.unitStated ? 'm' : undefined);
      expect(scan.triangles).toBeGreaterThan(40_000);
    }
  }, 60_000);

  it('say that they are simulated, in the index, in every file and in the read-me', () => {
    expect(index.simulated).toBe(true);
    const readMe = readFileSync(`${folder}/README.md`, 'utf8');
    for (const { file } of index.samples) {
      expect(Buffer.from(bytesOf(file).subarray(0, 2_000)).toString('latin1')).toContain('simulated');
      expect(readMe).toContain(`\`${file}\``);
    }
  });

  it('have a story whose marks only grow in number, told of files that exist', () => {
    const story = JSON.parse(readFileSync(`${folder}/story.json`, 'utf8')) as SampleStory;
    const files = new Set(index.samples.map(({ file }) => file));
    const named = [
      ...story.objects.flatMap(({ file, from }) => (from ? [file, from] : [file])),
      ...story.lost.flatMap(({ file, repeatedBy }) => [file, ...repeatedBy]),
      ...story.otherMatrix,
    ];
    for (const file of named) expect(files.has(file), file).toBe(true);
    for (const { state, marks } of story.objects)
      expect(marks).toEqual(story.marks.filter(({ sinceState }) => sinceState <= state).map(({ id }) => id));
    // A copy shows the state that its original shows.
    for (const { from, state } of story.objects)
      if (from) expect(story.objects.find(({ file }) => file === from)?.state).toBe(state);
  });

  it('pair only files that exist', () => {
    const files = new Set(index.samples.map(({ file }) => file));
    for (const { reference, subject } of [...index.pairs, index.opening]) {
      expect(files.has(reference) && files.has(subject)).toBe(true);
      expect(existsSync(`${folder}/${reference}`)).toBe(true);
    }
    for (const { earlier, later } of index.dates) expect(files.has(earlier) && files.has(later)).toBe(true);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { SampleStory } from '../sample-scans/generator/samples/index.ts';
import { keptOf } from '../src/cli/together.ts';
import { judgeTogether } from '../src/core/condition/index.ts';
import { type Comparison, comparePrepared, type PreparedScan, prepareScan } from '../src/core/pipeline.ts';
import { contradictionsOf } from './condition/states/contradictions.ts';
import {
  contradictionRow,
  descentRow,
  lossRow,
  orderRows,
  pairRows,
  type StoryRow,
  shortOf,
  storyOnSubject,
} from './storyRows.ts';

const folder = new URL('../sample-scans/', import.meta.url);
const story = JSON.parse(readFileSync(new URL('story.json', folder), 'utf8')) as SampleStory;

const prepared = new Map<string, Promise<PreparedScan>>();
const scanOf = (file: string): Promise<PreparedScan> => {
  const known = prepared.get(file);
  if (known) return known;
  const scan = prepareScan({ name: file, bytes: new Uint8Array(readFileSync(new URL(file, folder))) });
  prepared.set(file, scan);
  return scan;
};

/** How true to scale the samples are, %: their generator wrote them, and only stated scales let size decide. */
const scalePercent = 0.1;
const stated = (scan: PreparedScan): PreparedScan => ({
  ...scan,
  scaleUncertaintyPercent: scalePercent,
  scaleUncertaintyFrom: 'stated',
});

const compareStated = async (reference: string, subject: string): Promise<Comparison> =>
  comparePrepared(stated(await scanOf(reference)), stated(await scanOf(subject)));

const compare = async (reference: string, subject: string): Promise<Comparison> =>
  comparePrepared(await scanOf(reference), await scanOf(subject));

const matrix = 'averholt-matrix.glb';
const positives = story.objects.filter(({ made }) => made === 'impression' || made === 'cast').map(({ file }) => file);

const compared: Comparison[] = [];
for (const file of positives) compared.push(await compare(matrix, file));
const joined = judgeTogether(compared.map(keptOf));

async function rowsOfStory(): Promise<StoryRow[]> {
  const rows = compared.flatMap((comparison, k) => pairRows(story, matrix, positives[k], comparison));
  rows.push(...orderRows(story, positives, joined), contradictionRow(joined));
  const [good, worn] = [positives[0], positives[1]];
  rows.push(...pairRows(storyOnSubject(story, compared[0]), good, worn, await compare(good, worn)));
  for (const { file, share, repeatedBy } of story.lost)
    for (const each of [file, ...repeatedBy]) rows.push(lossRow(share, each, compared[positives.indexOf(each)]));
  for (const { file, from } of story.objects)
    if (from) rows.push(descentRow(file, from, await compareStated(from, file)));
  for (const file of story.otherMatrix) {
    const { finding } = (await compare(matrix, file)).judgement;
    rows.push({ id: `${shortOf(file)}: another matrix`, told: finding === 'against', said: finding });
  }
  return rows;
}

describe('the story of the sample scans', () => {
  it('is told by the whole pipeline, row for row', async () => {
    const rows = await rowsOfStory();
    expect(new Set(rows.map(({ id }) => id)).size).toBe(rows.length);
    expect(
      rows.filter(({ told }) => !told),
      'rows that are not told',
    ).toEqual([]);
    expect(rows.length).toBe(36);
  }, 600_000);

  it('is joined without contradicting the pairs it was joined from', () => {
    expect(
      contradictionsOf(
        joined,
        compared.map(({ judgement }) => judgement.state),
      ),
    ).toEqual([]);
  });
});

import { chanceFor, subSeed } from '../chance.ts';
import type { Design } from '../design.ts';
import type { HandOf } from '../hands.ts';
import { asFile, type ScanChoice, scanFaults, scanObject } from '../scanned.ts';
import type { GeneratedScan } from '../types.ts';
import { type SampleEntry, type SampleIndex, sampleEntries, suggestedDates, suggestedPairs } from './catalogue.ts';
import { toGlb } from './glb.ts';
import { toPly } from './ply.ts';
import { type ObjectName, priorySeals, type Scenario } from './scenario.ts';
import { storyOf } from './story.ts';

export type { SampleEntry, SampleIndex } from './catalogue.ts';
export type { SampleStory } from './story.ts';

const seed = 7412;

/** How each object is scanned: whole or face alone, how broken, bent and dense. */
const scans: Readonly<Record<Exclude<ObjectName, 'odricCounterseal'>, Partial<ScanChoice>>> = {
  matrix: { whole: true, handle: 'fin', vertices: 110_000 },
  goodImpression: { whole: true, marginMm: 7, warpMm: 0.12, vertices: 120_000 },
  wornImpression: { warpMm: 0.25, marginMm: 1.2, coverage: 0.93, vertices: 80_000, style: 'thinned' },
  testImpression: { warpMm: 0.05, marginMm: 1.5, vertices: 80_000 },
  castOfWorn: { warpMm: 0.25, marginMm: 1.2, coverage: 0.93, vertices: 80_000, style: 'swaths' },
  otherMatrixImpression: { warpMm: 0.15, marginMm: 2, vertices: 80_000, style: 'thinned' },
  recastMatrix: { whole: true, handle: 'none', vertices: 90_000, style: 'swaths' },
  odricMatrix: { whole: true, handle: 'cone', vertices: 50_000 },
  odricImpression: { warpMm: 0.05, marginMm: 0.2, vertices: 28_000 },
  odricLater: { warpMm: 0.05, marginMm: 0.2, vertices: 28_000 },
  hospitalImpression: { whole: true, marginMm: 4, warpMm: 0.15, vertices: 110_000 },
};

/** All sample scans by file name, with `samples.json` and `story.json`. The same bytes every time. */
export async function makeSamples(handOf: HandOf): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  const scenario = priorySeals(handOf);
  for (const entry of sampleEntries) {
    const scan = scanSample(scenario, entry.object);
    const note = `${entry.title}. ${entry.description}`.replaceAll(/[^\x20-\x7e]/g, "'");
    files.set(entry.file, entry.file.endsWith('.ply') ? toPly(scan, note) : await toGlb(scan, note));
  }
  const index: SampleIndex = {
    simulated: true,
    samples: sampleEntries.map(publicEntry),
    opening: { reference: suggestedPairs[0].reference, subject: suggestedPairs[0].subject },
    pairs: suggestedPairs,
    dates: suggestedDates,
  };
  files.set('samples.json', asJson(index));
  files.set('story.json', asJson(storyOf(scenario, (object) => scans[object].coverage ?? 1)));
  return files;
}

const asJson = (value: object): Uint8Array => new TextEncoder().encode(`${JSON.stringify(value, null, 2)}\n`);

function publicEntry({ object: _, ...entry }: SampleEntry & { object: ObjectName }): SampleEntry {
  return entry;
}

/** Whose bending and breakage an object repeats: the cast that of the worn impression, a later scan that of the same wax. */
const shapedAs: Partial<Record<ObjectName, ObjectName>> = {
  castOfWorn: 'wornImpression',
  odricLater: 'odricImpression',
};

function scanSample(scenario: Scenario, name: Exclude<ObjectName, 'odricCounterseal'>): GeneratedScan {
  const design = designOf(scenario, name);
  const own = subSeed(seed, name);
  const shapeSeed = subSeed(seed, shapedAs[name] ?? name);
  const random = chanceFor(own, 'scan');
  const choice: ScanChoice = {
    coverage: 1,
    warpMm: 0,
    whole: false,
    marginMm: 0.3,
    vertices: 80_000,
    style: 'even',
    handle: 'none',
    table: false,
    offsetMm: 60,
    mirrored: false,
    faults: { ...scanFaults(0.5, 0.009, design.sizeMm, random), doubledShare: 0, shuffled: false },
    ...scans[name],
    ...(name === 'hospitalImpression'
      ? { reverse: { relief: scenario.objects.odricCounterseal.relief, outline: scenario.odric.outline } }
      : {}),
  };
  return asFile(scanObject(scenario.objects[name], design, choice, own, shapeSeed), 'mm', false);
}

function designOf(scenario: Scenario, name: ObjectName): Design {
  if (name.startsWith('odric')) return scenario.odric;
  if (name === 'hospitalImpression') return scenario.hospital;
  return name === 'otherMatrixImpression' ? scenario.secondMatrix : scenario.priory;
}

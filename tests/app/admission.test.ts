import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { admit, parsedJson, Refusal } from '../../src/app/admission/admit.ts';
import { documentSchema } from '../../src/app/admission/documentSchema.ts';
import { admitSession, sessionSchema } from '../../src/app/admission/session.ts';
import { parseGlb, writeGlb } from '../../src/app/saved/glb.ts';
import { packComparison } from '../../src/app/saved/pack.ts';
import { type Unpacked, unpackComparison } from '../../src/app/saved/unpack.ts';
import { type Document, emptyDocument, restingView } from '../../src/app/state/document.ts';
import { needing, realData } from '../realData.ts';
import { mutatedGlb, mutateJson, randomOf } from './mutations.ts';
import { pictured } from './pictured.ts';

const fixture = (name: string): Uint8Array => new Uint8Array(readFileSync(join('tests/app/fixtures', name)));
const json = (name: string): unknown => JSON.parse(readFileSync(join('tests/app/fixtures', name), 'utf8'));

/** The file with its own part changed. */
function edited(bytes: Uint8Array, change: (ectype: never, gltf: never) => void): Uint8Array {
  const glb = parseGlb(bytes);
  if (!glb) throw new Error('no GLB');
  const gltf = glb.json as { asset: { extras: { ectype: unknown } } };
  change(gltf.asset.extras.ectype as never, gltf as never);
  return writeGlb({ json: gltf as unknown as Record<string, unknown>, binary: glb.binary });
}

/** Puts a value at a place. */
const put = (path: readonly string[], value: unknown) => (root: object) => {
  const inside = path.slice(0, -1).reduce((here, key) => (here as Record<string, object>)[key], root);
  (inside as Record<string, unknown>)[path.at(-1) ?? ''] = value;
};

async function opened(bytes: Uint8Array): Promise<Unpacked | null | Refusal> {
  try {
    return await unpackComparison(bytes, 'some file.glb', pictured);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
}

const refused = async (bytes: Uint8Array): Promise<string> => {
  const result = await opened(bytes);
  expect(result).toBeInstanceOf(Refusal);
  return (result as Refusal).message;
};

/** Whatever a file says, nothing of it stands where the tool's own findings stand. */
function expectNothingComputed(saved: Unpacked): void {
  for (const face of Object.values(saved.faces)) expect(face.fromFile).toMatch(/reduced|full/);
  if (!saved.comparison) return;
  expect(saved.comparison.judgement).toBeNull();
  expect(saved.comparison.stated).toBeDefined();
  expect(saved.comparison.fit.doubts).toEqual([]);
  expect(saved.comparison.fit.degenerate).toEqual([]);
  expect(saved.comparison.difference?.size.reading ?? []).toEqual([]);
}

describe.each(['saved-1.glb', 'saved-2.glb'])('a saved comparison, %s', (name) => {
  it('opens, its results as stated by the file', async () => {
    const saved = (await opened(fixture(name))) as Unpacked;
    expect(saved.document.scans.map(({ title }) => title)).toHaveLength(2);
    expect(saved.document.slides[0].question).toBe('Which came first?');
    expect(Object.keys(saved.faces)).toHaveLength(2);
    expectNothingComputed(saved);
    const stated = saved.comparison?.stated;
    expect(stated?.sentence).toBe('The matrix made the impression, or a faithful copy of it did.');
    expect(stated?.strength).toBe('strong (supported)');
    expect(stated?.limits.length).toBeGreaterThan(2);
    expect(stated?.ground.length).toBeGreaterThan(10);
    expect(stated?.marks[0]).toMatchObject({ id: 'M1', label: 'cut' });
    expect(stated?.marks[0].outline.length).toBeGreaterThan(3);
    expect(stated?.zones.length).toBeGreaterThan(3);
    expect(stated?.areas.length).toBeGreaterThan(3);
    // Written when the causes of what lies lower were told apart.
    const drawn = stated?.areas.map(({ zone, state }) => `${zone} ${state}`) ?? [];
    expect(drawn.filter((each) => each.endsWith(' lower')).length).toBeGreaterThan(0);
    expect(new Set(drawn).size).toBe(drawn.length);
    expect(saved.comparison?.difference?.map.width).toBeGreaterThan(20);
    expect(saved.comparison?.referenceFaceFromSubjectFace.oneScale?.scale).toBeCloseTo(1.00826, 4);
  });

  it('is saved again as it is', async () => {
    const saved = (await opened(fixture(name))) as Unpacked;
    const { document, faces, comparison } = saved;
    const again = (await opened(
      packComparison({ document, faces, comparison: comparison ?? undefined, reason: '' }),
    )) as Unpacked;
    expect(again.document).toEqual(document);
    expect(again.comparison?.stated).toEqual(comparison?.stated);
    expect(again.comparison?.key).toBe(comparison?.key);
    expect(again.comparison?.fit.models).toEqual(comparison?.fit.models);
  });

  it('opens without its results where they are damaged or of another version', async () => {
    const damaged = await opened(
      edited(fixture(name), (ectype: { results?: object; comparison?: object }) => {
        ectype.results = { schema: 'ectype/results/99', sentence: 'Surely.' };
        delete ectype.comparison;
      }),
    );
    expect((damaged as Unpacked).comparison).toBeNull();
    expect(Object.keys((damaged as Unpacked).faces)).toHaveLength(2);
  });

  it.each([
    ['no scans', ['document', 'scans'], null, 'document.scans'],
    ['no camera', ['document', 'view', 'camera'], null, 'camera'],
    ['a camera nowhere', ['document', 'view', 'camera', 'x'], 1e300, 'camera'],
    ['a later version', ['schema'], 'ectype/saved/7', 'later version'],
    ['a text without end', ['document', 'slides', '0', 'question'], 'x'.repeat(1e6), 'question'],
  ] as const)('is refused in one sentence that names it: %s', async (_, path, value, place) => {
    const words = await refused(edited(fixture(name), put(path, value)));
    expect(words).toContain('some file.glb');
    expect(words).toContain(place);
    expect(words).toMatch(/^[^\n]{20,300}\.$/);
  });

  it('is refused at once where it claims more than it holds', async () => {
    const claims: ((ectype: never, gltf: never) => void)[] = [
      (e: { faces: Record<string, { relief: object }> }) => {
        const face = Object.values(e.faces)[0];
        face.relief = { ...face.relief, width: 16_000, height: 16_000 };
      },
      // One part claimed twice.
      (e: { faces: Record<string, { relief: { view: number } }> }) => {
        const [a, b] = Object.values(e.faces);
        b.relief = { ...a.relief };
      },
      (_: unknown, g: { bufferViews: { byteLength: number }[] }) => {
        for (const view of g.bufferViews) view.byteLength = 4e9;
      },
      (e: { document: { ownMarks: unknown } }) => {
        e.document.ownMarks = Array.from({ length: 200_000 }, (_, i) => ({ id: `m${i}`, label: '', outline: [] }));
      },
    ];
    for (const claim of claims) expect(await refused(edited(fixture(name), claim as never))).toMatch(/not opened/);
    const marks = edited(fixture(name), (e: Record<string, { judgement?: object; stated?: object }>) => {
      const many = Array.from({ length: 200_000 }, (_, i) => ({
        id: `M${i}`,
        shape: 'cut',
        readings: [],
        outline: { floats: [] },
      }));
      if (e.comparison?.judgement) e.comparison.judgement = { ...e.comparison.judgement, damage: many };
      if (e.results?.stated) e.results.stated = { ...e.results.stated, marks: many };
    });
    const result = await opened(marks);
    expect(result).toBeInstanceOf(Refusal);
  });
});

describe('what is no saved comparison', () => {
  it.each(['assetnull', 'noasset', 'nulljson', 'badjson'])('is left to the reader of scans: %s', async (name) => {
    const texts = { assetnull: '{"asset":null}', noasset: '{"meshes":[]}', nulljson: 'null', badjson: '{"asset":{' };
    const text = new TextEncoder().encode(texts[name as keyof typeof texts].padEnd(16));
    const bytes = writeGlb({ json: {}, binary: new Uint8Array(0) }).slice(0, 20 + text.length);
    new DataView(bytes.buffer).setUint32(12, text.length, true);
    const glb = new Uint8Array(20 + text.length);
    glb.set(bytes.subarray(0, Math.min(bytes.length, glb.length)));
    glb.set(text, 20);
    expect(await opened(glb)).toBeNull();
  });

  const hostile = (name: string): Uint8Array | null => realData(`hostile/${name}.glb`);
  it.skipIf(!hostile('assetnull'))(needing('hostile', 'and hostile files are opened or refused'), async () => {
    const read = (name: string) => opened(hostile(name) ?? new Uint8Array(0));
    for (const name of ['assetnull', 'noasset', 'nulljson', 'badjson', 'gltf-dag', 'gltf-stride1'])
      expect(await read(name)).toBeNull();
    expect(await read('project-scans-null')).toBeInstanceOf(Refusal);
    expect(await read('project-view-camera-null')).toBeInstanceOf(Refusal);
    const forged = (await read('project-forged-finding')) as Unpacked;
    expectNothingComputed(forged);
    expect(forged.comparison?.stated?.sentence).toContain('FORGED');
  });
});

/** Every field filled. */
const whole: Document = {
  ...emptyDocument,
  scans: [
    {
      ...{ id: 'a', name: 'a.ply', title: 'A', simulated: true, opening: true, reduced: true },
      stated: {
        ...{
          unit: 'cm',
          pixelSize: 0.1,
          heightStep: 0.01,
          kind: 'matrix',
          material: 'brass',
          scaleUncertaintyPercent: 1,
        },
        ...{ sense: 'intaglio', toward: [0, 0, 1], upDeg: -3, candidate: 1 },
      } as Document['scans'][number]['stated'],
    },
    { id: 'b', name: 'b.ply', title: 'B', stated: {} },
  ],
  referenceId: 'a',
  subjectId: 'b',
  view: { ...restingView, section: [0, 1, 2, 3], rangeMm: 0.3, wear: 'legend' },
  marks: { M1: { label: 'The cut' } },
  ownMarks: [
    {
      id: 'o',
      label: 'mine',
      outline: [
        [0, 1],
        [1, 1],
        [1, 0],
      ],
    },
  ],
  leftOut: [
    {
      id: 'l',
      label: 'tag',
      why: 'a tag',
      by: 'A',
      own: true,
      outline: [
        [0, 1],
        [1, 1],
        [1, 0],
      ],
    },
  ],
  pairs: [{ id: 'p', reference: [1, 2], subject: null }],
  start: { from: 'turn', turnDeg: 20, scale: 1.01 },
  landmarks: [[1, 2]],
  conclusion: { text: 'So.', by: 'A', on: '2025-01-01' },
  slides: [{ id: 's', question: 'q', caption: 'c', view: restingView, reveals: true }],
  read: {
    ...emptyDocument.read,
    lamp: { azimuthDeg: 300, heightDeg: 20 },
    view: 'turnedOver',
    looks: [{ name: 'Own', steps: [{ do: 'smooth', wavelengthMm: 1 }] }],
    legends: {
      a: {
        ring: 0,
        rings: { 0: { outerMm: 1, innerMm: 5, startDeg: 10, facing: 'inward' } },
        transcription: {
          language: 'la',
          items: [{ kind: 'letter', text: 'S', state: 'clear', alongMm: 1 }],
          sources: [],
        },
        reader: 'Ada',
        aside: [{ name: 'Bo', transcription: { language: 'la', items: [], sources: [] } }],
      },
    },
    cards: { a: { title: 'Seal' } },
  },
};

describe('JSON of millions of values', () => {
  const many = Array.from({ length: 1e6 }, () => ({}));
  afterEach(() => vi.restoreAllMocks());

  it('is refused before it is parsed, in a saved comparison and in a session', async () => {
    const file = writeGlb({
      json: { asset: { version: '2.0', extras: { ectype: { schema: 'ectype/saved/2' } } }, many },
      binary: new Uint8Array(0),
    });
    const text = new TextEncoder().encode(JSON.stringify(many));
    const parse = vi.spyOn(JSON, 'parse');
    expect(await refused(file)).toMatch(/more than 400000 values and was not opened\.$/);
    expect(() => parsedJson(text, 'The file a.json')).toThrow(Refusal);
    expect(parse).not.toHaveBeenCalled();
  });

  it("of another program's GLB is left to the reader of scans, unparsed", async () => {
    const file = writeGlb({ json: { asset: { version: '2.0' }, many }, binary: new Uint8Array(0) });
    const parse = vi.spyOn(JSON, 'parse');
    expect(await opened(file)).toBeNull();
    expect(parse).not.toHaveBeenCalled();
  });
});

describe('a session of the browser', () => {
  it('of the first version opens', () => {
    const session = admitSession(json('session-1.json'));
    expect(session.schema).toBe(sessionSchema);
    expect(session.settings).toEqual({ scheme: 'dark', margin: true, step: 'finding' });
    expect(session.document.scans).toHaveLength(2);
    expect(admitSession(session)).toEqual(session);
  });

  it('loses no field', () => {
    expect(admit(documentSchema, whole, 'it')).toEqual(whole);
  });

  it('of before a field was there takes its resting value', () => {
    const { findingOpen: _a, slides: _b, read: _c, view: _d, ...older } = whole;
    const session = admitSession({ document: older, settings: {} });
    expect(session.document).toMatchObject({
      findingOpen: false,
      slides: [],
      read: emptyDocument.read,
      view: restingView,
    });
  });

  it('is refused in one sentence', () => {
    for (const bad of [
      null,
      3,
      'x',
      [],
      { document: null },
      { schema: 'ectype/session/9' },
      { document: { scans: {} } },
    ])
      expect(() => admitSession(bad)).toThrow(Refusal);
    const circle: Record<string, unknown> = { document: emptyDocument };
    circle.itself = circle;
    expect(() => admitSession(circle)).toThrow(Refusal);
  });
});

describe('mutations', () => {
  const seed = 20_251_128;

  it('of saved comparisons: opened or refused, never another error, never a finding as computed', {
    timeout: 300_000,
  }, async () => {
    let [whole, without, refusals] = [0, 0, 0];
    for (let i = 0; i < 2_000; i++) {
      const bytes = mutatedGlb(fixture(i % 2 ? 'saved-1.glb' : 'saved-2.glb'), randomOf(seed + i));
      const result = await opened(bytes).catch((error) => {
        throw new Error(`seed ${seed + i}: ${error}`);
      });
      if (result instanceof Refusal) {
        refusals++;
        expect(result.message).toMatch(/^[^\n]{20,400}\.$/);
      } else if (result) {
        if (result.comparison) whole++;
        else without++;
        expectNothingComputed(result);
      }
    }
    console.log(`2,000 mutated saved comparisons: ${whole} opened, ${without} without results, ${refusals} refused`);
    expect(whole).toBeGreaterThan(100);
    expect(refusals).toBeGreaterThan(100);
  });

  it('of sessions: opened or refused', { timeout: 120_000 }, () => {
    let [admitted, refusals] = [0, 0];
    const sources = [json('session-1.json'), { schema: sessionSchema, document: whole, settings: {} }];
    for (let i = 0; i < 2_000; i++) {
      try {
        admitSession(mutateJson(structuredClone(sources[i % 2]), randomOf(seed + i)));
        admitted++;
      } catch (error) {
        if (!(error instanceof Refusal)) throw new Error(`seed ${seed + i}: ${error}`);
        refusals++;
      }
    }
    console.log(`2,000 mutated sessions: ${admitted} opened, ${refusals} refused`);
    expect(admitted).toBeGreaterThan(100);
    expect(refusals).toBeGreaterThan(100);
  });
});

import { describe, expect, it, vi } from 'vitest';
import { findLegendBand } from '../../src/core/design/index.ts';
import { identity } from '../../src/core/geometry/index.ts';
import type { Comparison, PreparedScan } from '../../src/core/pipeline.ts';
import { applyLook, light, standardLooks, unroll } from '../../src/core/read/index.ts';
import type { ScanOrder } from '../../src/workers/browser/protocol.ts';
import { openReading } from '../../src/workers/browser/reading.ts';
import type { ReadingHost } from '../../src/workers/browser/readingHost.ts';
import { engravedFace } from '../read/engravedFace.ts';

// Bands are searched for several times over; a busy machine takes its time.
vi.setConfig({ testTimeout: 180_000 });

const told = (): void => undefined;
/** Three states of wear of one matrix's legend, in one frame. */
const faces = [0, 0.4, 0.7].map((wear) => {
  const { face } = engravedFace(29, { shape: 'round', sense: 'relief', sizeMm: 40, wear });
  const outline = { ...face.outline, widthMm: 40, heightMm: 40 };
  return { ...face, outline, faceFromScan: identity, noiseMm: 0.006 };
});
const order = (k: number): ScanOrder => ({ key: `scan ${k}`, name: `${k}.ply`, file: new Blob(), stated: {} });
const prepared = ({ key }: ScanOrder) => ({ face: faces[Number(key.slice(5))] }) as unknown as PreparedScan;

/** A worker whose comparisons all come out the same way. */
const host = (finding: string, state: string, found = true): ReadingHost => ({
  prepared: async (scan) => prepared(scan),
  compared: async (_reference, subject) =>
    ({
      fit: { found, chosen: 'rigid', models: [{ model: 'rigid', referenceFromSubject: identity }] },
      subject: prepared(subject),
      judgement: { finding, state: { reading: state } },
    }) as unknown as Comparison,
  answer: async (work) => {
    try {
      return { ok: true, value: await work() };
    } catch (error) {
      return { ok: false, code: 'unexpected', message: (error as Error).message };
    }
  },
  watchOf: () => ({}),
});

const [raking] = standardLooks;
const band = findLegendBand(faces[0]);
if (!band) throw new Error('no band on the test face');
const strip = { band, startDeg: 30, facing: 'inward' } as const;
const witnesses = [1, 2].map((k) => ({ scan: order(k), name: `Witness ${k}` }));
const reference = { scan: order(0), name: 'Reference' };

async function stackOf(finding: string, state: string, found = true) {
  const answer = await openReading(host(finding, state, found)).stack(reference, witnesses, strip, raking, told);
  if (!answer.ok) throw new Error(answer.message);
  return answer.value;
}

describe('what the worker draws', () => {
  const reading = openReading(host('supported', 'sameState'));

  it('is the core’s strip and the core’s light, whatever was asked before', async () => {
    const alone = unroll(faces[0].detail, band, strip);
    for (const look of [standardLooks[3], raking, standardLooks[3]]) {
      const answer = await reading.strip({ scan: order(0) }, strip, look, told);
      if (!answer.ok) throw new Error(answer.message);
      expect(answer.value.picture.grey).toEqual(applyLook(alone.grid, look).grey);
      expect(answer.value.places.x).toEqual(alone.x);
    }
    const face = await reading.face({ scan: order(0) }, raking, { view: 'asItIs', turnDeg: 0 }, told);
    if (!face.ok) throw new Error(face.message);
    const lit = light(faces[0].detail, [{ azimuthDeg: 315, heightDeg: 20 }]).grey;
    expect(face.value.grey.every((value, i) => Math.abs(value - lit[i]) <= 1)).toBe(true);
  });

  it('finds the bands of a scan and where their strips begin', async () => {
    const answer = await reading.bands({ scan: order(0) }, told);
    if (!answer.ok) throw new Error(answer.message);
    expect(answer.value[0].band.outerMm).toBeCloseTo(band.outerMm, 6);
    expect(answer.value[0].facing).toBe('inward');
    expect(answer.value[0].startDeg).toBeGreaterThanOrEqual(0);
  });

  it('says where a saved file has no back', async () => {
    const { sense, outline, relief } = faces[0];
    const stored = { key: 'x', sense, outline: outline as never, relief, noiseMm: 0.01 };
    const answer = await reading.back({ stored }, told);
    expect(answer).toMatchObject({ ok: false, message: expect.stringContaining('Bring the scan itself in') });
    const bands = await reading.bands({ stored }, told);
    expect(bands.ok && bands.value.length).toBeGreaterThan(0);
  });
});

describe('strips under one another', () => {
  it('are put together where all are of one state, and every share is told', async () => {
    const { rows, composite, places } = await stackOf('supported', 'sameState');
    expect(rows.map(({ name }) => name)).toEqual(['Reference', 'Witness 1', 'Witness 2']);
    for (const { picture } of rows)
      expect([picture.width, picture.height]).toEqual([places.grid.width, places.grid.height]);
    if (composite.refused) throw new Error(composite.reason);
    expect(composite.shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 6);
    // The sharpest witness gives most.
    expect(composite.shares[0]).toBeGreaterThan(0.5);
    expect(new Set(composite.contributor).size).toBeLessThanOrEqual(4);
    expect(composite.caption).toContain('no single object shows this');
  });

  it('are refused in a sentence otherwise', async () => {
    for (const [finding, state, words] of [
      ['supported', 'subjectEarlier', 'another state'],
      ['undecided', 'sameState', 'not supported'],
    ]) {
      const { composite, rows } = await stackOf(finding, state);
      expect(composite.refused && composite.reason).toContain(words);
      expect(rows[1].standing).toContain(finding);
    }
  });

  it('show an object that could not be laid on as an empty strip that says so', async () => {
    const { rows } = await stackOf('supported', 'sameState', false);
    expect(rows).toHaveLength(3);
    expect(rows[2].standing).toBe('could not be laid on it');
    expect(rows[2].picture.mask.every((has) => has === 0)).toBe(true);
  });
});

describe('fragments in their places', () => {
  const printed = { printScale: 1, dpi: 150 };
  const laid = (finding: string, found = true) =>
    openReading(host(finding, 'sameState', found)).fragments(reference, witnesses, printed, told);

  it('stand on one plate, and those of which it is not decided are named', async () => {
    const answer = await laid('undecided');
    if (!answer.ok) throw new Error(answer.message);
    const { plate, standings, left } = answer.value;
    expect(plate.caption).toContain('A (Witness 1), B (Witness 2)');
    expect(plate.caption).toMatch(/not decided/i);
    expect(standings.map(({ name }) => name)).toEqual(['Witness 1', 'Witness 2']);
    expect(left).toEqual([]);
  });

  it('are told in the language that was asked for', async () => {
    const french = { ...printed, language: 'fr' } as const;
    const answer = await openReading(host('supported', 'sameState')).fragments(reference, witnesses, french, told);
    if (!answer.ok) throw new Error(answer.message);
    expect(answer.value.plate.caption).toContain('2 fragments à leur place, chacun ajusté sur Reference');
  });

  it.each([
    ['of another matrix', 'against', true],
    ['of another design', 'otherDesign', true],
    ['not fitted', 'supported', false],
  ])('are not shown where they are %s', async (_, finding, found) => {
    expect(await laid(finding, found)).toMatchObject({ ok: false, message: expect.stringContaining('fewer than two') });
  });
});

describe('places of a legend', () => {
  it('come from the clearest to the most doubtful, each with the look of the greatest contrast', async () => {
    const reading = openReading(host('supported', 'sameState'));
    const ask = async (looks: typeof standardLooks) => {
      const answer = await reading.legible({ scan: order(0) }, strip, looks, told);
      if (!answer.ok) throw new Error(answer.message);
      return answer.value;
    };
    const both = await ask(standardLooks.slice(0, 2));
    const contrasts = both.map(({ contrast }) => contrast);
    expect(contrasts).toEqual([...contrasts].sort((a, b) => b - a));
    const alone = await Promise.all(standardLooks.slice(0, 2).map((look) => ask([look])));
    for (const { fromMm, toMm, look, contrast } of both) {
      expect(toMm).toBeGreaterThan(fromMm);
      const each = alone.flat().filter((place) => place.fromMm === fromMm);
      expect(contrast).toBe(Math.max(...each.map((place) => place.contrast)));
      expect(each.find((place) => place.contrast === contrast)?.look).toBe(look);
    }
  });
});

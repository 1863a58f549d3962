import { describe, expect, it } from 'vitest';
import type { GeneratedPair, Relation } from '../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../sample-scans/generator/node.ts';
import { type Beside, besideDoer, compareBeside, type Seeing } from '../src/core/beside.ts';
import type { Difference } from '../src/core/compare/index.ts';
import { searchFaces } from '../src/core/fit/index.ts';
import { angleBetweenDeg, apply, Cancelled, compose, identity, type StepName } from '../src/core/geometry/index.ts';
import {
  type Comparison,
  comparePrepared,
  type PreparedScan,
  preparePair,
  type Weighed,
} from '../src/core/pipeline.ts';
import { findingSentence } from '../src/core/report/words/index.ts';
import { writePly } from '../src/core/scan/index.ts';

/** Fine enough that a copy cut by hand could be told from its original: about 170 points across. */
const pairOf = (relation: Relation, seed = 22): GeneratedPair =>
  makePair({ ...randomRecipe(seed, relation, { vertices: 30_000 }), whole: false, coverage: 1 });

const asFile = ({ positions, triangles }: GeneratedPair['reference'], name: string) => ({
  name,
  bytes: writePly(positions, triangles),
  unit: 'mm' as const,
});

const prepare = (pair: GeneratedPair): Promise<[PreparedScan, PreparedScan]> =>
  preparePair(asFile(pair.reference, 'reference.ply'), asFile(pair.subject, 'subject.ply'));

const [die, wax] = await prepare(pairOf('same'));
const steps: StepName[] = [];
const progress: number[] = [];
const there: Comparison = comparePrepared(die, wax, {
  step: (name) => steps.push(name),
  progress: (fraction) => progress.push(fraction),
});

describe('comparePrepared', () => {
  it('supports an impression of the matrix, and claims no more than the one phrase', () => {
    const { finding, limits, hypotheses } = there.judgement;
    const sentence = findingSentence(there.judgement);
    expect(finding).toBe('supported');
    expect(sentence).toContain('this matrix or a faithful copy of it');
    expect(sentence).not.toMatch(/identical|proves/);
    expect(limits.length).toBeGreaterThanOrEqual(4);
    for (const { log10Lr } of hypotheses) expect(log10Lr).toBeNull();
  });

  it('goes through its steps in order, progress never falling', () => {
    expect(steps).toEqual(['fit', 'judge', 'compare', 'judge']);
    expect(progress).toEqual([...progress].sort((a, b) => a - b));
    expect(progress[progress.length - 1]).toBeLessThanOrEqual(1);
  });

  it('gives one difference for every vertex of the subject, and a map of the reference’s face', () => {
    const { difference } = there;
    expect(difference?.perVertexMm).toHaveLength(wax.scan.vertices);
    const met = difference?.perVertexMm.filter((value) => !Number.isNaN(value)) ?? [];
    expect(met.length / wax.scan.vertices).toBeGreaterThan(0.6);
    expect(difference?.whole.rmsMm).toBeLessThan(0.2);
    expect(difference?.size.ratio).toBeCloseTo(1 / there.fit.models[1].scale, 2);
  });

  it('says the same in two threads, of what was copied to the other and back', async () => {
    const asked: string[] = [];
    const doBeside = besideDoer();
    const beside: Beside = async (job) => {
      asked.push(job.kind);
      return structuredClone(doBeside(structuredClone(job))) as never;
    };
    const [again, ...rest] = [{ ...die, face: { ...die.face } }, wax] as const;
    const told: Weighed[] = [];
    const measured: (Difference | null)[] = [];
    const seeing: Seeing = {
      weighed: (pair) => told.push(pair),
      measured: ({ difference }) => measured.push(difference),
    };
    const searched = Promise.resolve(
      structuredClone(searchFaces(structuredClone(die.face), structuredClone(wax.face))),
    );
    const asIs = [{}, undefined, {}, seeing, searched] as const;
    const { reference: _, ...comparison } = await compareBeside(again, ...rest, beside, ...asIs);
    expect(asked).toEqual(['zones', 'surfaces']);
    // The finding is told before the surfaces are looked at, and nothing that follows changes it.
    expect(there.judgement).toMatchObject({ ...told[0].weighed });
    expect(measured).toMatchObject([{ perVertexMm: there.difference?.perVertexMm }]);
    expect({ ...comparison, reference: there.reference }).toEqual(there);
  });

  it('is undone when the scans are exchanged, and the finding stays', () => {
    const back = comparePrepared(wax, die);
    const round = compose(back.fit.models[1].referenceFromSubject, there.fit.models[1].referenceFromSubject);
    const corner = [15, 10, 1] as const;
    // The floors are 0.02° and 0.005 mm.
    expect(angleBetweenDeg(round.rotation, identity.rotation)).toBeLessThan(1e-6);
    expect(Math.hypot(...apply(round, corner).map((value, i) => value - corner[i]))).toBeLessThan(1e-6);
    expect(back.judgement.finding).toBe('supported');
    expect(findingSentence(back.judgement)).toContain('was made from this matrix or a faithful copy of it');
  });

  it('finds no difference between a scan and itself', () => {
    const { fit, difference, judgement } = comparePrepared(die, die);
    const values = difference?.perVertexMm.filter((value) => !Number.isNaN(value)) ?? new Float32Array(0);
    expect(fit).toMatchObject({ found: true, turnedOver: false, mirrored: false, chosen: 'rigid' });
    expect(fit.models[1].scale).toBeCloseTo(1, 5);
    expect(values.length / die.scan.vertices).toBeGreaterThan(0.8);
    expect(values.reduce((most, value) => Math.max(most, Math.abs(value)), 0)).toBeLessThan(0.002);
    expect(judgement.finding).toBe('supported');
    expect(judgement.cells.congruent).toBe(judgement.cells.compared);
    expect(findingSentence(judgement)).toContain('one is a copy of the other');
  });

  it('stops when it is told to', () => {
    expect(() => comparePrepared(die, wax, { signal: { aborted: true } })).toThrow(Cancelled);
  });
});

describe('another matrix', () => {
  it('of the same pattern, cut again by hand, is not supported', async () => {
    const { judgement } = comparePrepared(...(await prepare(pairOf('handCopy'))));
    expect(judgement.finding).not.toBe('supported');
  });

  it('that has nothing in common is not fitted, and is another design: both faces are whole and clear', async () => {
    const { fit, difference, judgement } = comparePrepared(...(await prepare(pairOf('unrelated'))));
    expect(fit.found).toBe(false);
    expect(difference).toBeNull();
    expect(judgement.finding).toBe('otherDesign');
    expect(judgement.damage).toEqual([]);
  });
});

describe('preparePair', () => {
  const bare = ({ unit: _unit, ...rest }: ReturnType<typeof asFile>) => rest;

  it('takes the unit that only makes the two agree, and says that it is assumed', async () => {
    const { reference, subject } = pairOf('same');
    const inMetres = asFile({ ...subject, positions: subject.positions.map((value) => value / 1000) }, 'subject.ply');
    const [a, b] = await preparePair(asFile(reference, 'reference.ply'), bare(inMetres));
    expect(a.scan).toMatchObject({ unit: 'mm', unitFrom: 'stated' });
    expect(b.scan).toMatchObject({ unit: 'm', unitFrom: 'assumed' });
    expect(b.face.outline.widthMm / wax.face.outline.widthMm).toBeCloseTo(1, 3);
  });
});

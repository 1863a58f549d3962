import { describe, expect, it } from 'vitest';
import type { Given, Measured, PreparedScan, Weighed } from '../src/core/pipeline.ts';
import { limitWords } from '../src/core/report/words/index.ts';
import { ScanError } from '../src/core/scan/index.ts';
import { comparisonKey, mostComparisons, type pipelineSteps, Session, type SessionScan } from '../src/core/session.ts';

/** The steps of the pipeline without their work: what was asked for, in order. */
function counted(unitOpen: readonly string[] = []) {
  const done: string[] = [];
  const one = (name: string) => ({ scan: { name } }) as unknown as PreparedScan;
  const steps = {
    prepareScan: async ({ name }: { name: string }, _: unknown, partner?: PreparedScan) => {
      done.push(`prepare ${name}`);
      if (unitOpen.includes(name) && !partner) throw new ScanError('unitNeeded', `${name}: state the unit.`);
      return one(name);
    },
    preparePair: async (a: { name: string }, b: { name: string }) => {
      done.push(`pair ${a.name} ${b.name}`);
      return [one(a.name), one(b.name)];
    },
    weighPrepared: (
      a: PreparedScan,
      b: PreparedScan,
      watch: { progress?: (f: number, d: string) => void },
      given: Given,
    ) => {
      done.push(`measure ${a.scan.name} ${b.scan.name}`);
      watch.progress?.(0.5, '');
      watch.progress?.(0.6, '');
      return { fit: { found: true }, given } as unknown as Weighed;
    },
    measureWeighed: (pair: Weighed, watch: { progress?: (f: number, d: string) => void }) => {
      done.push('depths');
      watch.progress?.(0.85, '');
      return pair;
    },
    judgeMeasured: ({ given, ...measured }: Measured) => {
      done.push(`judge ${JSON.stringify(given.landmarks ?? null)}`);
      return { ...measured, judgement: { limits: [] } };
    },
  } as unknown as typeof pipelineSteps;
  let now = 0;
  const clock = { milliseconds: () => (now += 1_000), moment: () => '2025-01-01T00:00:00Z' };
  return { done, session: new Session(clock, steps) };
}

const read: string[] = [];
const scan = (key: string): SessionScan => ({
  ...{ key, name: key, stated: {} },
  bytes: async () => {
    read.push(key);
    return new Uint8Array(0);
  },
});
const region = (x: number, why = 'a tag') => ({
  excluded: [
    {
      outline: [
        [x, 0],
        [x + 1, 0],
        [x, 1],
      ] as [number, number][],
      why,
      by: 'A',
    },
  ],
});

describe('a session', () => {
  it('prepares each scan once, for its key', async () => {
    const { done, session } = counted();
    read.length = 0;
    await session.prepare(scan('a'));
    await session.prepare(scan('a'));
    await session.prepare(scan('a stated otherwise'));
    expect(done).toEqual(['prepare a', 'prepare a stated otherwise']);
    expect(read).toEqual(['a', 'a stated otherwise']);
  });

  it('settles a unit left open with its partner, and says why where that does not help', async () => {
    const { done, session } = counted(['a']);
    await expect(session.prepare(scan('a'))).rejects.toThrow('state the unit');
    await session.prepare(scan('a'), {}, scan('b'));
    await session.prepare(scan('b'));
    expect(done).toEqual(['prepare a', 'prepare a', 'pair a b']);
  });

  it('gives a prepared scan away, and takes one', async () => {
    const [one, other] = [counted(), counted()];
    await one.session.prepare(scan('a'));
    const moved = one.session.give('a');
    expect(moved).not.toBeNull();
    expect(one.session.give('a')).toBeNull();
    if (moved) other.session.take('a', moved);
    await other.session.prepare(scan('a'));
    expect(other.done).toEqual([]);
  });

  it('compares a pair once, and tells how long each step took', async () => {
    const { done, session } = counted();
    const first = await session.compare(scan('a'), scan('b'), {});
    expect(await session.compare(scan('a'), scan('b'), {})).toBe(first);
    expect(done).toEqual(['prepare a', 'prepare b', 'measure a b', 'depths', 'judge null']);
    expect(first.seconds).toEqual({ fit: 1, compare: 1, judge: 2 });
    expect(session.compared(comparisonKey('a', 'b', {}))).toBe(first);
  });

  it('shows a pair when it is weighed, and again when it is measured', async () => {
    const { done, session } = counted();
    const shown: number[] = [];
    await session.compare(scan('a'), scan('b'), {}, {}, async () => void shown.push(done.length));
    expect(done.slice(2)).toEqual(['measure a b', 'depths', 'judge null']);
    expect(shown).toEqual([3, 4]);
  });

  it('measures again where the start or what is left out is another', async () => {
    const { done, session } = counted();
    const givens: Given[] = [{}, region(0), region(1), { start: { from: 'turn', turnDeg: 20 } }];
    for (const given of givens) await session.compare(scan('a'), scan('b'), given);
    expect(done.filter((step) => step.startsWith('measure'))).toHaveLength(4);
  });

  it('judges the same measurement again for other landmarks, and only words it anew for other reasons', async () => {
    const { done, session } = counted();
    await session.compare(scan('a'), scan('b'), region(0));
    const before = done.length;
    const reworded = await session.compare(scan('a'), scan('b'), region(0, 'a modern repair'));
    expect(done).toHaveLength(before);
    expect(reworded.comparison.judgement.limits.map(limitWords).join(' ')).toContain('a modern repair');
    await session.compare(scan('a'), scan('b'), { ...region(0), landmarks: [{ x: 1, y: 2 }] });
    expect(done.slice(before)).toEqual(['judge [{"x":1,"y":2}]']);
  });

  it('never takes one pair’s measurement for another’s', async () => {
    const { done, session } = counted();
    for (const [a, b] of [
      ['a', 'b'],
      ['b', 'a'],
      ['a', 'c'],
      ['a', 'bb'],
    ] as const)
      await session.compare(scan(a), scan(b), {});
    expect(done.filter((step) => step.startsWith('measure'))).toHaveLength(4);
  });

  it('finds the pair as it was last compared', async () => {
    const { done, session } = counted();
    const last = await session.compare(scan('a'), scan('b'), region(0));
    expect(await session.comparedLast(scan('a'), scan('b'))).toBe(last);
    expect(done.filter((step) => step.startsWith('measure'))).toHaveLength(1);
  });

  it('keeps the last few comparisons only', async () => {
    const { session } = counted();
    for (let i = 0; i <= mostComparisons; i++) await session.compare(scan('a'), scan(`b${i}`), {});
    expect(session.compared(comparisonKey('a', 'b0', {}))).toBeUndefined();
    expect(session.compared(comparisonKey('a', 'b1', {}))).toBeDefined();
  });
});

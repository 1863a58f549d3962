import { afterEach, describe, expect, it, vi } from 'vitest';

vi.mock('../../src/workers/browser/openWorker.ts', () => ({ listener: <T>(told: T): T => told }));
const { Lane, Latest, run, runOnce, stopJobs } = await import('../../src/app/jobs/runner.ts');
type Answer<T> = import('../../src/workers/browser/protocol.ts').Answer<T>;

/** A job whose answer is given by hand. */
function held(key: string) {
  const seen: unknown[] = [];
  let answer: (value: Answer<string>) => void = () => undefined;
  let told: (fraction: number, doing: string) => void = () => undefined;
  const job = {
    key,
    ask: (tell: typeof told) => {
      told = tell;
      return new Promise<Answer<string>>((resolve) => {
        answer = resolve;
      });
    },
    show: (state: unknown) => void seen.push(state),
  };
  return { job, seen, answer: (value: Answer<string>) => answer(value), tell: () => told(0.5, 'half') };
}
const ok = (value: string): Answer<string> => ({ ok: true, value });
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));
const states = (seen: unknown[]): string[] => seen.map((one) => (one as { at: string }).at);

afterEach(() => stopJobs());

describe('a job', () => {
  it('shows how it goes and what came of it, and nothing after', async () => {
    const one = held('a');
    const over = run(one.job);
    one.tell();
    one.answer(ok('done'));
    await over;
    one.tell();
    expect(states(one.seen)).toEqual(['working', 'working', 'ready']);
    expect(one.seen.at(-1)).toEqual({ key: 'a', at: 'ready', value: 'done' });
  });

  it('never throws: an error is an outcome', async () => {
    const seen: unknown[] = [];
    await run({ key: 'a', ask: () => Promise.reject(new Error('broken')), show: (state) => void seen.push(state) });
    await run({
      key: 'b',
      ask: () => {
        throw new Error('broken at once');
      },
      show: (state) => void seen.push(state),
    });
    expect(states(seen)).toEqual(['working', 'failed', 'working', 'failed']);
    expect(JSON.stringify(seen)).toContain('broken at once');
  });

  it('can be stopped, and its answer then comes to nobody', async () => {
    const [one, two] = [held('a'), held('b')];
    const over = [run(one.job), run(two.job)];
    stopJobs();
    await Promise.all(over);
    one.answer(ok('late'));
    await settled();
    expect([states(one.seen), states(two.seen)]).toEqual([
      ['working', 'stopped'],
      ['working', 'stopped'],
    ]);
    const asked = runOnce(() => new Promise<Answer<string>>(() => undefined));
    stopJobs();
    expect(await asked).toBe('stopped');
  });
});

describe('a lane', () => {
  it('runs one job at a time until there is none', async () => {
    const jobs = [held('a'), held('b')];
    const waiting = jobs.map(({ job }) => job);
    const lane = new Lane(() => waiting.shift() ?? null);
    void lane.wake();
    void lane.wake();
    expect(lane.running).toBe('a');
    expect(jobs[1].seen).toEqual([]);
    jobs[0].answer(ok('1'));
    await settled();
    expect(lane.running).toBe('b');
    jobs[1].answer(ok('2'));
    await settled();
    expect(lane.running).toBeNull();
  });

  it('of the newest drops those between', async () => {
    const latest = new Latest<string>();
    const [a, b, c] = [held('a'), held('b'), held('c')];
    for (const one of [a, b, c]) latest.want(one.job);
    expect(latest.asked).toBe('c');
    a.answer(ok('1'));
    await settled();
    c.answer(ok('3'));
    await settled();
    expect([states(a.seen), states(b.seen), states(c.seen)]).toEqual([['working', 'ready'], [], ['working', 'ready']]);
    expect(latest.asked).toBeNull();
  });
});

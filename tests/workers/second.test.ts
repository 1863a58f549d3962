import { EventEmitter } from 'node:events';
import { describe, expect, it, vi } from 'vitest';
import type { Unit } from '../../src/core/scan/index.ts';
import { castPly } from '../browser/castPly.ts';

const made: FakeWorker[] = [];

/** A thread that is told what it answers; what was asked of it, in order. */
class FakeWorker extends EventEmitter {
  readonly calls: string[] = [];
  constructor() {
    super();
    made.push(this);
  }
  ref = (): void => void this.calls.push('ref');
  unref = (): void => void this.calls.push('unref');
  postMessage = (): void => void this.calls.push('ask');
  terminate = async (): Promise<number> => this.calls.push('terminate');
}

vi.mock('node:worker_threads', () => ({ Worker: FakeWorker }));
vi.mock('node:os', () => ({ availableParallelism: () => 2 }));
const { openSecond } = await import('../../src/workers/node/second.ts');
const settled = (): Promise<void> => new Promise((done) => setTimeout(done));

describe('the second thread', () => {
  it('holds the program while something is asked, and lets it go when it is answered', async () => {
    const second = openSecond(1e9, true);
    const [worker] = made.splice(0);
    const answer = second.beside?.({ kind: 'zones', face: {} as never, faceNumber: 0 });
    expect(worker.calls).toEqual(['unref', 'ref', 'ask']);
    worker.emit('message', { id: 0, kind: 'done', result: 'zones' });
    expect(await answer).toBe('zones');
    expect(worker.calls.at(-1)).toBe('unref');
  });

  it('has searched no pair that it was not asked to', async () => {
    const second = openSecond(1e9, true);
    made.splice(0);
    expect(await second.searched({} as never, {} as never)).toBeUndefined();
  });

  it('is waited for while it ends, though it answers meanwhile what nobody waits for', async () => {
    const second = openSecond(1e9, true);
    const [worker] = made.splice(0);
    void second.beside?.({ kind: 'zones', face: {} as never, faceNumber: 0 });
    const closed = second.close();
    worker.emit('message', { id: 0, kind: 'done', result: 'zones' });
    await settled();
    expect(worker.calls.at(-1)).toBe('terminate');
    await closed;
  });

  it('is opened once for middling files, loads before anything is asked of it, and is not opened for small ones', async () => {
    expect(openSecond(1e5, true).beside).toBeNull();
    expect(made).toHaveLength(0);
    const second = openSecond(3e6, true);
    expect(made[0].calls).toEqual(['unref']);
    void second.beside?.({ kind: 'zones', face: {} as never, faceNumber: 0 });
    void second.beside?.({ kind: 'zones', face: {} as never, faceNumber: 1 });
    const [worker, ...others] = made.splice(0);
    expect(worker.calls).toEqual(['unref', 'ref', 'ask', 'ref', 'ask']);
    expect(others).toHaveLength(0);
    await second.close();
    expect(worker.calls.at(-1)).toBe('terminate');
  });

  it('looks ahead at a face in millimetres alone: scaled later, it is another face with other lengths', async () => {
    const asked = async (unit?: Unit): Promise<number> => {
      const second = openSecond(3e6, true);
      await second.find({ name: 'cast.ply', bytes: new Uint8Array(castPly(60, 40)), ...(unit && { unit }) }, {}, true);
      return made.splice(0)[0].calls.filter((call) => call === 'ask').length;
    };
    expect([await asked('mm'), await asked('um'), await asked('cm')]).toEqual([1, 0, 0]);
  });

  it('that has failed says so to whoever asks it later', async () => {
    const second = openSecond(1e9, true);
    const [worker] = made.splice(0);
    worker.emit('error', new Error('no font'));
    await expect(second.beside?.({ kind: 'zones', face: {} as never, faceNumber: 0 })).rejects.toThrow('no font');
    expect(worker.calls).toEqual(['unref']);
  });
});

import * as Comlink from 'comlink';
import { partOf, type Watch } from '../../core/geometry/index.ts';
import { type Comparison, comparePrepared, type PreparedScan, preparePair, prepareScan } from '../../core/pipeline.ts';
import { ScanError } from '../../core/scan/index.ts';
import { comparisonView } from './comparisonView.ts';
import { buffersOf, faceView } from './faceView.ts';
import type { Answer, Bench, Failure, ScanOrder, Told } from './protocol.ts';

const prepared = new Map<string, PreparedScan>();
const comparisons = new Map<string, Comparison>();
const mostComparisons = 4;

/** At most some twenty reports a second reach the screen. */
function watchOf(told: Told): Watch {
  let last = -1;
  return {
    progress(fraction, doing) {
      const now = performance.now();
      if (now - last < 50 && fraction < 1) return;
      last = now;
      void told(fraction, doing);
    },
  };
}

/** Prepares a scan once. A unit that it leaves open is settled with its partner where that helps. */
async function prepare(order: ScanOrder, watch: Watch, partner: ScanOrder | null): Promise<PreparedScan> {
  const known = prepared.get(order.key);
  if (known) return known;
  const other = partner ? prepared.get(partner.key) : undefined;
  try {
    prepared.set(order.key, await prepareScan(await inputOf(order), watch, other));
  } catch (error) {
    if (!(error instanceof ScanError && error.code === 'unitNeeded' && partner && !other)) throw error;
    const [first, second] = await preparePair(await inputOf(order), await inputOf(partner), watch).catch(() => {
      throw error;
    });
    prepared.set(order.key, first);
    prepared.set(partner.key, second);
  }
  return prepare(order, watch, null);
}

const inputOf = async (order: ScanOrder) => ({
  ...order.stated,
  name: order.name,
  bytes: new Uint8Array(await order.file.arrayBuffer()),
});

function failureOf(error: unknown): Failure {
  if (error instanceof ScanError) {
    return { ok: false, code: error.code, message: error.message, unitChoice: error.unitChoice };
  }
  const words = error instanceof Error ? error.message : String(error);
  return { ok: false, code: 'unexpected', message: `Something went wrong while working on this scan: ${words}` };
}

async function answer<T>(work: () => Promise<T>): Promise<Answer<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    return failureOf(error);
  }
}

const bench: Bench = {
  prepare: (order, partner, told) =>
    answer(async () => {
      const watch = watchOf(told);
      const result = await prepare(order, watch, partner);
      const view = await faceView(order.key, result);
      return Comlink.transfer(view, buffersOf(view) as Transferable[]);
    }),
  compare: (reference, subject, told) =>
    answer(async () => {
      const watch = watchOf(told);
      const first = await prepare(reference, partOf(watch, 0, 0.2), subject);
      const second = await prepare(subject, partOf(watch, 0.2, 0.4), reference);
      const key = `${reference.key}\n${subject.key}`;
      const comparison = comparisons.get(key) ?? comparePrepared(first, second, watch);
      comparisons.delete(key);
      comparisons.set(key, comparison);
      for (const old of [...comparisons.keys()].slice(0, -mostComparisons)) comparisons.delete(old);
      return comparisonView(key, comparison, first, second);
    }),
  section: () => answer(async () => Promise.reject(new Error('not yet'))),
  report: () => answer(async () => Promise.reject(new Error('not yet'))),
  async forget(keys) {
    for (const key of keys) prepared.delete(key);
  },
};

Comlink.expose(bench);

import * as Comlink from 'comlink';
import { section } from '../../core/compare/index.ts';
import { chosenModel } from '../../core/fit/index.ts';
import { partOf, type Watch } from '../../core/geometry/index.ts';
import {
  type Comparison,
  type Given,
  judgeMeasured,
  type Measured,
  measurePrepared,
  type PreparedScan,
  preparePair,
  prepareScan,
  rewordedLimits,
} from '../../core/pipeline.ts';
import { ScanError } from '../../core/scan/index.ts';
import { build } from '../build.ts';
import { arraysIn } from './arraysIn.ts';
import { comparisonView } from './comparisonView.ts';
import { buffersOf, faceView } from './faceView.ts';
import { type Answer, comparisonKey, type Failure, type ReportOrder, type ScanOrder, type Told } from './protocol.ts';
import type { ReadingHost } from './readingHost.ts';
import type { ReadingBench, WholeBench } from './readingProtocol.ts';
import { clocked } from './timed.ts';
import { typeface } from './typeface.ts';

interface Prepared {
  readonly scan: PreparedScan;
  readonly stated: ScanOrder['stated'];
  readonly seconds: { readonly read: number; readonly face: number };
}
interface Compared {
  readonly comparison: Comparison;
  /** What it was judged from: other landmarks or other reasons are judged on the same measurement. */
  readonly measured: Measured;
  readonly first: Prepared;
  readonly second: Prepared;
  readonly startedAt: string;
  readonly seconds: { readonly fit: number; readonly compare: number; readonly judge: number };
}

const prepared = new Map<string, Prepared>();
const comparisons = new Map<string, Compared>();
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
async function prepare(order: ScanOrder, watch: Watch, partner: ScanOrder | null): Promise<Prepared> {
  const known = prepared.get(order.key);
  if (known) return known;
  const other = partner ? prepared.get(partner.key)?.scan : undefined;
  const clock = clocked(watch, [0.4]);
  const keep = (one: ScanOrder, scan: PreparedScan): void => {
    const [read, face] = clock.seconds();
    prepared.set(one.key, { scan, stated: one.stated, seconds: { read, face } });
  };
  try {
    keep(order, await prepareScan(await inputOf(order), clock.watch, other));
  } catch (error) {
    if (!(error instanceof ScanError && error.code === 'unitNeeded' && partner && !other)) throw error;
    const [first, second] = await preparePair(await inputOf(order), await inputOf(partner), clock.watch).catch(() => {
      throw error;
    });
    keep(order, first);
    keep(partner, second);
  }
  return prepare(order, watch, null);
}

const inputOf = async (order: ScanOrder) => ({
  ...order.stated,
  name: order.name,
  bytes: new Uint8Array(await order.file.arrayBuffer()),
});

/** What was last put by hand for a pair: the reading room rests on the same fit as the plate. */
const givenFor = new Map<string, Given>();

async function compare(
  reference: ScanOrder,
  subject: ScanOrder,
  given: Given,
  watch: Watch,
  seen?: (measured: Measured, first: Prepared, second: Prepared) => Promise<void>,
): Promise<Compared> {
  const key = comparisonKey(reference.key, subject.key, given);
  givenFor.set(comparisonKey(reference.key, subject.key, {}), given);
  const known = comparisons.get(key) ?? measuredBefore(key, reference, subject, given, watch);
  if (known) return known;
  const startedAt = new Date().toISOString();
  const first = await prepare(reference, partOf(watch, 0, 0.15), subject);
  const second = await prepare(subject, partOf(watch, 0.15, 0.3), reference);
  const clock = clocked(partOf(watch, 0.3, 1), [0.6, 0.85]);
  const measured = measurePrepared(first.scan, second.scan, clock.watch, given);
  await seen?.(measured, first, second);
  const comparison = judgeMeasured(measured, clock.watch);
  const [fit, measure, judge] = clock.seconds();
  const done = { comparison, measured, first, second, startedAt, seconds: { fit, compare: measure, judge } };
  return remembered(key, done);
}

/**
 * Where the fit began and what was left out decide what is measured. Where only landmarks, reasons or names are others,
 * the same measurement is judged again, or with the same landmarks only said in other words.
 */
function measuredBefore(
  key: string,
  reference: ScanOrder,
  subject: ScanOrder,
  given: Given,
  watch: Watch,
): Compared | undefined {
  const pair = comparisonKey(reference.key, subject.key, {});
  const [other, known] =
    [...comparisons].find(
      ([name, { measured }]) =>
        (name === pair || name.startsWith(`${pair}\n`)) && measures(measured.given) === measures(given),
    ) ?? [];
  if (!other || !known) return undefined;
  const { comparison } = known;
  const before = known.measured.given;
  const excluded = given.excluded ? { excluded: given.excluded } : {};
  const measured = { ...known.measured, ...excluded, given };
  const limits = rewordedLimits(comparison.judgement.limits, comparison.fit, before, given);
  const again = sameLandmarks(before, given)
    ? { ...comparison, ...excluded, judgement: { ...comparison.judgement, limits } }
    : judgeMeasured(measured, watch);
  return remembered(key, { ...known, comparison: again, measured });
}

function remembered(key: string, done: Compared): Compared {
  comparisons.set(key, done);
  for (const old of [...comparisons.keys()].slice(0, -mostComparisons)) comparisons.delete(old);
  return done;
}

const measures = ({ start, excluded = [] }: Given): string =>
  JSON.stringify([start ?? null, excluded.map(({ outline }) => outline)]);

const sameLandmarks = (a: Given, b: Given): boolean => JSON.stringify(a.landmarks) === JSON.stringify(b.landmarks);

function comparedBefore(key: string): Compared {
  const known = comparisons.get(key);
  if (!known) throw new Error('this comparison was opened from a file; compare the scans themselves for that.');
  return known;
}

/** The report's code is fetched with the app's own files when it is first asked for. */
async function report({ key, conclusion, section: drawn, version, simulated }: ReportOrder) {
  const { makeReport } = await import('../../core/report/index.ts');
  const { comparison, first, second, startedAt, seconds } = comparedBefore(key);
  const paradata = {
    version,
    build,
    parameters: { reference: first.stated, subject: second.stated },
    startedAt,
    seconds: {
      read: first.seconds.read + second.seconds.read,
      face: first.seconds.face + second.seconds.face,
      ...seconds,
    },
  };
  const own = conclusion ? { text: conclusion.text, signed: conclusion.by, date: conclusion.on } : undefined;
  const { html, record } = makeReport(comparison, paradata, {
    own,
    section: drawn,
    withoutFigureFiles: true,
    typeface: await typeface(),
    ...(simulated && { simulated }),
  });
  return { page: html, record: JSON.stringify(record, null, 1) };
}

function failureOf(error: unknown): Failure {
  if (error instanceof ScanError)
    return { ok: false, code: error.code, message: error.message, unitChoice: error.unitChoice };
  const words = error instanceof Error ? error.message : String(error);
  return { ok: false, code: 'unexpected', message: `This step could not be done: ${words}` };
}

async function answer<T>(work: () => Promise<T>): Promise<Answer<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    return failureOf(error);
  }
}

const host: ReadingHost = {
  prepared: async (order, watch) => (await prepare(order, watch, null)).scan,
  compared: async (reference, subject, watch) => {
    const given = givenFor.get(comparisonKey(reference.key, subject.key, {})) ?? {};
    return (await compare(reference, subject, given, watch)).comparison;
  },
  answer,
  watchOf,
};
let opened: Promise<ReadingBench> | null = null;
/** The reading room's code is fetched when the room is first entered. */
function reading(): Promise<ReadingBench> {
  opened ??= import('./reading.ts').then(({ openReading }) => openReading(host));
  return opened;
}

const bench: WholeBench = {
  bands: async (...asked) => (await reading()).bands(...asked),
  strip: async (...asked) => (await reading()).strip(...asked),
  face: async (...asked) => (await reading()).face(...asked),
  stack: async (...asked) => (await reading()).stack(...asked),
  back: async (...asked) => (await reading()).back(...asked),
  ridgeSpacing: async (...asked) => (await reading()).ridgeSpacing(...asked),
  prepare: (order, partner, told) =>
    answer(async () => {
      const { scan } = await prepare(order, watchOf(told), partner);
      const view = await faceView(order.key, scan);
      return Comlink.transfer(view, buffersOf(view) as Transferable[]);
    }),
  give: async (key) => {
    const known = prepared.get(key);
    if (!known) return null;
    prepared.delete(key);
    const moved = { key, ...known };
    return Comlink.transfer(moved, arraysIn(moved));
  },
  async take({ key, ...known }) {
    prepared.set(key, known);
  },
  compare: (reference, subject, given, told, shown) =>
    answer(async () => {
      const key = comparisonKey(reference.key, subject.key, given);
      const seen = async (measured: Measured, a: Prepared, b: Prepared): Promise<void> =>
        void shown(await comparisonView(key, { ...measured, judgement: null }, a.scan, b.scan));
      const { comparison, first, second } = await compare(reference, subject, given, watchOf(told), seen);
      return comparisonView(key, comparison, first.scan, second.scan);
    }),
  section: (key, line) =>
    answer(async () => {
      const { reference, subject, fit } = comparedBefore(key).comparison;
      const model = chosenModel(fit);
      if (!model || !fit.found) throw new Error('the two faces are not laid on one another.');
      const side = ({ scan, face }: PreparedScan) => ({ mesh: scan.mesh, face });
      return section(side(reference), side(subject), model, fit.turnedOver, line);
    }),
  report: (order) => answer(() => report(order)),
  async forget(keys) {
    for (const key of keys) prepared.delete(key);
  },
};

Comlink.expose(bench);

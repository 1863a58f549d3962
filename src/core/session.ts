import {
  type Beside,
  judgeBeside,
  type MeasuredBeside,
  measureBeside,
  type WeighedBeside,
  weighBeside,
} from './beside.ts';
import { partOf, type Watch } from './geometry/index.ts';
import {
  type Comparison,
  type Given,
  judgeMeasured,
  type Measured,
  measureWeighed,
  type PreparedScan,
  preparePair,
  prepareScan,
  rewordedLimits,
  type ScanInput,
  type Weighed,
  weighPrepared,
} from './pipeline.ts';
import { ScanError } from './scan/index.ts';

/** A scan as a session is asked for it. */
export interface SessionScan {
  /** Changes whenever the bytes or what is stated about them change. */
  readonly key: string;
  readonly name: string;
  readonly stated: Omit<ScanInput, 'name' | 'bytes'>;
  /** Called only where the scan is not prepared yet. */
  bytes(): Promise<Uint8Array>;
  /** The platform's digest, where it has one. */
  readonly sha256?: ScanInput['sha256'];
}

/** A scan that was prepared, and how long that took. */
export interface Prepared {
  readonly scan: PreparedScan;
  readonly stated: SessionScan['stated'];
  readonly seconds: { readonly read: number; readonly face: number };
}

/** A comparison that was made, what it was judged from, and how long it took. */
export interface Compared {
  readonly comparison: Comparison;
  /** Other landmarks or other reasons are judged on the same measurement. */
  readonly measured: Measured | MeasuredBeside;
  readonly first: Prepared;
  readonly second: Prepared;
  readonly startedAt: string;
  readonly seconds: { readonly fit: number; readonly compare: number; readonly judge: number };
}

/** The core has no clock: the time comes from outside. */
export interface Clock {
  /** Milliseconds since any fixed moment. */
  milliseconds(): number;
  /** The moment, ISO 8601. */
  moment(): string;
}

/** The steps of the pipeline that a session keeps the results of. */
export const pipelineSteps = { prepareScan, preparePair, weighPrepared, measureWeighed, judgeMeasured };

/** Comparisons kept at once: enough to go back and forth between two starts of one pair, or among few pairs. */
export const mostComparisons = 4;

/** Names a comparison: of which scans, and what was put by hand. */
export const comparisonKey = (referenceKey: string, subjectKey: string, given: Given): string => {
  const byHand = given.start || given.excluded?.length || given.landmarks ? [JSON.stringify(given)] : [];
  return [referenceKey, subjectKey, ...byHand].join('\n');
};

/** Called when a pair is weighed, and when it is measured and its surfaces are not judged yet: there is something to show. */
export type Seen = (pair: Weighed | Measured, first: Prepared, second: Prepared) => Promise<void>;

/**
 * What is prepared, measured and judged already, and when it may be used again:
 * - a prepared scan, for its key, until it is given away;
 * - a comparison, for the same two keys and the same things put by hand, as long as it is among the last
 *   `mostComparisons`;
 * - its measurement alone, where the start of the fit and the outlines left out are the same: with other landmarks it is
 *   judged again, with other reasons or names only the limits are worded anew.
 */
export class Session {
  private readonly prepared = new Map<string, Prepared>();
  private readonly comparisons = new Map<string, Compared>();
  /** By pair: what was last put by hand. Whoever reads the pair rests on the same fit as whoever looks at it. */
  private readonly lastGiven = new Map<string, Given>();
  private readonly clock: Clock;
  private readonly steps: typeof pipelineSteps;
  private beside: Beside | null = null;

  constructor(clock: Clock, steps = pipelineSteps) {
    this.clock = clock;
    this.steps = steps;
  }

  /** From now on another thread helps to compare. */
  helpedBy(beside: Beside): void {
    this.beside = beside;
  }

  /** Prepares a scan once. A unit that it leaves open is settled with its partner where that helps. */
  async prepare(order: SessionScan, watch: Watch = {}, partner: SessionScan | null = null): Promise<Prepared> {
    const known = this.prepared.get(order.key);
    if (known) return known;
    const other = partner ? this.prepared.get(partner.key)?.scan : undefined;
    const timed = timedWatch(watch, [0.4], this.clock);
    const keep = (one: SessionScan, scan: PreparedScan): void => {
      const [read, face] = timed.seconds();
      this.prepared.set(one.key, { scan, stated: one.stated, seconds: { read, face } });
    };
    try {
      keep(order, await this.steps.prepareScan(await inputOf(order), timed.watch, other));
    } catch (error) {
      if (!(error instanceof ScanError && error.code === 'unitNeeded' && partner && !other)) throw error;
      const both = this.steps.preparePair(await inputOf(order), await inputOf(partner), timed.watch);
      const [first, second] = await both.catch(() => {
        throw error;
      });
      keep(order, first);
      keep(partner, second);
    }
    return this.prepare(order, watch);
  }

  /** Compares a pair, or finds what was made of it before. */
  async compare(
    reference: SessionScan,
    subject: SessionScan,
    given: Given,
    watch: Watch = {},
    seen?: Seen,
  ): Promise<Compared> {
    const key = comparisonKey(reference.key, subject.key, given);
    const pair = comparisonKey(reference.key, subject.key, {});
    this.lastGiven.set(pair, given);
    const known = this.comparisons.get(key) ?? (await this.measuredBefore(key, pair, given, watch));
    if (known) return known;
    const startedAt = this.clock.moment();
    const first = await this.prepare(reference, partOf(watch, 0, 0.15), subject);
    const second = await this.prepare(subject, partOf(watch, 0.15, 0.3), reference);
    const timed = timedWatch(partOf(watch, 0.3, 1), [0.5, 0.6, 0.85], this.clock);
    const weighed = this.beside
      ? await weighBeside(first.scan, second.scan, this.beside, timed.watch, given)
      : this.steps.weighPrepared(first.scan, second.scan, timed.watch, given);
    await seen?.(weighed, first, second);
    const measured = isBeside(weighed)
      ? await measureBeside(weighed, timed.watch)
      : this.steps.measureWeighed(weighed, timed.watch);
    await seen?.(measured, first, second);
    const comparison = await this.judged(measured, timed.watch);
    const [fit, places, compare, surfaces] = timed.seconds();
    const seconds = { fit, compare, judge: places + surfaces };
    return this.remembered(key, { comparison, measured, first, second, startedAt, seconds });
  }

  /** The pair as it was last compared, with what was then put by hand. */
  async comparedLast(reference: SessionScan, subject: SessionScan, watch: Watch = {}): Promise<Compared> {
    const given = this.lastGiven.get(comparisonKey(reference.key, subject.key, {})) ?? {};
    return this.compare(reference, subject, given, watch);
  }

  /** What was made under this key, if it is still kept. */
  compared(key: string): Compared | undefined {
    return this.comparisons.get(key);
  }

  /** Gives a prepared scan away; it is not kept here any longer. Null where it is not here. */
  give(key: string): Prepared | null {
    const known = this.prepared.get(key);
    this.prepared.delete(key);
    return known ?? null;
  }

  /** Takes a scan that another session prepared. */
  take(key: string, prepared: Prepared): void {
    this.prepared.set(key, prepared);
  }

  /** A comparison of the same pair whose measurement still holds, judged for what is put by hand now. */
  private async measuredBefore(key: string, pair: string, given: Given, watch: Watch): Promise<Compared | undefined> {
    const ofPair = [...this.comparisons].filter(([name]) => name === pair || name.startsWith(`${pair}\n`));
    const known = ofPair.find(([, { measured }]) => whatIsMeasured(measured.given) === whatIsMeasured(given))?.[1];
    if (!known) return undefined;
    const { comparison } = known;
    const before = known.measured.given;
    const excluded = given.excluded ? { excluded: given.excluded } : {};
    const measured = { ...known.measured, ...excluded, given };
    if (!sameLandmarks(before, given)) {
      const anew = { ...measured, places: null };
      return this.remembered(key, { ...known, comparison: await this.judged(anew, watch), measured: anew });
    }
    const limits = rewordedLimits(comparison.judgement.limits, comparison.fit, given);
    const reworded = { ...comparison, ...excluded, judgement: { ...comparison.judgement, limits } };
    return this.remembered(key, { ...known, comparison: reworded, measured });
  }

  /** Wear and marks that were looked for once hold for other landmarks too. */
  private async judged(measured: Measured | MeasuredBeside, watch: Watch): Promise<Comparison> {
    return 'surfaces' in measured ? judgeBeside(measured, watch) : this.steps.judgeMeasured(measured, watch);
  }

  private remembered(key: string, done: Compared): Compared {
    this.comparisons.set(key, done);
    for (const old of [...this.comparisons.keys()].slice(0, -mostComparisons)) this.comparisons.delete(old);
    return done;
  }
}

const isBeside = (pair: Weighed): pair is WeighedBeside => 'depths' in pair;

const inputOf = async (order: SessionScan): Promise<ScanInput> => ({
  ...order.stated,
  name: order.name,
  bytes: await order.bytes(),
  ...(order.sha256 && { sha256: order.sha256 }),
});

/** Where the fit began and what was left out decide what is measured. */
const whatIsMeasured = ({ start, excluded = [] }: Given): string =>
  JSON.stringify([start ?? null, excluded.map(({ outline }) => outline)]);

const sameLandmarks = (a: Given, b: Given): boolean => JSON.stringify(a.landmarks) === JSON.stringify(b.landmarks);

/** A watch that also notes when each of `marks`, shares of the whole, was reached; seconds between begin, marks and now. */
function timedWatch(watch: Watch, marks: readonly number[], clock: Clock): { watch: Watch; seconds(): number[] } {
  const begin = clock.milliseconds();
  const reached: number[] = [];
  const progress: Watch['progress'] = (fraction, doing) => {
    while (reached.length < marks.length && fraction >= marks[reached.length]) reached.push(clock.milliseconds());
    watch.progress?.(fraction, doing);
  };
  const seconds = (): number[] => {
    const now = clock.milliseconds();
    const times = [begin, ...marks.map((_, i) => reached[i] ?? now), now];
    return times.slice(1).map((time, i) => (time - times[i]) / 1000);
  };
  return { watch: { ...watch, progress }, seconds };
}

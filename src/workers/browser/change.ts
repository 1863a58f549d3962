import type { ChangeFound } from '../../core/change/index.ts';
import { type ChangeComparison, changeBetween } from '../../core/changeBetween.ts';
import { compose, invert, partOf, type StepName, type Vec2, type Watch } from '../../core/geometry/index.ts';
import { placeTurned } from '../../core/read/index.ts';
import { changeMap, makeChangeReport, uprightOfDates } from '../../core/report/index.ts';
import {
  changeCauseWords,
  changeFactsWords,
  changeLimitWords,
  changeSentence,
  changeWords,
} from '../../core/report/words/index.ts';
import type { Prepared } from '../../core/session.ts';
import { build } from '../build.ts';
import type { ChangeReportOrder, ChangeServices, ChangeView, DatedOrder, ShownChange } from './changeProtocol.ts';
import { uprightView } from './faceView.ts';
import type { Answer, ComparisonView, ScanOrder, Told } from './protocol.ts';
import { typeface } from './typeface.ts';

/** What the worker lends to the room of two dates. */
export interface ChangeHost {
  prepared(order: ScanOrder, watch: Watch, partner: ScanOrder): Promise<Prepared>;
  answer<T>(work: () => Promise<T>): Promise<Answer<T>>;
  watchOf(told: Told): Watch;
}

interface Done {
  readonly comparison: ChangeComparison;
  readonly earlier: Prepared;
  readonly later: Prepared;
  readonly startedAt: string;
  readonly seconds: Readonly<Record<StepName, number>>;
}

/** So many are kept, for their reports. */
const mostKept = 2;

/** The part of the worker that holds one object on two dates against itself. No question of matrices is asked. */
export function openChange(host: ChangeHost): ChangeServices {
  const kept = new Map<string, Done>();

  async function compared(dates: DatedOrder, watch: Watch): Promise<Done> {
    const known = kept.get(dates.key);
    if (known) return known;
    const startedAt = new Date().toISOString();
    const earlier = await host.prepared(dates.earlier, partOf(watch, 0, 0.1), dates.later);
    const later = await host.prepared(dates.later, partOf(watch, 0.1, 0.2), dates.earlier);
    const again = async (order: ScanOrder | null, date: ScanOrder): Promise<Prepared | null> =>
      order && host.prepared(order, {}, date);
    const [first, second] = [
      await again(dates.earlierAgain, dates.earlier),
      await again(dates.laterAgain, dates.later),
    ];
    const timed = timedSteps(partOf(watch, 0.2, 1));
    const comparison = changeBetween(
      {
        ...{ earlier: earlier.scan, later: later.scan },
        ...(first && { earlierAgain: first.scan }),
        ...(second && { laterAgain: second.scan }),
      },
      timed.watch,
    );
    const read = [earlier, later, first, second].reduce((sum, one) => sum + (one?.seconds.read ?? 0), 0);
    const face = [earlier, later, first, second].reduce((sum, one) => sum + (one?.seconds.face ?? 0), 0);
    const done = { comparison, earlier, later, startedAt, seconds: { read, face, ...timed.seconds(), judge: 0 } };
    kept.set(dates.key, done);
    for (const old of [...kept.keys()].slice(0, -mostKept)) kept.delete(old);
    return done;
  }

  async function report({ dates, version }: ChangeReportOrder) {
    const { comparison, earlier, later, startedAt, seconds } = await compared(dates, {});
    const stated = { earlier: earlier.stated, later: later.stated };
    const { record, html } = makeChangeReport(
      comparison,
      { version, build, stated, startedAt, seconds },
      { typeface: await typeface() },
    );
    return { page: html, record: JSON.stringify(record, null, 1) };
  }

  return {
    change: (dates, told) => host.answer(async () => viewOf(dates, await compared(dates, host.watchOf(told)))),
    changeReport: (order) => host.answer(() => report(order)),
  };
}

/** A watch that also takes the time of the fit and of what comes after it, in seconds. */
function timedSteps(watch: Watch): { watch: Watch; seconds(): { fit: number; compare: number } } {
  const begun = performance.now();
  let fitted = begun;
  const step = (name: StepName): void => {
    if (name === 'compare') fitted = performance.now();
    watch.step?.(name);
  };
  const seconds = () => ({ fit: (fitted - begun) / 1000, compare: (performance.now() - fitted) / 1000 });
  return { watch: { ...watch, step }, seconds };
}

async function viewOf(dates: DatedOrder, { comparison, earlier, later }: Done): Promise<ChangeView> {
  const { result } = comparison;
  const { turnDeg } = uprightOfDates(comparison);
  const another = async (order: ScanOrder, now: Prepared['scan'], before: Prepared['scan']) =>
    now.face === before.face ? undefined : uprightView(order.key, now);
  const [a, b] = [
    await another(dates.earlier, comparison.earlier, earlier.scan),
    await another(dates.later, comparison.later, later.scan),
  ];
  return {
    key: dates.key,
    ...(a && { earlier: a }),
    ...(b && { later: b }),
    judged: result.judged,
    sentence: changeSentence(result, turnDeg),
    laid: laidOf(dates.key, comparison),
    map: result.judged ? changeMap(comparison.earlier, result) : null,
    changes: result.judged ? changesOf(comparison, result, turnDeg) : [],
    facts: result.judged ? changeFactsWords(result) : [],
    limits: result.judged ? result.limits.map((limit) => changeLimitWords(limit, 'screen')) : [],
  };
}

/** The later on the earlier's face: as what did not change puts it, or as the first fit does where nothing was judged. */
function laidOf(key: string, { earlier, later, fit, result }: ChangeComparison): ComparisonView {
  const model = fit.models.find(({ model }) => model === 'rigid');
  const pose = result.judged ? result.earlierFromLater : model?.referenceFromSubject;
  const rigid = pose && compose(earlier.face.faceFromScan, compose(pose, invert(later.face.faceFromScan)));
  return {
    key,
    fit: { ...fit, chosen: 'rigid', found: result.judged || fit.found },
    referenceFaceFromSubjectFace: rigid ? { rigid } : {},
    difference: null,
    judgement: null,
  };
}

function changesOf({ earlier }: ChangeComparison, { changes }: ChangeFound, turnDeg: number): ShownChange[] {
  const flip = earlier.face.sense === 'intaglio' ? -1 : 1;
  return changes.map((change) => ({
    ...change,
    at: placeTurned(change.at, turnDeg),
    words: changeWords(change),
    causes: change.causes.map(changeCauseWords),
    outline: Array.from(
      { length: change.outline.length / 2 },
      (_, i): Vec2 => [flip * change.outline[2 * i], change.outline[2 * i + 1]],
    ),
  }));
}

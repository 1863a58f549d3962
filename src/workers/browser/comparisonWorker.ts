import * as Comlink from 'comlink';
import { type Beside, besideDoer } from '../../core/beside.ts';
import { section } from '../../core/compare/index.ts';
import { chosenModel } from '../../core/fit/index.ts';
import type { Watch } from '../../core/geometry/index.ts';
import type { PreparedScan } from '../../core/pipeline.ts';
import { refusedByLength, ScanError } from '../../core/scan/index.ts';
import { type Compared, comparisonKey, type Seen, Session, type SessionScan } from '../../core/session.ts';
import { build } from '../build.ts';
import { answer } from './answer.ts';
import { arraysIn } from './arraysIn.ts';
import type { ChangeServices } from './changeProtocol.ts';
import { comparisonView, viewsOnce } from './comparisonView.ts';
import { platformDigest } from './digest.ts';
import { buffersOf, uprightView } from './faceView.ts';
import type { ReportOrder, ScanOrder, Told } from './protocol.ts';
import type { ReadingHost } from './readingHost.ts';
import type { ReadingServices, WorkerServices } from './readingProtocol.ts';
import { storedPicture } from './storedPicture.ts';
import { typeface } from './typeface.ts';

const session = new Session({
  milliseconds: () => performance.now(),
  moment: () => new Date().toISOString(),
});

const scanOf = ({ file, ...order }: ScanOrder): SessionScan => ({
  ...order,
  ...platformDigest,
  async bytes() {
    const refused = refusedByLength(order.name, file.size);
    if (refused) throw new ScanError(refused.code, `${order.name}: ${refused.message}`);
    return new Uint8Array(await file.arrayBuffer());
  },
});

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

function comparedBefore(key: string): Compared {
  const known = session.compared(key);
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
    stated: { reference: first.stated, subject: second.stated },
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

const host: ReadingHost = {
  prepared: async (order, watch) => (await session.prepare(scanOf(order), watch)).scan,
  compared: async (reference, subject, watch) =>
    (await session.comparedLast(scanOf(reference), scanOf(subject), watch)).comparison,
  answer,
  watchOf,
};
let opened: Promise<ReadingServices> | null = null;
/**
 * The reading room's code is fetched when the room is first entered. What was asked meanwhile is begun in a task each: the face is
 * on its way to the screen before the legend, which takes a second, is sought.
 */
async function reading(): Promise<ReadingServices> {
  opened ??= import('./reading.ts').then(({ openReading }) => openReading(host));
  const services = await opened;
  await new Promise((resolve) => setTimeout(resolve));
  return services;
}

let dated: Promise<ChangeServices> | null = null;
/** The same of the room of two dates. */
function changing(): Promise<ChangeServices> {
  const prepared = (order: ScanOrder, watch: Watch, partner: ScanOrder) =>
    session.prepare(scanOf(order), watch, scanOf(partner));
  dated ??= import('./change.ts').then(({ openChange }) => openChange({ prepared, answer, watchOf }));
  return dated;
}

/** Runs the session in a thread of its own: only what is sent to and fro is made here. */
const services: WorkerServices = {
  async helpAt(port) {
    Comlink.expose(besideDoer(), port);
  },
  async helpedBy(port) {
    session.helpedBy(Comlink.wrap<ReturnType<typeof besideDoer>>(port) as unknown as Beside);
  },
  bands: async (...asked) => (await reading()).bands(...asked),
  strip: async (...asked) => (await reading()).strip(...asked),
  face: async (...asked) => (await reading()).face(...asked),
  plate: async (...asked) => (await reading()).plate(...asked),
  stack: async (...asked) => (await reading()).stack(...asked),
  legible: async (...asked) => (await reading()).legible(...asked),
  fragments: async (...asked) => (await reading()).fragments(...asked),
  back: async (...asked) => (await reading()).back(...asked),
  ridgeSpacing: async (...asked) => (await reading()).ridgeSpacing(...asked),
  change: async (...asked) => (await changing()).change(...asked),
  changeReport: async (...asked) => (await changing()).changeReport(...asked),
  prepare: (order, partner, told) =>
    answer(async () => {
      const { scan } = await session.prepare(scanOf(order), watchOf(told), partner && scanOf(partner));
      const view = await uprightView(order.key, scan);
      return Comlink.transfer(view, buffersOf(view) as Transferable[]);
    }),
  give: async (key) => {
    const known = session.give(key);
    if (!known) return null;
    const moved = { key, ...known };
    return Comlink.transfer(moved, arraysIn(moved));
  },
  async take({ key, ...known }) {
    session.take(key, known);
  },
  compare: (reference, subject, given, told, shown) =>
    answer(async () => {
      const key = comparisonKey(reference.key, subject.key, given);
      const viewOf = viewsOnce();
      const seen: Seen = async (pair, a, b) =>
        void shown(await comparisonView(key, { difference: null, ...pair, judgement: null }, a.scan, b.scan, viewOf));
      const [a, b] = [scanOf(reference), scanOf(subject)];
      const { comparison, first, second } = await session.compare(a, b, given, watchOf(told), seen);
      const { groundsInWords, stateSentence } = await import('../../core/report/index.ts');
      const view = await comparisonView(key, comparison, first.scan, second.scan, viewOf);
      return { ...view, grounds: groundsInWords(comparison), stateSentence: stateSentence(comparison) };
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
  picture: (relief) =>
    answer(async () => {
      const made = storedPicture(relief);
      return Comlink.transfer(made, arraysIn(made));
    }),
};

Comlink.expose(services);

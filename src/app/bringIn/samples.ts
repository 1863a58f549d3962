import type { Kind } from '../../core/scan/index.ts';
import { datedAs } from '../state/dates.ts';
import { noDates } from '../state/document.ts';
import { type Brought, bringIn } from '../state/scans.ts';
import { amend, documentNow, notify, setState } from '../state/store.ts';

/** One demonstration scan as sample-scans/samples.json lists it. */
export interface Sample {
  readonly file: string;
  readonly title: string;
  readonly kind?: Kind;
  readonly material?: string;
  readonly description?: string;
}

/** Two samples that belong together, and what to look for. */
export interface SamplePair {
  readonly reference: string;
  readonly subject: string;
  readonly title?: string;
  readonly look?: string;
}

/** Two sample scans of one object. */
export interface SampleDates {
  readonly earlier: string;
  readonly later: string;
  readonly title: string;
  readonly look?: string;
}

export interface SampleList {
  readonly samples: readonly Sample[];
  /** The pair that is laid out when the page first opens. */
  readonly opening?: SamplePair;
  readonly pairs?: readonly SamplePair[];
  readonly dates?: readonly SampleDates[];
}

const none: SampleList = { samples: [] };

let listed: Promise<SampleList> | null = null;

/** The list that lies beside the app; empty where there is none. */
export function sampleList(): Promise<SampleList> {
  listed ??= fetch('samples/samples.json')
    .then((answer) => (answer.ok ? answer.json() : none))
    .then((list: Partial<SampleList>) => (Array.isArray(list.samples) ? (list as SampleList) : none))
    .catch(() => none);
  return listed;
}

export async function bringSample(sample: Sample): Promise<void> {
  const brought = await fetched(sample);
  if (brought) await bringIn([brought]);
}

async function fetched(sample: Sample): Promise<Brought | null> {
  const answer = await fetch(`samples/${sample.file}`).catch(() => null);
  if (answer?.ok)
    return {
      ...{ file: await answer.blob(), name: sample.file, stated: statedOf(sample) },
      ...{ title: sample.title, simulated: true },
    };
  notify(`The sample ${sample.title} does not lie beside the app; make the samples again and build.`);
  return null;
}

/** Kind and material are known; the unit is left to the file, as with any scan. */
export const statedOf = ({ kind, material }: Sample) => ({
  ...(kind ? { kind } : {}),
  ...(material ? { material } : {}),
});

/** Lays out the opening pair and compares it. */
export async function openSamplePair(): Promise<void> {
  const { opening } = await sampleList();
  if (!(opening && (await layPair(opening, true)))) setState({ step: 'bringIn' });
}

/** Brings both samples of a pair in, gives them their places and compares them. */
export async function layPair({ reference, subject }: SamplePair, opening = false): Promise<boolean> {
  const { samples } = await sampleList();
  const pair = [reference, subject].flatMap((file) => samples.find((sample) => sample.file === file) ?? []);
  if (pair.length < 2) return false;
  const brought = await Promise.all(pair.map(fetched));
  const before = documentNow().scans.length;
  // Laid out at once; that the bytes are kept in the browser need not be waited for.
  void bringIn(brought.flatMap((one) => (one ? [{ ...one, opening }] : [])));
  const laid = documentNow().scans.slice(before);
  const [a, b] = pair.map(({ file }) => laid.find(({ name }) => name === file));
  if (!a || !b) return false;
  // One act with their being brought in: undo takes both back at once.
  amend((document) => ({
    ...document,
    referenceId: a.id,
    subjectId: b.id,
    fresh: [],
    compare: true,
    findingOpen: false,
  }));
  return true;
}

/** Brings two samples of one object in as its two dates. */
export async function layDatedSamples({ earlier, later }: SampleDates): Promise<void> {
  const { samples } = await sampleList();
  const two = [earlier, later].flatMap((file) => samples.find((sample) => sample.file === file) ?? []);
  const brought = (await Promise.all(two.map(fetched))).flatMap((one) => one ?? []);
  if (brought.length < 2) return;
  setState({ step: 'change', margin: true });
  await bringIn(brought, 'Two dates laid out', (document, ids) => {
    const idOf = (file: string): string | null =>
      document.scans.find(({ id, name }) => ids.includes(id) && name === file)?.id ?? null;
    return datedAs(document, { ...noDates, earlierId: idOf(earlier), laterId: idOf(later) });
  });
}

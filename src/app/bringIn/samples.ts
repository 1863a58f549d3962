import type { Kind, Unit } from '../../core/scan/index.ts';
import { bringIn } from '../state/scans.ts';
import { act, notify } from '../state/store.ts';

/** One demonstration scan as sample-scans/samples.json lists it. */
export interface Sample {
  readonly file: string;
  readonly title: string;
  readonly kind?: Kind;
  readonly unit?: Unit;
  readonly material?: string;
}

export interface SampleList {
  readonly samples: readonly Sample[];
  /** The pair that is laid out when the page first opens. */
  readonly opening?: { readonly reference: string; readonly subject: string };
}

let listed: Promise<SampleList> | null = null;

/** The list that lies beside the app; empty where there is none. */
export function sampleList(): Promise<SampleList> {
  listed ??= fetch('samples/samples.json')
    .then((answer) => (answer.ok ? answer.json() : { samples: [] }))
    .then(asList)
    .catch(() => ({ samples: [] }));
  return listed;
}

function asList(json: unknown): SampleList {
  return Array.isArray(json) ? { samples: json } : (json as SampleList);
}

export async function bringSample(sample: Sample): Promise<void> {
  const answer = await fetch(`samples/${sample.file}`).catch(() => null);
  if (!answer?.ok) {
    notify(`The sample ${sample.title} does not lie beside the app; make the samples again and build.`);
    return;
  }
  await bringIn([{ file: await answer.blob(), name: sample.file, stated: statedOf(sample), title: sample.title }]);
}

const statedOf = ({ kind, unit, material }: Sample) => ({
  ...(kind ? { kind } : {}),
  ...(unit ? { unit } : {}),
  ...(material ? { material } : {}),
});

/** Lays out the opening pair and compares it. */
export async function openSamplePair(): Promise<void> {
  const { samples, opening } = await sampleList();
  const pair = opening
    ? [opening.reference, opening.subject].map((file) => samples.find((sample) => sample.file === file))
    : samples.slice(0, 2);
  for (const sample of pair) if (sample) await bringSample(sample);
  if (pair.every(Boolean) && pair.length === 2) act('Compared', (document) => ({ ...document, compare: true }));
}

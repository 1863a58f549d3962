import type { Kind } from '../../core/scan/index.ts';
import { bringIn } from '../state/scans.ts';
import { act, notify, setState } from '../state/store.ts';

/** One demonstration scan as sample-scans/samples.json lists it. */
export interface Sample {
  readonly file: string;
  readonly title: string;
  readonly kind?: Kind;
  readonly material?: string;
  readonly description?: string;
}

export interface SampleList {
  readonly scans: readonly Sample[];
}

/** The pair that is laid out when the page first opens: the matrix as it survives, and its best impression. */
export const openingFiles = ['averholt-matrix.glb', 'averholt-impression-good.glb'] as const;

let listed: Promise<SampleList> | null = null;

/** The list that lies beside the app; empty where there is none. */
export function sampleList(): Promise<SampleList> {
  listed ??= fetch('samples/samples.json')
    .then((answer) => (answer.ok ? answer.json() : { scans: [] }))
    .catch(() => ({ scans: [] }));
  return listed;
}

export async function bringSample(sample: Sample): Promise<void> {
  const answer = await fetch(`samples/${sample.file}`).catch(() => null);
  if (!answer?.ok) {
    notify(`The sample ${sample.title} does not lie beside the app; make the samples again and build.`);
    return;
  }
  await bringIn([
    { file: await answer.blob(), name: sample.file, stated: statedOf(sample), title: sample.title, simulated: true },
  ]);
}

/** Kind and material are known; the unit is left to the file, as with any scan. */
export const statedOf = ({ kind, material }: Sample) => ({
  ...(kind ? { kind } : {}),
  ...(material ? { material } : {}),
});

/** Lays out the opening pair and compares it. */
export async function openSamplePair(): Promise<void> {
  const { scans } = await sampleList();
  const pair = openingFiles.flatMap((file) => scans.find((sample) => sample.file === file) ?? []);
  for (const sample of pair) await bringSample(sample);
  if (pair.length === 2) act('Compared', (document) => ({ ...document, compare: true }));
  else setState({ step: 'bringIn' });
}

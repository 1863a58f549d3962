import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Sample, SampleList } from '../../src/app/bringIn/samples.ts';
import { appFolder } from './served.ts';

/** The pair that the app lays out when it first opens, with what is stated about each. */
export function openingPair() {
  const list = JSON.parse(readFileSync(join(appFolder, 'samples/samples.json'), 'utf8')) as SampleList;
  const named = (file: string): Sample => {
    const sample = list.samples.find((one) => one.file === file);
    if (!sample) throw new Error(`${file} is not among the samples`);
    return sample;
  };
  const { reference, subject } = list.opening ?? { reference: list.samples[0].file, subject: list.samples[1].file };
  return { reference: asInput(named(reference)), subject: asInput(named(subject)) };
}

const asInput = ({ file, kind, unit, material }: Sample) => ({
  file,
  stated: { ...(kind && { kind }), ...(unit && { unit }), ...(material && { material }) },
});

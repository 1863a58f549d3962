import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type SampleList, statedOf } from '../../src/app/bringIn/samples.ts';
import { appFolder } from './served.ts';

/** The pair that the app lays out when it first opens, with what is stated about each. */
export function openingPair() {
  const { samples, opening } = JSON.parse(readFileSync(join(appFolder, 'samples/samples.json'), 'utf8')) as SampleList;
  const [reference, subject] = [opening?.reference, opening?.subject].map((file) => {
    const sample = samples.find((one) => one.file === file);
    if (!sample) throw new Error(`${file} is not among the samples`);
    return { file: sample.file, stated: statedOf(sample) };
  });
  return { reference, subject };
}

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type ComparedSubject, judgeTogether } from '../core/judge/index.ts';
import type { Comparison } from '../core/pipeline.ts';
import {
  buildComparisons,
  type ComparisonRecord,
  type ComparisonsRecord,
  togetherPage,
  togetherRecord,
} from '../core/report/index.ts';
import { UsageError } from './errors.ts';

/** One subject's record, and what is kept of its comparison until all are there. */
export interface Compared {
  readonly record: ComparisonRecord;
  readonly surfaces: ComparedSubject;
}

/** The faces and the fit without the meshes, so that many subjects fit into memory. */
export const keptOf = ({ reference, subject, fit, judgement }: Comparison): ComparedSubject => ({
  name: subject.scan.name,
  reference: reference.face,
  subject: subject.face,
  fit,
  finding: judgement.finding,
});

/** Texts for each subject in order, separated by semicolons; throws UsageError where there are more of them than subjects. */
export function datesFrom(value: string | boolean | undefined, subjects: number): string[] {
  if (typeof value !== 'string') return [];
  const dates = value.split(';');
  if (dates.length > subjects) throw new UsageError(`--dated: ${dates.length} dates for ${subjects} subjects.`);
  return dates;
}

/** The record of all subjects together; written with its page into `out` where that is given. */
export function joinSubjects(compared: readonly Compared[], dates: readonly string[], out?: string): ComparisonsRecord {
  const found = judgeTogether(compared.map(({ surfaces }) => surfaces));
  const record = buildComparisons(
    compared.map((each) => each.record),
    togetherRecord(found, dates),
  );
  if (out !== undefined) {
    mkdirSync(out, { recursive: true });
    writeFileSync(join(out, 'record.json'), `${JSON.stringify(record, null, 2)}\n`);
    writeFileSync(join(out, 'together.html'), togetherPage(record));
  }
  return record;
}

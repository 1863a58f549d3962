import { type ComparedSubject, judgeTogether } from '../core/condition/index.ts';
import type { Comparison } from '../core/pipeline.ts';
import {
  buildComparisons,
  type ComparisonRecord,
  type ComparisonsRecord,
  type Report,
  togetherRecord,
} from '../core/report/index.ts';
import { UsageError } from './errors.ts';

/** One subject's record, its report where one goes into a folder, and what is kept of its comparison until all are there. */
export interface Compared {
  readonly record: ComparisonRecord;
  readonly report?: Report;
  readonly surfaces: ComparedSubject;
}

/** What the pair found on its surfaces, without faces and meshes, so that many subjects fit into memory. */
export const keptOf = ({ reference, subject, judgement }: Comparison): ComparedSubject => ({
  name: subject.scan.name,
  referenceFace: reference.face.candidate,
  state: judgement.state,
  surfaces: judgement.surfaces ?? null,
});

/** Texts for each subject in order, separated by semicolons; throws UsageError where there are more of them than subjects. */
export function datesFrom(value: string | boolean | undefined, subjects: number): string[] {
  if (typeof value !== 'string') return [];
  const dates = value.split(';');
  if (dates.length > subjects) throw new UsageError(`--dated: ${dates.length} dates for ${subjects} subjects.`);
  return dates;
}

/** The record of all subjects together. */
export function joinSubjects(compared: readonly Compared[], dates: readonly string[]): ComparisonsRecord {
  const found = judgeTogether(compared.map(({ surfaces }) => surfaces));
  return buildComparisons(
    compared.map(({ record }) => record),
    togetherRecord(
      found,
      compared.map(({ record }) => record.subject.file),
      dates,
      compared[0].record.upright?.turnDeg,
    ),
  );
}

export { type NumberRow, numberRows } from './csv.ts';
export { type Drawing, type Rasterise, toPng, toSvg } from './drawing/index.ts';
export { changeMap } from './figures/change.ts';
export { type Figure, type FigureId, makeFigures } from './figures/index.ts';
export { fieldGrey, plateLamps } from './figures/lit.ts';
export { sectionLine } from './figures/sectionLine.ts';
export type { GroundCode, Speaks } from './grounds.ts';
export type { Paradata, StepName } from './input.ts';
export { type ChangeReport, type ChangeReportOptions, makeChangeReport } from './makeChangeReport.ts';
export {
  beginReport,
  type FigureToPaint,
  makeRecord,
  makeReport,
  type Report,
  type ReportOptions,
  reportFileNames,
} from './makeReport.ts';
export type { PageOptions } from './page/page.ts';
export type { OwnConclusion } from './page/sheets.ts';
export type { Typeface } from './page/style.ts';
export { togetherPage } from './page/togetherPage.ts';
export * from './plate/index.ts';
export { readingsCsv } from './readingsCsv.ts';
export { buildRecord } from './record/buildRecord.ts';

export type { ChangeRecord } from './record/changeSchema.ts';
export { fileMotion } from './record/fileMotion.ts';
export { type GroupRecord, groupRecord, type Member, type Named } from './record/groupRecord.ts';
export type { ComparisonRecord, MarkRecord, ScanRecord } from './record/schema.ts';
export { togetherRecord } from './record/togetherRecord.ts';
export type { ComparisonsRecord, Together } from './record/togetherSchema.ts';
export {
  buildComparisons,
  changeJsonSchema,
  comparisonsJsonSchema,
  recordJsonSchema,
  validateChange,
  validateComparisons,
  validateRecord,
} from './record/validate.ts';
export { uprightOfDates } from './upright.ts';
export { type Ground, groundsInWords, stateSentence } from './words/grounds.ts';
export { saysSimulated } from './words/phrases.ts';

export { cellsCsv, marksCsv, type NumberRow, numberRows, numbersCsv } from './csv.ts';
export { type Drawing, type Rasterise, toPng, toSvg } from './drawing/index.ts';
export { type Figure, type FigureId, figureIds, makeFigures } from './figures/index.ts';
export { sectionLine } from './figures/sectionLine.ts';
export { type GroundCode, mostGrounds, type Speaks } from './grounds.ts';
export { type Paradata, type StepName, stepNames } from './input.ts';
export { makeReport, type Report, type ReportOptions, reportDefaults, reportFileNames } from './makeReport.ts';
export { type PageOptions, reportPage } from './page/page.ts';
export type { OwnConclusion } from './page/sheets.ts';
export type { Typeface } from './page/style.ts';
export { togetherPage } from './page/togetherPage.ts';
export * from './plate/index.ts';
export { buildRecord } from './record/buildRecord.ts';
export { fileMotion } from './record/fileMotion.ts';
export { type ComparisonRecord, comparisonSchema, type MarkRecord, type ScanRecord } from './record/schema.ts';
export { togetherRecord } from './record/togetherRecord.ts';
export { type ComparisonsRecord, comparisonsSchema, type Together, togetherSchema } from './record/togetherSchema.ts';
export {
  buildComparisons,
  comparisonsJsonSchema,
  recordJsonSchema,
  validateComparisons,
  validateRecord,
} from './record/validate.ts';
export { type Ground, groundsInWords, stateSentence } from './words/grounds.ts';
export { saysSimulated } from './words/phrases.ts';

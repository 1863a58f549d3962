/**
 * The core as a library: two scans' bytes in, a comparison, its record and its report out. Times, files and chance are
 * the caller's.
 */
export type { KnownScores } from './judge/index.ts';
export {
  type Comparison,
  comparePrepared,
  type Given,
  type PreparedScan,
  preparePair,
  prepareScan,
  type ScanInput,
} from './pipeline.ts';
export {
  type ComparisonRecord,
  makeReport,
  type Paradata,
  type Rasterise,
  type Report,
  type ReportOptions,
  recordJsonSchema,
  validateRecord,
} from './report/index.ts';
export { type Kind, ScanError, type ScanErrorCode, type Unit } from './scan/index.ts';

import type { Comparison, PreparedScan } from '../input.ts';

/**
 * Every parameter of a comparison as it was resolved, stated or not: what the program took where nothing was said, and
 * from where. `stated` keeps what the user put, in the user's own words. Thresholds are named by `paradata.evidence`.
 */
export const parametersRecord = (comparison: Comparison, stated: Readonly<Record<string, unknown>>) => ({
  reference: scanParameters(comparison.reference),
  subject: scanParameters(comparison.subject),
  start: comparison.fit.start?.start.from ?? 'search',
  regionsLeftOut: comparison.excluded?.length ?? 0,
  calibration: comparison.judgement.calibration ?? null,
  stated: { ...stated },
});

/** What one scan was taken as. */
export const scanParameters = ({ scan, face, ...prepared }: PreparedScan) => ({
  unit: scan.unit,
  unitFrom: scan.unitFrom,
  kind: prepared.kind,
  kindFrom: prepared.kindFrom,
  material: prepared.material ?? null,
  scaleUncertaintyPercent: prepared.scaleUncertaintyPercent,
  scaleUncertaintyFrom: prepared.scaleUncertaintyFrom,
  senseFrom: face.senseFrom,
  upFrom: face.upFrom,
  candidate: face.candidate,
});

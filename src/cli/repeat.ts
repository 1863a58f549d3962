import { alignRelief, fitFaces } from '../core/fit/index.ts';
import { medianAbsoluteDeviation, sigmaFromMad } from '../core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../core/pipeline.ts';
import { UsageError } from './errors.ts';
import { scanInput } from './files.ts';
import type { Values } from './options.ts';

/**
 * Noise of one scan, mm (1 σ), from a second scan of the same object: the robust spread of the differences after a
 * rigid fit, divided by √2. Undefined where no repeat was given.
 */
export async function measuredNoise(
  scan: PreparedScan,
  repeat: string | boolean | undefined,
  values: Values,
): Promise<number | undefined> {
  if (typeof repeat !== 'string') return undefined;
  const second = await prepareScan(scanInput(repeat, values), {}, scan);
  const fit = fitFaces({ mesh: scan.scan.mesh, face: scan.face }, { mesh: second.scan.mesh, face: second.face });
  if (!fit.found) throw new UsageError(`--repeat ${repeat}: the two scans do not show the same face.`);
  const { reference, subject } = alignRelief(scan.face, second.face, fit.models[0]);
  const differences = reference.z.map((z, i) => (reference.mask[i] && subject.mask[i] ? subject.z[i] - z : Number.NaN));
  return (medianAbsoluteDeviation(differences) * sigmaFromMad) / Math.SQRT2;
}

import type { FaceZones } from '../compare/index.ts';
import type { Face } from '../face/index.ts';
import type { Fit } from '../fit/index.ts';
import { type FoundMark, findMarks } from './marks/index.ts';
import { stateReading } from './state.ts';
import type { Judgement, WavelengthBand, WearZone } from './types.ts';
import { wavelengthBands } from './wavelength.ts';
import { type WearMap, wearLabel, wearLabels } from './wearLabels.ts';
import { lossField } from './wearLoss.ts';
import { wearRelief } from './wearRelief.ts';
import { wearZones, zoneCells } from './wearZones.ts';

/** What a pair shows of wear, filling, damage and state. */
export interface WearAndDamage {
  readonly wear: { readonly zones: readonly WearZone[]; readonly byWavelength: readonly WavelengthBand[] };
  /** Label of every cell of the reference's face, in the impression's sense. */
  readonly wearMap: WearMap;
  readonly marks: readonly FoundMark[];
  readonly state: Judgement['state'];
}

/**
 * Wear, filling and damage of a fitted pair, over the reference as it is today. The senses are the faces' own. `zones`: those of
 * the reference's face, where they are at hand. Lengths in mm.
 */
export function judgeSurfaces(reference: Face, subject: Face, fit: Fit, zones?: FaceZones): WearAndDamage {
  const relief = wearRelief(reference, subject, fit);
  const cells = zoneCells(relief, reference, zones);
  const loss = lossField(relief);
  const wearMap = wearLabels(relief, loss);
  const byWavelength = wavelengthBands(relief.reference, relief.subject, relief.sizeMm);
  const wear = { zones: wearZones(relief, loss, wearMap, cells, byWavelength), byWavelength };
  const marks = findMarks(relief, loss, wearMap, cells.get('legend') ?? relief.inside, { reference, subject });
  return { wear, wearMap, marks, state: stateReading(marks, soundFraction(wearMap)) };
}

/** Share of the face whose surface is as the reference would make it. */
function soundFraction({ labels }: WearMap): number {
  let [all, sound] = [0, 0];
  for (const label of labels) {
    if (label === 0) continue;
    all++;
    if (label === wearLabel('sharp')) sound++;
  }
  return all > 0 ? sound / all : 0;
}

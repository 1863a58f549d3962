import { describe, expect, it } from 'vitest';
import { sharedLosses } from '../../../src/core/condition/losses/sharedLosses.ts';
import { cellOutlines } from '../../../src/core/condition/marks/cellOutline.ts';
import { findMarks } from '../../../src/core/condition/marks/index.ts';
import { letterHeights, recutLetters } from '../../../src/core/condition/marks/letters.ts';
import { secondStrike } from '../../../src/core/condition/marks/secondStrike.ts';
import { spotMarks } from '../../../src/core/condition/marks/spots.ts';
import { lossField } from '../../../src/core/condition/relief/loss.ts';
import { wavelengthBands } from '../../../src/core/condition/relief/wavelength.ts';
import { wearLabel, wearLabels, wearStates } from '../../../src/core/condition/wear/labels.ts';
import { wearZones } from '../../../src/core/condition/wear/zones.ts';
import type { ZoneName } from '../../../src/core/design/index.ts';
import type { Face } from '../../../src/core/face/index.ts';
import { cellsWhere, inBand, sizeMm } from '../../condition/pressedSeal.ts';
import { told } from '../told.ts';
import { damagedPair } from './damagedPair.ts';

const faces = { reference: { sense: 'intaglio' } as Face, subject: { sense: 'relief' } as Face };

describe.each([1, 2, 3, 4, 5, 6, 7, 8])('made pair %s with much damage: no figure of a step moves unseen', (seed) => {
  const relief = damagedPair(seed);
  const loss = lossField(relief);
  const map = wearLabels(relief, loss);
  const band = cellsWhere(relief.reference, inBand);
  const none = new Uint8Array(relief.reference.z.length);

  it('losses, labels, zones', async () => {
    const zones = new Map<ZoneName, Uint8Array>([
      ['whole', relief.inside],
      ['legend', band],
    ]);
    const bands = wavelengthBands(relief.reference, relief.subject, sizeMm);
    const figures = {
      loss,
      labels: map.labels,
      bands,
      zones: wearZones(relief, loss, map, zones, bands),
    };
    await expect(`${told(figures).join('\n')}\n`).toMatchFileSnapshot(`condition-${seed}.txt`);
  });

  it('marks', async () => {
    const cells = (k: number): number[] => [...map.labels.keys()].filter((i) => map.labels[i] === k);
    const figures = {
      marks: findMarks(relief, loss, map, band, faces),
      spots: spotMarks(relief, loss, map, none, {
        referenceSense: faces.reference.sense,
        subjectSense: faces.subject.sense,
      }),
      letters: letterHeights(relief, loss, band),
      recut: recutLetters(relief, loss, band, none),
      shared: sharedLosses(relief, loss),
      strike: secondStrike(relief, loss),
      outlines: wearStates.map((state) => cellOutlines(relief.reference, cells(wearLabel(state)))),
    };
    await expect(`${told(figures).join('\n')}\n`).toMatchFileSnapshot(`marks-${seed}.txt`);
  });
});

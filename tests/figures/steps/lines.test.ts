import { describe, expect, it } from 'vitest';
import { movedOnto } from '../../../src/core/condition/marks/lines/carrierSurface.ts';
import { type Chain, chainsOf, crestCells } from '../../../src/core/condition/marks/lines/chains.ts';
import { crossingLines } from '../../../src/core/condition/marks/lines/crossingLines.ts';
import { houghLines } from '../../../src/core/condition/marks/lines/houghLines.ts';
import { lineCourse } from '../../../src/core/condition/marks/lines/lineCourse.ts';
import { lineDefaults, lineField } from '../../../src/core/condition/marks/lines/lineField.ts';
import { lineLevel } from '../../../src/core/condition/marks/lines/lineLevel.ts';
import { lineProfiles } from '../../../src/core/condition/marks/lines/lineProfiles.ts';
import { lineReading } from '../../../src/core/condition/marks/lines/lineReading.ts';
import { lineNumbers } from '../../../src/core/condition/marks/lines/lineSection.ts';
import { crestHeight, differenceLines } from '../../../src/core/condition/marks/lines/lines.ts';
import { lineVerdict } from '../../../src/core/condition/marks/lines/lineVerdict.ts';
import { meanSection } from '../../../src/core/condition/marks/lines/meanSection.ts';
import { measureLine } from '../../../src/core/condition/marks/lines/measureLine.ts';
import { walkRefitted } from '../../../src/core/condition/marks/lines/walkLine.ts';
import { lossField } from '../../../src/core/condition/relief/loss.ts';
import { sampleGrid } from '../../../src/core/geometry/index.ts';
import { cellsWhere, inBand, sizeMm } from '../../condition/pressedSeal.ts';
import { told } from '../told.ts';
import { damagedPair } from './damagedPair.ts';

/** Everything between a field of crests and the reading of a line: so many numbers that a slip in any step moves one. */
describe.each([1, 2, 6])('lines of made pair %s: no figure of a step moves unseen', (seed) => {
  const relief = damagedPair(seed);
  const { subject: grid, reference } = relief;
  const loss = lossField(relief);
  const { directions } = lineDefaults;

  it('crests, chains, straight lines and the ways along them', async () => {
    const field = lineField([grid]);
    const crests = crestCells(grid, field.ridge, field.ridgeAlong, directions, () => 0.02);
    const chains = chainsOf(grid, field.ridge, field.ridgeAlong, directions, () => 0.02, sizeMm);
    const straight = houghLines(grid, crests, (i) => (field.ridgeAlong[i] * Math.PI) / directions, 12);
    const heights = [loss.height];
    const walked = straight.flatMap((line) => walkRefitted([grid], heights, line) ?? []);
    const together = straight.flatMap(
      (line) => walkRefitted([reference, grid], [loss.height, loss.height], line, (i) => i % 3 > 0) ?? [],
    );
    expect(straight.length).toBeGreaterThan(3);
    await expect(kept({ crests, chains, straight, walked, together })).toMatchFileSnapshot(`lines-${seed}.txt`);
  });

  it('lines one face has, lines that cross both, and their measures', async () => {
    const band = cellsWhere(reference, inBand);
    const differences = differenceLines(relief, loss);
    const crossing = crossingLines(relief, loss, differences, band);
    const all = [...differences, ...crossing].map(({ chain }) => chain);
    const measured = all.map((chain) => [
      measureLine(grid, grid.z, chain),
      measureLine(reference, reference.z, chain),
      crestHeight(grid, chain),
    ]);
    const steps = all.flatMap((chain) => ([1, -1] as const).map((sign) => stepsOf(chain, sign)));
    expect(all.length).toBeGreaterThan(2);
    await expect(kept({ differences, crossing, measured, steps })).toMatchFileSnapshot(`measures-${seed}.txt`);
  });

  /** A line's course, profiles, mean section, level, verdict and reading, on the subject moved onto the reference. */
  function stepsOf(chain: Chain, sign: 1 | -1) {
    const at = (x: number, y: number): number => sampleGrid(grid, x, y);
    const moved = movedOnto(at, { ...grid, z: reference.z, mask: reference.mask }, chain);
    const along = Array.from({ length: 20 }, (_, k) => moved(chain.x + (k - 10) * 0.3 * chain.ux, chain.y + k * 0.1));
    const surface = {
      ...{ own: moved, pitchMm: grid.pitch },
      design: (x: number, y: number): number => sampleGrid(reference, x, y),
    };
    const course = lineCourse(surface, chain, grid, sign, 0.5);
    const profiles = lineProfiles(surface, chain, course, sign, 0.5);
    const numbers = lineNumbers(surface, chain, grid, sign, 0.5);
    const verdict = lineVerdict(numbers);
    return {
      ...{ along, course, profiles, numbers, verdict },
      ...{ section: meanSection(profiles, grid.pitch), level: lineLevel(profiles, sign) },
      reading: lineReading(numbers, verdict, sign),
    };
  }
});

const kept = (figures: unknown): string => `${told(figures).join('\n')}\n`;

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FoundMark } from '../../../src/core/condition/marks/index.ts';
import type { SubjectFindings } from '../../../src/core/condition/states/joinMarks.ts';
import { stateReading } from '../../../src/core/condition/states/state.ts';
import { tellingMarks } from '../../../src/core/condition/states/tellingMarks.ts';
import { together } from '../../../src/core/condition/states/together.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';
import { contradictionsOf } from './contradictions.ts';

const sizeMm = 40;

/** A map of 40 × 40 mm in tiles of 10 mm, sound or lost. */
const wearMaps: fc.Arbitrary<WearMap> = fc.array(fc.boolean(), { minLength: 16, maxLength: 16 }).map((tiles) => {
  const labels = new Uint8Array(40 * 40);
  for (let i = 0; i < labels.length; i++) {
    const tile = Math.floor((i % 40) / 10) + 4 * Math.floor(i / 400);
    labels[i] = wearLabel(tiles[tile] ? 'sharp' : 'lost');
  }
  return { width: 40, height: 40, pitch: 1, left: -20, top: 20, turned: false, labels };
});

/** Marks crowd on few places, so that comparisons meet and dispute there; sizes lie about the guards. */
const marks: fc.Arbitrary<FoundMark> = fc
  .record({
    carriedBy: fc.constantFrom('reference', 'subject', 'both'),
    raised: fc.boolean(),
    otherIsSound: fc.boolean(),
    matched: fc.boolean(),
    shape: fc.constantFrom('cut', 'crack', 'scratch', 'line', 'recut', 'region', 'pit', 'chip'),
    x: fc.integer({ min: -3, max: 3 }),
    y: fc.integer({ min: -3, max: 3 }),
    lengthMm: fc.constantFrom(3, 6, 12, 26, 30),
    volumeMm3: fc.constantFrom(0.1, 0.5, 3),
  } as const)
  .map(({ x, y, carriedBy, otherIsSound, lengthMm, ...mark }) => ({
    ...mark,
    id: '',
    carriedBy,
    // The finder says so of every mark that both carry.
    otherIsSound: carriedBy === 'both' || otherIsSound,
    onSubject: carriedBy === 'reference' ? 'absent' : mark.raised ? 'raised' : 'sunk',
    at: { deg: 0, hour: 12, radiusMm: 0 },
    areaMm2: 4,
    depthMm: 0.3,
    lengthMm,
    readings: [],
    outline: Float64Array.of(4 * x - 1, 4 * y, 4 * x + 1, 4 * y, 4 * x, 4 * y + 0.5),
  }));

const subjects: fc.Arbitrary<SubjectFindings[]> = fc
  .array(
    fc.record({
      found: fc.array(marks, { maxLength: 6 }),
      wearMap: wearMaps,
      sound: fc.double({ min: 0, max: 1, noNaN: true }),
      fitted: fc.integer({ min: 0, max: 9 }).map((n) => n > 0),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((all) =>
    all.map(({ found, wearMap, sound, fitted }, k) => {
      const own = found.map((mark, i) => ({ ...mark, id: `M${i + 1}` }));
      const telling = tellingMarks(own, sizeMm).map(({ id }) => id);
      return { name: `S${k}`, fitted, marks: own, telling, state: stateReading(own, sound, sizeMm), wearMap };
    }),
  );

describe('joining subjects', () => {
  it('never contradicts their pair records, whatever was found on them', () => {
    let ordered = 0;
    fc.assert(
      fc.property(subjects, (all) => {
        const result = together(all);
        ordered += result.order.length;
        expect(
          contradictionsOf(
            result,
            all.map(({ state }) => state),
          ),
        ).toEqual([]);
      }),
      { numRuns: 3000, seed: 41 },
    );
    // The law would hold of a rule that never says anything.
    expect(ordered).toBeGreaterThan(500);
  });

  it('says the same in whatever order the subjects come, where each place is found by one', () => {
    const cut = (x: number, carriedBy: FoundMark['carriedBy']): FoundMark =>
      ({
        ...fc.sample(marks, { numRuns: 1, seed: 1 })[0],
        id: 'M1',
        carriedBy,
        raised: true,
        otherIsSound: true,
        matched: true,
        shape: 'cut',
        lengthMm: 30,
        volumeMm3: 3,
        outline: Float64Array.of(x - 1, 0, x + 1, 0, x, 0.5),
      }) as FoundMark;
    fc.assert(
      fc.property(
        fc.array(fc.record({ carriedBy: fc.constantFrom('reference', 'subject'), wearMap: wearMaps } as const), {
          minLength: 2,
          maxLength: 4,
        }),
        (all) => {
          const listed = all.map(({ carriedBy, wearMap }, k): SubjectFindings => {
            const own = [cut(8 * k - 12, carriedBy)];
            return {
              name: `${k}`,
              fitted: true,
              marks: own,
              telling: ['M1'],
              state: stateReading(own, 0.9, 40),
              wearMap,
            };
          });
          const said = (of: readonly SubjectFindings[]): string[] =>
            together(of)
              .order.map(({ earlier, later }) => `${of[earlier].name} before ${of[later].name}`)
              .sort();
          expect(said([...listed].reverse())).toEqual(said(listed));
        },
      ),
      { numRuns: 300, seed: 42 },
    );
  });
});

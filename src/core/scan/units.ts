import { scaleMesh } from '../geometry/index.ts';
import { mmPer, type RawScan, type Scan, type Unit, type UnitFrom, units } from './types.ts';

/** Engraved faces are 8 to 160 mm across. */
export const smallestFaceMm = 8;
export const largestFaceMm = 160;

/** A unit that the file gives and that makes the face larger or smaller than this is asked about, mm. */
export const largestGivenMm = 400;
export const smallestGivenMm = 1;
/** Beyond these no face is prepared, whoever states its unit: figures and grids are laid out in millimetres. */
export const largestStatedMm = 1000;
export const smallestStatedMm = 0.1;

/** Whole faces of one matrix differ by shrinkage and by how their rim is found: by no more than this ratio. */
const sameSize = { from: 0.85, to: 1.18 };
/** A fragment may be half as long as the face that it broke from, or a little less; either scan may be the fragment. */
const fragmentSize = { from: 0.4, to: 2.5 };

export type UnitDecision =
  | { readonly unit: Unit; readonly unitFrom: UnitFrom }
  /** The units between which the user has to choose, likeliest first. */
  | { readonly ask: readonly Unit[] };

const inMm = (length: number, unit: Unit): number => length * mmPer[unit];

/** The units in which a face of this length would be 8 to 160 mm long. */
export const plausibleUnits = (faceLongSideInFileUnits: number): Unit[] =>
  units.filter((unit) => {
    const mm = inMm(faceLongSideInFileUnits, unit);
    return mm >= smallestFaceMm && mm <= largestFaceMm;
  });

/**
 * In which unit a file is: what the user states, where a face can have that size; what the file says, where that is
 * trusted and makes the face 1 to 400 mm long, or makes it 8 to 160 mm long; the one unit that makes the face agree with the partner's; the one plausible unit. Else ask.
 *
 * Lengths: the long side of the face, in the file's own unit, and of the partner's face in mm, where that scan's unit
 * is known. Agreement is looked for in the narrow window of whole faces first, over all units; then, among plausible
 * units, in the wide window of fragments. The steps between units (10, 2.54, 25.4) are all wider than the narrow
 * window, so that it never holds two.
 */
export function decideUnit(
  raw: Pick<RawScan, 'unitInFile' | 'unitTrusted'>,
  faceLongSide: number,
  partnerLongSideMm?: number,
  stated?: Unit,
): UnitDecision {
  const plausible = plausibleUnits(faceLongSide);
  if (stated && inMm(faceLongSide, stated) <= largestStatedMm && inMm(faceLongSide, stated) >= smallestStatedMm)
    return { unit: stated, unitFrom: 'stated' };
  if (stated) return { ask: plausible.length > 0 ? plausible : possibleUnits(faceLongSide) };
  const { unitInFile, unitTrusted } = raw;
  if (unitInFile && (plausible.includes(unitInFile) || (unitTrusted && canBeGiven(faceLongSide, unitInFile))))
    return { unit: unitInFile, unitFrom: 'file' };
  // Metres that cannot be: the writer meant another unit, and which, the size alone does not say.
  if (unitInFile && unitTrusted) return { ask: plausible.length > 0 ? plausible : possibleUnits(faceLongSide) };
  const agreeing =
    partnerLongSideMm === undefined ? undefined : agreeingUnit(faceLongSide, partnerLongSideMm, plausible);
  const unit = agreeing ?? (plausible.length === 1 ? plausible[0] : undefined);
  if (unit) return { unit, unitFrom: 'assumed' };
  return { ask: plausible.length > 0 ? plausible : possibleUnits(faceLongSide) };
}

function canBeGiven(faceLongSide: number, unit: Unit): boolean {
  const mm = inMm(faceLongSide, unit);
  return mm >= smallestGivenMm && mm <= largestGivenMm;
}

/** Units that a user may state for a face of this length; all of them where none fits. */
function possibleUnits(faceLongSide: number): readonly Unit[] {
  const possible = units.filter((unit) => {
    const mm = inMm(faceLongSide, unit);
    return mm >= smallestStatedMm && mm <= largestStatedMm;
  });
  return possible.length > 0 ? possible : units;
}

function agreeingUnit(faceLongSide: number, partnerMm: number, plausible: readonly Unit[]): Unit | undefined {
  const within = (candidates: readonly Unit[], { from, to }: { from: number; to: number }) =>
    candidates.filter((unit) => {
      const ratio = inMm(faceLongSide, unit) / partnerMm;
      return ratio >= from && ratio <= to;
    });
  const same = within(units, sameSize);
  if (same.length === 1) return same[0];
  const fragment = within(plausible, fragmentSize);
  return fragment.length === 1 ? fragment[0] : undefined;
}

/** What is known of one scan of a pair. */
export interface UnitQuestion {
  readonly raw: Pick<RawScan, 'unitInFile' | 'unitTrusted'>;
  readonly faceLongSide: number;
  readonly stated?: Unit;
}

/**
 * Both units of a pair: a scan whose unit can be told on its own is told first and then helps with the other.
 * Nothing is guessed from two unknown scans: both could be ten times as large.
 */
export function decideUnitsOfPair(first: UnitQuestion, second: UnitQuestion): [UnitDecision, UnitDecision] {
  const alone = [first, second].map(({ raw, faceLongSide, stated }) =>
    decideUnit(raw, faceLongSide, undefined, stated),
  );
  const lengthMm = (question: UnitQuestion, decision: UnitDecision) =>
    'unit' in decision ? inMm(question.faceLongSide, decision.unit) : undefined;
  const withPartner = (i: number, question: UnitQuestion, partner: UnitQuestion): UnitDecision => {
    const partnerMm = lengthMm(partner, alone[1 - i]);
    const settled = 'unit' in alone[i] && alone[i].unitFrom !== 'assumed';
    return settled || partnerMm === undefined
      ? alone[i]
      : decideUnit(question.raw, question.faceLongSide, partnerMm, question.stated);
  };
  const partnerKnown = alone.map((decision) => 'unit' in decision && decision.unitFrom !== 'assumed');
  // Two assumptions must not overrule one another: then each stands as made on its own.
  if ('unit' in alone[0] && 'unit' in alone[1] && !partnerKnown[0] && !partnerKnown[1]) return [alone[0], alone[1]];
  return [withPartner(0, first, second), withPartner(1, second, first)];
}

/** The scan in millimetres. */
export function toMillimetres(raw: RawScan, unit: Unit, unitFrom: UnitFrom): Scan {
  const { unitInFile: _inFile, unitTrusted: _trusted, totals: _totals, mesh, ...rest } = raw;
  return { ...rest, mesh: scaleMesh(mesh, mmPer[unit]), unit, unitFrom };
}

import type { LineSection } from '../../condition/index.ts';
import { lineWords } from '../words/lines.ts';
import { rounded, roundedMm, roundedShare } from './rounded.ts';

/** A line mark's section for the record: verdict, words, grounds and every number that they rest on; lengths mm. */
export const lineSectionRecord = ({ verdict, lead, grounds, ridge, measured, reading }: LineSection) => ({
  verdict,
  words: lineWords({ reading, measured, ridge }),
  lead: rounded(lead, 3),
  grounds: grounds.map(({ name, cut, crack, scratch }) => ({
    name,
    cut: rounded(cut, 3),
    crack: rounded(crack, 3),
    scratch: rounded(scratch, 3),
  })),
  ridge,
  measured: measured && {
    section: sectionRecord(measured.section),
    level: measured.level && {
      ...measured.level,
      lowMm: roundedMm(measured.level.lowMm),
      highMm: roundedMm(measured.level.highMm),
      levelMm: roundedMm(measured.level.levelMm),
      offLevelMm: roundedMm(measured.level.offLevelMm),
      offHeightMm: roundedMm(measured.level.offHeightMm),
      forLevel: rounded(measured.level.forLevel, 3),
      beyond: rounded(measured.level.beyond, 2),
      beyondWithout: rounded(measured.level.beyondWithout, 2),
    },
    lengthMm: roundedMm(measured.lengthMm),
    strayMm: roundedMm(measured.strayMm),
    wanderMm: roundedMm(measured.wanderMm),
    seen: roundedShare(measured.seen),
    pitchMm: roundedMm(measured.pitchMm),
  },
});

const sectionRecord = (s: NonNullable<LineSection['measured']>['section']) => ({
  asideMm: Array.from(s.asideMm, roundedMm),
  heightMm: Array.from(s.heightMm, roundedMm),
  heightSdMm: Array.from(s.heightSdMm, roundedMm),
  depthMm: roundedMm(s.depthMm),
  depthSdMm: roundedMm(s.depthSdMm),
  mostMm: roundedMm(s.mostMm),
  widthMm: roundedMm(s.widthMm),
  widthSdMm: roundedMm(s.widthSdMm),
  areaMm2: roundedMm(s.areaMm2),
  areaSdMm2: roundedMm(s.areaSdMm2),
  flankDeg: s.flankDeg.map((value) => rounded(value, 1)),
  fullness: rounded(s.fullness, 3),
  bottom: s.bottom,
  lipMm: s.lipMm.map(roundedMm),
  lipSdMm: s.lipSdMm.map(roundedMm),
  widthSpread: rounded(s.widthSpread, 3),
  pieces: s.pieces,
});

import type { DifferenceStatistics, LevelParts } from '../../compare/index.ts';
import type { Mark } from '../../condition/index.ts';
import type { ExcludedRegion } from '../../face/index.ts';
import { chosenModel, type FitModel, type StartTaken } from '../../fit/index.ts';
import { outlineArea } from '../../geometry/index.ts';
import type { Constellation, Evidence, Hypothesis, Judgement } from '../../judge/index.ts';
import type { Comparison, Paradata } from '../input.ts';
import { uprightOf } from '../upright.ts';
import { doubtWords, freeMotionWords, startRefusalWords } from '../words/doubts.ts';
import { evidenceWords } from '../words/evidence.ts';
import { findingSentence } from '../words/finding.ts';
import { gateWords } from '../words/gates.ts';
import { type Ground, groundsInWords, stateSentence } from '../words/grounds.ts';
import { verdictWords } from '../words/hypotheses.ts';
import { populationWords } from '../words/population.ts';
import { readingWords } from '../words/readings.ts';
import { sizeWords } from '../words/size.ts';
import { descentByRecord } from './descentRecord.ts';
import { evidenceHash } from './evidenceHash.ts';
import { fileMotion } from './fileMotion.ts';
import { limitRecord } from './limitRecord.ts';
import { lineSectionRecord } from './lineSectionRecord.ts';
import { parametersRecord } from './parameters.ts';
import { placed, placeRecord, rounded, roundedMm, roundedShare } from './rounded.ts';
import { matrixRecord, scanRecord } from './scanRecord.ts';
import type { ComparisonRecord, MarkRecord } from './schema.ts';
import { stateRecord } from './stateRecord.ts';

/**
 * The record of one comparison as plain JSON: lengths in mm to 0.1 µm, degrees to 0.001, ratios to 6 decimals; null
 * where a number could not be measured. Matrices stand in the files' own coordinates, in mm.
 */
export function buildRecord(comparison: Comparison, paradata: Paradata): ComparisonRecord {
  const { reference, subject, judgement } = comparison;
  const { turnDeg, from } = uprightOf(comparison);
  return {
    schema: 'ectype/comparison/2',
    reference: scanRecord(reference, judgement.images[0]),
    subject: scanRecord(subject, judgement.images[1]),
    ...(comparison.excluded && { excluded: comparison.excluded.map(excludedRecord) }),
    fit: fitRecord(comparison),
    difference: differenceRecord(comparison),
    size: sizeRecord(comparison),
    wear: wearRecord(judgement),
    upright: { turnDeg: rounded(turnDeg, 2) ?? 0, from },
    damage: judgement.damage.map((mark) => markRecord(mark, turnDeg)),
    judge: {
      ...judgeRecord(judgement, comparison.fit.found),
      sentence: findingSentence(judgement, stateSentence(comparison)),
      grounds: groundsInWords(comparison).map(groundRecord),
    },
    paradata: paradataRecord(comparison, paradata),
  };
}

const intervalRecord = (interval: Judgement['interval']): [number | null, number | null] | null =>
  interval && [rounded(interval[0], 4), rounded(interval[1], 4)];

/** One ground of the argument: code and marks, and its words. */
const groundRecord = (ground: Ground) => ({ ...ground, marks: [...ground.marks] });

/** A region that a person left out, in the reference's face frame. */
const excludedRecord = ({ outline, why, by }: ExcludedRegion) => ({
  why,
  by,
  areaMm2: rounded(outlineArea(outline), 3) ?? 0,
  outline: outline.flatMap(([x, y]) => [placed(x), placed(y)]),
});

function fitRecord({ reference, subject, fit }: Comparison): ComparisonRecord['fit'] {
  const chosen = fit.found ? chosenModel(fit) : undefined;
  const offsets = [reference.scan.mesh.offset, subject.scan.mesh.offset] as const;
  return {
    found: chosen !== undefined,
    subjectToReference: chosen ? matrixRecord(fileMotion(chosen.referenceFromSubject, ...offsets)) : null,
    chosen: fit.chosen,
    turnedOver: fit.turnedOver,
    mirrored: fit.mirrored,
    overlap: roundedShare(fit.overlap),
    score: rounded(fit.score, 4),
    rivalScore: rounded(fit.rivalScore, 4),
    significance: rounded(fit.significance, 3),
    models: fit.models.map(modelRecord),
    rotationSdDeg: rounded(fit.rotationSdDeg, 5),
    translationSdMm: rounded(fit.translationSdMm, 5),
    rivalTurns: fit.rivalTurns.map(({ turnDeg, score }) => ({
      turnDeg: rounded(turnDeg, 3) ?? 0,
      score: rounded(score, 4),
    })),
    doubts: fit.doubts.map(doubtWords),
    degenerate: fit.degenerate.map((motion) => freeMotionWords[motion]),
    ...(fit.start && { start: startRecord(fit.start) }),
  };
}

/** That the fit began where a person put it; pairs in the face frames of reference and subject. */
const startRecord = ({ start, refused, searchSignificance, pairsRestMm, pairsApartMm }: StartTaken) => ({
  by: 'hand' as const,
  from: start.from,
  ...(start.from === 'turn'
    ? { turnDeg: rounded(start.turnDeg, 3), ...(start.scale !== undefined && { scale: rounded(start.scale, 6) }) }
    : {
        pairs: start.pairs.map((pair) => ({
          reference: pair.reference.map(placed),
          subject: pair.subject.map(placed),
        })),
        pairsRestMm: roundedMm(pairsRestMm),
        pairsApartMm: roundedMm(pairsApartMm),
      }),
  searchSignificance: rounded(searchSignificance, 3),
  ...(refused && { refused: startRefusalWords(refused) }),
});

const modelRecord = (model: FitModel): ComparisonRecord['fit']['models'][number] => ({
  model: model.model,
  scale: rounded(model.scale, 6),
  scaleSd: rounded(model.scaleSd, 6),
  rmsMm: roundedMm(model.rmsMm),
  heldOutRmsMm: roundedMm(model.heldOutRmsMm),
  ...(model.warpRmsMm === undefined ? {} : { warpRmsMm: roundedMm(model.warpRmsMm) }),
});

const statisticsRecord = (s: DifferenceStatistics | undefined) => ({
  medianMm: roundedMm(s?.medianMm),
  madMm: roundedMm(s?.madMm),
  rmsMm: roundedMm(s?.rmsMm),
  p95Mm: roundedMm(s?.p95Mm),
  coveredFraction: roundedShare(s?.coveredFraction ?? 0),
});

const differenceRecord = ({ difference }: Comparison): ComparisonRecord['difference'] => ({
  ...statisticsRecord(difference?.whole),
  levelOfDetectionMm: roundedMm(difference?.levelOfDetectionMm),
  ...(difference?.level && { level: levelRecord(difference.level) }),
  zones: (difference?.zones ?? []).map((zone) => ({ zone: zone.zone, ...statisticsRecord(zone) })),
});

/** What the level of detection was worked out from: reference first, then subject. */
const levelRecord = ({ sigmaMm, neighbours, mapSigmaMm, systematicMm }: LevelParts) => ({
  sigmaMm: sigmaMm.map(roundedMm),
  neighbours: neighbours.map((n) => rounded(n, 2)),
  ...(mapSigmaMm !== undefined && { mapSigmaMm: roundedMm(mapSigmaMm) }),
  systematicMm: roundedMm(systematicMm),
});

const sizeRecord = ({ difference }: Comparison): ComparisonRecord['size'] => ({
  ratio: rounded(difference?.size.ratio, 6),
  sd: rounded(difference?.size.sd, 6),
  x: rounded(difference?.size.x, 6),
  y: rounded(difference?.size.y, 6),
  depth: rounded(difference?.size.depth, 6),
  sdX: rounded(difference?.size.sdX, 6),
  sdY: rounded(difference?.size.sdY, 6),
  sdDepth: rounded(difference?.size.sdDepth, 6),
  reading: (difference?.size.reading ?? []).map(sizeWords),
});

const wearRecord = ({ wear }: Judgement): ComparisonRecord['wear'] => ({
  gone: rounded(wear.gone, 4),
  zones: wear.zones.map((zone) => ({
    zone: zone.zone,
    state: zone.state,
    heightKept: rounded(zone.heightKept, 4),
    heightKeptSd: rounded(zone.heightKeptSd, 4),
    fraction: roundedShare(zone.fraction),
  })),
  byWavelength: wear.byWavelength.map((band) => ({
    fromMm: rounded(band.fromMm, 4) ?? 0,
    toMm: rounded(band.toMm, 4) ?? 0,
    gain: rounded(band.gain, 4),
    coherence: rounded(band.coherence, 4),
  })),
});

/** `turnDeg`: by which the pictures stand upright, and places are told. */
const markRecord = (mark: Mark, turnDeg: number): MarkRecord => ({
  id: mark.id,
  carriedBy: mark.carriedBy,
  at: placeRecord(mark.at, turnDeg),
  areaMm2: roundedMm(mark.areaMm2),
  depthMm: roundedMm(mark.depthMm),
  volumeMm3: roundedMm(mark.volumeMm3),
  shape: mark.shape,
  onSubject: mark.onSubject,
  readings: mark.readings.map(readingWords),
  ...(mark.section && { section: lineSectionRecord(mark.section) }),
  outline: Array.from(mark.outline, placed),
});

/** Scores of a pair that no fit brought together would mean nothing: they are null. */
const judgeRecord = (judgement: Judgement, found: boolean) => ({
  correlation: found ? rounded(judgement.correlation, 4) : null,
  topographyDifference: rounded(judgement.topographyDifference, 4),
  cells: {
    compared: judgement.cells.compared,
    congruent: judgement.cells.congruent,
    each: judgement.cells.cells.map((cell) => ({
      x: placed(cell.x),
      y: placed(cell.y),
      dx: roundedMm(cell.dx),
      dy: roundedMm(cell.dy),
      turnDeg: rounded(cell.turnDeg, 3),
      offsetMm: roundedMm(cell.offsetMm),
      correlation: rounded(cell.correlation, 4),
      congruent: cell.congruent,
    })),
  },
  landmarks: judgement.constellation && landmarksRecord(judgement.constellation),
  evidence: judgement.evidence.map(evidenceRecord),
  gates: judgement.gates.map((gate) => ({
    ...gate,
    name: gateWords[gate.code].name,
    unit: gateWords[gate.code].unit,
    value: rounded(gate.value, 6),
    limit: rounded(gate.limit, 6) ?? 0,
  })),
  question: judgement.question,
  descent: judgement.descent,
  ...descentByRecord(judgement),
  typical: null,
  interval: intervalRecord(judgement.interval),
  rolesConfidence: rounded(judgement.rolesConfidence, 3),
  statedAgainstFit: judgement.statedAgainstFit,
  secondStrike: judgement.secondStrike && {
    kind: judgement.secondStrike.kind,
    shiftMm: roundedMm(judgement.secondStrike.shiftMm),
    towardDeg: rounded(judgement.secondStrike.towardDeg, 1),
    turnDeg: rounded(judgement.secondStrike.turnDeg, 2),
    share: roundedShare(judgement.secondStrike.share),
  },
  hypotheses: judgement.hypotheses.map(hypothesisRecord),
  state: stateRecord(judgement.state),
  finding: judgement.finding,
  strength: judgement.strength,
  limits: judgement.limits.map(limitRecord),
  calibration: judgement.calibration,
  population: populationWords(),
  score: found ? rounded(judgement.score, 4) : null,
});

const evidenceRecord = (piece: Evidence): ComparisonRecord['judge']['evidence'][number] => ({
  ...evidenceWords(piece),
  favours: piece.favours,
  over: piece.over,
  value: rounded(piece.value, 6),
  ...(piece.sd !== undefined && { sd: rounded(piece.sd, 6) }),
});

const hypothesisRecord = ({ id, over, verdict, log10Lr }: Hypothesis) => ({
  id,
  over,
  words: verdictWords(verdict),
  log10Lr: log10Lr === null ? null : rounded(log10Lr, 3),
});

/** Places of landmarks on the reference's face, shifts and what the others leave of them, mm; ellipses of 95 %. */
const landmarksRecord = ({ landmarks, found, unseen, smoothMm, outside }: Constellation) => ({
  found,
  seen: landmarks.length,
  smoothMm: roundedMm(smoothMm),
  outside: roundedShare(outside),
  each: landmarks.map(({ x, y, dx, dy, aloneSmooth, ellipse, correlation }) => ({
    x: placed(x),
    y: placed(y),
    dx: roundedMm(dx),
    dy: roundedMm(dy),
    aloneSmooth: aloneSmooth.map(roundedMm),
    ellipse: { majorMm: roundedMm(ellipse.majorMm), minorMm: roundedMm(ellipse.minorMm), deg: rounded(ellipse.deg, 1) },
    correlation: rounded(correlation, 4),
  })),
  unseen: unseen.map(({ x, y }) => ({ x: placed(x), y: placed(y) })),
});

const paradataRecord = (
  comparison: Comparison,
  { version, build, stated, startedAt, seconds, commandLine }: Paradata,
) => ({
  version,
  ...(build === undefined ? {} : { build }),
  evidence: evidenceHash(),
  parameters: parametersRecord(comparison, stated),
  startedAt,
  seconds: {
    read: rounded(seconds.read, 3),
    face: rounded(seconds.face, 3),
    fit: rounded(seconds.fit, 3),
    compare: rounded(seconds.compare, 3),
    judge: rounded(seconds.judge, 3),
  },
  ...(commandLine === undefined ? {} : { commandLine }),
});

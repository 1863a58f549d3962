import type { Change, ChangeFound } from '../../change/index.ts';
import type { ChangeComparison, Paradata, PreparedScan } from '../input.ts';
import { uprightOfDates } from '../upright.ts';
import { changeLimitWords, changeOfSizeWords, changeSentence, changeWords } from '../words/change.ts';
import type { ChangeRecord } from './changeSchema.ts';
import { changeHash } from './evidenceHash.ts';
import { fileMotion } from './fileMotion.ts';
import { scanParameters } from './parameters.ts';
import { placed, placeRecord, rounded, roundedMm, roundedShare } from './rounded.ts';
import { matrixRecord, scanRecord } from './scanRecord.ts';
import { validateChange } from './validate.ts';

/** What happened to one object between two scans, as plain JSON. Throws a RangeError where that makes no valid record. */
export function buildChangeRecord(comparison: ChangeComparison, paradata: Paradata, simulated: boolean): ChangeRecord {
  const { earlier, later, earlierAgain, laterAgain, result } = comparison;
  const found = result.judged ? result : null;
  const { turnDeg, from } = uprightOfDates(comparison);
  return validateChange({
    schema: 'ectype/change/1',
    ...(simulated && { simulated }),
    earlier: scanRecord(earlier, null),
    later: scanRecord(later, null),
    repeats: { earlier: repeatRecord(earlierAgain), later: repeatRecord(laterAgain) },
    upright: { turnDeg: rounded(turnDeg, 2) ?? 0, from },
    judged: result.judged,
    why: result.judged ? null : result.why,
    registration: found && registrationRecord(comparison, found),
    size: found && {
      ratio: rounded(found.size.ratio, 6),
      sd: rounded(found.size.sd, 6),
      reading: found.size.reading,
      words: changeOfSizeWords(found.size),
    },
    noise: found && {
      from: found.noise.from,
      cellMm: rounded(found.noise.cellMm, 5),
      cellSideMm: rounded(found.noise.pitchMm, 4),
      sensitivity: found.sensitivity.map(({ areaMm2, heightMm }) => ({ areaMm2, heightMm: rounded(heightMm, 5) })),
    },
    changes: found ? found.changes.map((change) => changeRecordOf(change, turnDeg)) : [],
    total: found && Object.fromEntries(Object.entries(found.total).map(([name, value]) => [name, rounded(value, 4)])),
    sentence: changeSentence(result, turnDeg),
    limits: found ? found.limits.map((limit) => ({ ...limit, words: changeLimitWords(limit) })) : [],
    paradata: {
      version: paradata.version,
      ...(paradata.build === undefined ? {} : { build: paradata.build }),
      evidence: changeHash(),
      parameters: { earlier: scanParameters(earlier), later: scanParameters(later), stated: { ...paradata.stated } },
      startedAt: paradata.startedAt,
      seconds: Object.fromEntries(Object.entries(paradata.seconds).map(([step, value]) => [step, rounded(value, 3)])),
      ...(paradata.commandLine === undefined ? {} : { commandLine: paradata.commandLine }),
    },
  });
}

const repeatRecord = (scan: PreparedScan | undefined) =>
  scan ? { file: scan.scan.name, sha256: scan.scan.sha256 } : null;

const registrationRecord = ({ earlier, later }: ChangeComparison, found: ChangeFound) => ({
  laterToEarlier: matrixRecord(fileMotion(found.earlierFromLater, earlier.scan.mesh.offset, later.scan.mesh.offset)),
  rotationSdDeg: rounded(found.rotationSdDeg, 6),
  translationSdMm: rounded(found.translationSdMm, 6),
  unchangedShare: roundedShare(found.unchangedShare),
  comparedShare: roundedShare(found.comparedShare),
  bendingRmsMm: rounded(found.bendingRmsMm, 5),
  blunter: found.blunt.which,
  blurSigmaMm: rounded(found.blunt.sigmaMm, 4),
});

const changeRecordOf = (change: Change, turnDeg: number) => ({
  ...change,
  at: placeRecord(change.at, turnDeg),
  areaMm2: rounded(change.areaMm2, 3),
  meanMm: rounded(change.meanMm, 5),
  farthestMm: rounded(change.farthestMm, 5),
  volumeMm3: rounded(change.volumeMm3, 4),
  volumeSdMm3: rounded(change.volumeSdMm3, 4),
  timesLeast: rounded(change.timesLeast, 2),
  ...(change.lengthMm !== undefined && { lengthMm: roundedMm(change.lengthMm) }),
  ...(change.widthMm !== undefined && { widthMm: roundedMm(change.widthMm) }),
  words: changeWords(change),
  outline: Array.from(change.outline, placed),
});

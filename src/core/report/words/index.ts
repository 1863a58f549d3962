/** Sentences from codes and numbers. Nothing that decides reads them; another language would be another such folder. */

export { bandDoubtWords, bandWords } from './bands.ts';
export { captionWords, printed } from './captions/index.ts';
export { cardFaultWords, fieldFaultWords, manifestFaultWords } from './card.ts';
export {
  changeCauseWords,
  changeFactsWords,
  changeLimitWords,
  changeOfSizeWords,
  changeSentence,
  changeWords,
} from './change.ts';
export { comparedReadingsWords, readingVerdictWords, readPlaceWords } from './comparedReadings.ts';
export { compositeWords, standingWords } from './composite.ts';
export { doubtWords, freeMotionWords, startRefusalWords } from './doubts.ts';
export { type EvidenceWords, evidenceWords } from './evidence.ts';
export { findingParts, findingSentence, weighedWords } from './finding.ts';
export { type FragmentsShown, fragmentsWords, overlapWords } from './fragments.ts';
export {
  candidateWords,
  groupingSummary,
  groupNotes,
  groupTitle,
  imageLeftWords,
  objectLabel,
  pairWords,
  partedBetween,
  partedBy,
  partedTitle,
  partedWords,
  possibleMemberWords,
  provisionalWords,
  sidesWords,
  tieWords,
} from './groups.ts';
export { verdictWords } from './hypotheses.ts';
export { lampsCaption, lampWords, viewWords } from './light.ts';
export { limitWords } from './limits.ts';
export { lineWords } from './lines.ts';
export { lookCaption, lookNameWords } from './looks.ts';
export { byName, namesOf } from './names.ts';
export { pictureWords } from './pictures.ts';
export { placeOfMark } from './places.ts';
export { readingWords } from './readings.ts';
export { type RequirementWords, requirementWords } from './scanCheck.ts';
export { markWords, outlineWords } from './shapes.ts';
export { sizeWords } from './size.ts';
export { facingDoubtWords, letterSenseWords, stripWords } from './strip.ts';
export { transcriptionWords } from './transcription.ts';
export { fingerCaution, ridgeWords } from './waxBack.ts';

import { floorsAlikeDefaults } from './losses/floorsAlike.ts';
import { joinBaysDefaults } from './losses/joinBays.ts';
import { layEdgeDefaults } from './losses/layEdge.ts';
import { sharedEdgeDefaults } from './losses/sharedEdge.ts';
import { sharedLossDefaults } from './losses/sharedLosses.ts';
import { keptAsHighDefaults } from './marks/keptAsHigh.ts';
import { letterDefaults } from './marks/letters.ts';
import { anewDefaults } from './marks/lettersAnew.ts';
import { alongRingDefaults } from './marks/lines/alongRing.ts';
import { bandChanceDefaults } from './marks/lines/bandChance.ts';
import { beyondBandDefaults } from './marks/lines/beyondBand.ts';
import { chainDefaults } from './marks/lines/chains.ts';
import { crossingDefaults } from './marks/lines/crossingLines.ts';
import { houghDefaults } from './marks/lines/houghLines.ts';
import { courseDefaults } from './marks/lines/lineCourse.ts';
import { lineDefaults } from './marks/lines/lineField.ts';
import { levelDefaults } from './marks/lines/lineLevel.ts';
import { profileDefaults } from './marks/lines/lineProfiles.ts';
import { lineReadingDefaults } from './marks/lines/lineReading.ts';
import { lineMarkDefaults } from './marks/lines/lines.ts';
import { verdictDefaults } from './marks/lines/lineVerdict.ts';
import { matchedDefaults } from './marks/lines/matchedLines.ts';
import { sectionDefaults } from './marks/lines/meanSection.ts';
import { walkDefaults } from './marks/lines/walkLine.ts';
import { markDefaults } from './marks/markDefaults.ts';
import { overLevelDefaults } from './marks/overLevel.ts';
import { secondStrikeDefaults } from './marks/secondStrike.ts';
import { soundDefaults } from './marks/soundGround.ts';
import { spotDefaults } from './marks/spots.ts';
import { strokeDefaults } from './marks/strokes.ts';
import { groundDefaults } from './relief/ground.ts';
import { levelDefaults as reliefLevelDefaults } from './relief/level.ts';
import { lossDefaults } from './relief/loss.ts';
import { loweringDefaults } from './relief/lowering.ts';
import { ownFormDefaults } from './relief/ownForms.ts';
import { wearReliefDefaults } from './relief/relief.ts';
import { wavelengthDefaults } from './relief/wavelength.ts';
import { rimDefaults } from './relief/withinRim.ts';
import { joinDefaults } from './states/joinMarks.ts';
import { stateDefaults } from './states/tellingMarks.ts';
import { anotherDesignDefaults } from './wear/anotherDesign.ts';
import { areaDefaults } from './wear/areas.ts';
import { labelDefaults } from './wear/labels.ts';
import { zoneDefaults } from './wear/zones.ts';

/** The named figures and thresholds that wear, marks and states are read by, each by the file it stands in. */
export const conditionFigures = {
  alongRing: alongRingDefaults,
  anew: anewDefaults,
  area: areaDefaults,
  bandChance: bandChanceDefaults,
  beyondBand: beyondBandDefaults,
  chain: chainDefaults,
  course: courseDefaults,
  crossing: crossingDefaults,
  floorsAlike: floorsAlikeDefaults,
  ground: groundDefaults,
  hough: houghDefaults,
  join: joinDefaults,
  keptAsHigh: keptAsHighDefaults,
  label: labelDefaults,
  letter: letterDefaults,
  joinBays: joinBaysDefaults,
  layEdge: layEdgeDefaults,
  level: levelDefaults,
  line: lineDefaults,
  lineReading: lineReadingDefaults,
  lineMark: lineMarkDefaults,
  loss: lossDefaults,
  lowering: loweringDefaults,
  mark: markDefaults,
  matched: matchedDefaults,
  ownForm: ownFormDefaults,
  overLevel: overLevelDefaults,
  profile: profileDefaults,
  rim: rimDefaults,
  reliefLevel: reliefLevelDefaults,
  secondStrike: secondStrikeDefaults,
  section: sectionDefaults,
  sharedEdge: sharedEdgeDefaults,
  sharedLoss: sharedLossDefaults,
  sound: soundDefaults,
  spot: spotDefaults,
  state: stateDefaults,
  stroke: strokeDefaults,
  verdict: verdictDefaults,
  walk: walkDefaults,
  wavelength: wavelengthDefaults,
  wearRelief: wearReliefDefaults,
  anotherDesign: anotherDesignDefaults,
  zone: zoneDefaults,
} as const;

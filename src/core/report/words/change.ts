import type {
  Change,
  ChangeCause,
  ChangeFound,
  ChangeLimit,
  ChangeOfSize,
  ChangeResult,
  NotJudged,
  Sensitivity,
} from '../../change/index.ts';
import { placeTurned } from '../../read/index.ts';
import { micrometres, percentWords } from './numbers.ts';
import { clockHour } from './phrases.ts';

const notJudgedWords: Record<NotJudged, string> = {
  noFit: 'the two scans do not fit one another',
  otherSense:
    'the two fit as a negative and its positive do: they are two objects, or the winding of one file is wrong',
  mirrored: 'one of the two files is a mirror image of the other',
  littleInCommon: 'the two scans show too little of one face in common',
};

/** The plain answer in a sentence or two; every ± is one standard deviation. `turnDeg`: by which the pictures stand upright, and places are told. */
export function changeSentence(result: ChangeResult, turnDeg = 0): string {
  if (!result.judged) return `Whether anything changed cannot be judged: ${notJudgedWords[result.why]}.`;
  const { changes, comparedShare, sensitivity } = result;
  if (changes.length === 0)
    return `No change beyond the noise of the scans was found on the ${percentWords(comparedShare)} of the face that could be compared. ${sensitivityWords(sensitivity)}`;
  const places =
    changes.length === 1 ? 'One place' : `${counted[changes.length - 2] ?? `As many as ${changes.length}`} places`;
  return `${places} changed between the two scans. ${totalWords(result)}${newLines(changes, turnDeg)}Nothing of the surface says which of its causes made a change.`;
}

const counted = ['Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine', 'Ten', 'Eleven', 'Twelve'] as const;

function totalWords({ total }: ChangeFound): string {
  const parts = [
    ...(total.loweredMm3 < 0 ? [`${volumeWords(total.loweredMm3, total.loweredSdMm3)} are gone`] : []),
    ...(total.raisedMm3 > 0 ? [`${volumeWords(total.raisedMm3, total.raisedSdMm3)} were added`] : []),
  ];
  return parts.length > 0 ? `${parts.join(' and ')}, over ${total.areaMm2.toFixed(1)} mm² together. ` : '';
}

function newLines(changes: readonly Change[], turnDeg: number): string {
  const lines = changes.filter(({ shape, direction }) => shape === 'line' && direction === 'lowered');
  if (lines.length === 0) return '';
  const each = lines.map(
    ({ lengthMm = 0, goesOn, at }) =>
      `${lengthMm.toFixed(1)} mm at ${clockHour(placeTurned(at, turnDeg).hour)} o’clock${goesOn ? ', which goes on from an older groove' : ''}`,
  );
  return `Of them ${lines.length === 1 ? 'one is a sunk line' : `${lines.length} are sunk lines`}: ${each.join('; ')}. `;
}

/** A volume without its sign, with ±. */
export const volumeWords = (mm3: number, sdMm3: number): string => {
  const places = sdMm3 < 0.01 ? 3 : sdMm3 < 0.1 ? 2 : 1;
  return `${Math.abs(mm3).toFixed(places)} ± ${Math.max(sdMm3, 0.5 * 10 ** -places).toFixed(places)} mm³`;
};

/** One change in a sentence. */
export function changeWords(change: Change): string {
  const { direction, shape, areaMm2, meanMm, farthestMm, volumeMm3, volumeSdMm3 } = change;
  if (direction === 'absent')
    return `No surface on the later scan over ${areaMm2.toFixed(1)} mm² at the edge of the face.`;
  const way = direction === 'lowered' ? 'Lower' : 'Higher';
  const heights = `${micrometres(Math.abs(meanMm))} on average and up to ${micrometres(Math.abs(farthestMm))}`;
  const volume = `${volumeWords(volumeMm3, volumeSdMm3)} ${direction === 'lowered' ? 'gone' : 'added'}`;
  if (shape === 'area') return `${way} by ${heights} over ${areaMm2.toFixed(1)} mm², ${volume}.`;
  const line = `A ${direction === 'lowered' ? 'sunk' : 'raised'} line ${(change.lengthMm ?? 0).toFixed(1)} mm long, about ${(change.widthMm ?? 0).toFixed(2)} mm wide as the scans resolve it, ${way.toLowerCase()} by ${heights}, ${volume}.`;
  return change.goesOn
    ? `${line} It goes on from a groove that the earlier scan shows: an older crack or scratch that grew, or a groove of the design.`
    : line;
}

const causes: Record<ChangeCause, string> = {
  rubbed: 'rubbed or worn by handling',
  chipped: 'chipped or flaked',
  pressed: 'pressed in, or flowed under its own weight or in warmth',
  dirtTaken: 'dust or dirt that lay there was cleaned off',
  bloomTaken: 'bloom was wiped or melted off',
  fillTaken: 'an older filling or restoration was taken off',
  crack: 'a crack opened',
  scratch: 'a scratch, from handling or cleaning',
  bloom: 'bloom',
  dust: 'dust',
  dirt: 'dirt',
  consolidant: 'consolidant or varnish',
  restored: 'restored or added wax',
  pushedUp: 'material pushed up or swollen',
  fibre: 'a fibre',
  crackClosed: 'a crack filled or closed',
  brokenOff: 'a piece broke off',
  notScanned: 'it was not scanned',
  instrument: 'the instruments see a translucent or shiny surface differently',
};

/** A cause, as a phrase. */
export const changeCauseWords = (cause: ChangeCause): string => causes[cause];

/** What would have been found. */
export function sensitivityWords(sensitivity: readonly Sensitivity[]): string {
  const middle = sensitivity.find(({ areaMm2 }) => areaMm2 === 4) ?? sensitivity[0];
  return `An even loss of ${micrometres(middle.heightMm)} over ${middle.areaMm2} mm² would have been found (${(middle.heightMm * middle.areaMm2).toFixed(2)} mm³).`;
}

/** Whether the object as a whole became larger or smaller. */
export function changeOfSizeWords({ ratio, sd, reading }: ChangeOfSize): string {
  const value = `later ÷ earlier ${ratio.toFixed(5)} ± ${sd.toFixed(5)}`;
  switch (reading) {
    case 'same':
      return `No change of size beyond what the scales of the two scans are known to (${value}).`;
    case 'larger':
    case 'smaller':
      return `${reading === 'larger' ? 'Larger' : 'Smaller'} by ${(100 * Math.abs(ratio - 1)).toFixed(2)} % as a whole (${value}); taken off before changes were sought.`;
    case 'notStated':
      return `Not said: the scales of both scans must be stated for that. The factor between the two (${value}) was taken off before changes were sought.`;
  }
}

/** On what it rests and what would have been found, and whether the whole became larger or smaller. */
export function changeFactsWords({ comparedShare, unchangedShare, sensitivity, size }: ChangeFound): string[] {
  return [
    `Compared: ${percentWords(comparedShare)} of the earlier’s face, laid by the ${percentWords(unchangedShare)} of it that did not change. ${sensitivityWords(sensitivity)}`,
    `Size: ${changeOfSizeWords(size)}`,
  ];
}

/** What limits the finding; its remedy by the name that it has on the command `line` or on the `screen`. */
export function changeLimitWords(limit: ChangeLimit, on: 'line' | 'screen' = 'line'): string {
  switch (limit.code) {
    case 'noRepeat':
      return `Neither date was scanned twice: noise was read from the two scans themselves, and an error that one of them repeats over some millimetres would pass for a change. Scan the object again on each date, lifted and laid anew, and ${on === 'screen' ? 'choose it below as the same day again' : 'bring it in as that day’s repeat (--repeat on the command line)'}.`;
    case 'oneRepeat':
      return 'Only one date was scanned twice: its noise was taken for the other’s too.';
    case 'scaleNotStated':
      return `The scale of the ${limit.whose.join(' and the ')} scan is not stated: no change of size is said. Scan a gauge of known length in the same session and state ${on === 'screen' ? 'what it shows on the scan’s card' : 'it with the scan (--scale-uncertainty on the command line)'}.`;
    case 'sizeBeyondScales':
      return `The two differ in size by ${limit.percent.toFixed(2)} %, more than the ${limit.knownPercent.toFixed(2)} % that their scales are taken to be known to: an instrument, or the object.`;
    case 'notCompared':
      return `Not compared: ${percentWords(limit.share)} of the face, at edges and holes, on walls too steep to be read, and where only one scan shows a surface.`;
    case 'littleUnchanged':
      return `Only ${percentWords(limit.share)} of what was compared counts as unchanged: if more than half of a face changed alike, the rest is taken for the change.`;
    case 'bent':
      return `A bending of ${micrometres(limit.rmsMm)} (root mean square over the face) was taken off: the object warped, or the instrument does.`;
    case 'blunter':
      return `The ${limit.which} scan is blunter at every edge, as a blur of ${limit.sigmaMm.toFixed(2)} mm would make it, and that was taken off: another instrument or spacing, or wear of all edges alike.`;
    case 'translucent':
      return 'Light enters wax before it returns: with another instrument, lamp or coating the same surface scans some hundredths of a millimetre otherwise.';
    case 'evenChangeUnseen':
      return 'A loss or a layer even over the whole face moves nothing against anything, and is not seen.';
    case 'causesNotTold':
      return 'The surface shows that a place changed, not why: treatment records, photographs and the object itself tell its cause.';
  }
}

import { partOf, report, type Watch } from '../../core/geometry/index.ts';
import {
  type Among,
  amongJudged,
  applyLook,
  type ComparedWitness,
  type Composite,
  compositeStrips,
  type JudgedPair,
  type Laid,
  type LookInput,
  laidOn,
  pairsAmong,
  type StackedStrip,
  stackStrips,
  type WitnessStanding,
} from '../../core/read/index.ts';
import { compositeWords, standingWords } from '../../core/report/words/index.ts';
import type { ReadingHost } from './readingHost.ts';
import type { CompositeView, GreyPicture, StackRow, StackView, StripOrder, Witnessing } from './readingProtocol.ts';
import { drawnStrip, inkOf, placesOf } from './readingStrip.ts';

/** Fits every object to the reference and judges it; the reference itself is the first of the witnesses. */
export async function laidOnReference(
  host: Pick<ReadingHost, 'prepared' | 'compared'>,
  reference: Witnessing,
  subjects: readonly Witnessing[],
  watch: Watch,
): Promise<Laid> {
  const { face } = await host.prepared(reference.scan, partOf(watch, 0, 0.05));
  const others: ComparedWitness[] = [];
  for (const [k, { scan, name }] of subjects.entries()) {
    const part = partOf(watch, 0.05 + (0.95 * k) / subjects.length, 0.05 + (0.95 * (k + 1)) / subjects.length);
    const { fit, subject, judgement } = await host.compared(reference.scan, scan, part);
    others.push({ name, face: subject.face, fit, judgement });
  }
  return laidOn({ name: reference.name, face }, others);
}

/** The reference's legend and that of every object laid on it, in register, and their composite. */
export async function makeStack(
  host: Pick<ReadingHost, 'prepared' | 'compared'>,
  reference: Witnessing,
  subjects: readonly Witnessing[],
  order: StripOrder,
  look: LookInput,
  watch: Watch,
): Promise<StackView> {
  const laid = await laidOnReference(host, reference, subjects, partOf(watch, 0, 0.8));
  const { witnesses, standings, noiseMm, left } = laid;
  const known = await among(host, subjects, laid, partOf(watch, 0.8, 0.85));
  const kin = [...laid.kin, ...known.kin];
  report(watch, 0.85, 'Laying the strips under one another');
  const [{ face }] = witnesses;
  const letterMm = order.band.lettersInnerMm - order.band.lettersOuterMm;
  const pitchMm = Math.min(face.relief.pitch, letterMm / 48);
  const { startDeg, facing, arcs } = order;
  const strips = stackStrips(face, order.band, witnesses, { pitchMm, startDeg, facing, arcs });
  report(watch, 0.93, 'Putting them together');
  const composite = compositeStrips(strips, standings, { sizeMm: letterMm, noiseMm, kin, states: known.states });
  const rows = strips.map((strip, k): StackRow => rowOf(strip, standings[k], look));
  for (const name of left)
    rows.push({ ...rows[0], name, picture: blank(rows[0].picture), filled: 0, standing: unlaid });
  return {
    places: placesOf(strips[0].strip),
    rows,
    composite: compositeView(composite, look),
    ink: inkOf(strips[0].strip),
  };
}

/** What the further witnesses are to one another. */
async function among(
  host: Pick<ReadingHost, 'compared'>,
  subjects: readonly Witnessing[],
  laid: Laid,
  watch: Watch,
): Promise<Among> {
  const scanOf = (name: string) => (subjects.find((each) => each.name === name) as Witnessing).scan;
  const pairs = pairsAmong(laid);
  const judged: JudgedPair[] = [];
  for (const [one, two] of pairs) judged.push((await host.compared(scanOf(one), scanOf(two), watch)).judgement);
  return amongJudged(pairs, judged);
}

const unlaid = 'could not be laid on it';

function rowOf({ name, strip, filled }: StackedStrip, standing: WitnessStanding, look: LookInput): StackRow {
  const words = standing.isReference ? '' : standingWords(standing);
  return { name, filled, standing: words, picture: drawnStrip(strip, applyLook(strip.grid, look)) };
}

const blank = (picture: GreyPicture): GreyPicture => ({
  ...picture,
  grey: new Uint8ClampedArray(picture.grey.length),
  mask: new Uint8Array(picture.mask.length),
});

function compositeView(composite: Composite, look: LookInput): CompositeView {
  const caption = compositeWords(composite);
  if (composite.refused) return { refused: true, reason: caption };
  const { strip, contributor, shares } = composite;
  return {
    refused: false,
    picture: drawnStrip(strip, applyLook(strip.grid, look)),
    contributor: new Uint8Array(contributor),
    shares,
    caption,
  };
}

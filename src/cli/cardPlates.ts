import type { Band } from '../core/design/index.ts';
import type { PreparedScan } from '../core/pipeline.ts';
import {
  type CardLanguage,
  type InEveryLanguage,
  inEveryLanguage,
  type ManifestPlate,
  readableStrip,
  unroll,
} from '../core/read/index.ts';
import {
  type PrintPlate,
  paintPlate,
  printCaption,
  printPlate,
  saysSimulated,
  stripPlate,
} from '../core/report/index.ts';
import { captionWords, printed, stripWords } from '../core/report/words/index.ts';
import { rasteriser } from './rasterise.ts';
import { letterHeight, lookCaption, stripLooks } from './stripPlates.ts';

/** A plate as a file, and what a manifest says of it. */
export interface CardPlate {
  readonly png: Uint8Array;
  readonly plate: Pick<ManifestPlate, 'format' | 'width' | 'height' | 'mmPerDot' | 'captions'>;
}

const isSimulated = ({ scan }: PreparedScan): boolean => scan.simulated === true || saysSimulated(scan.name);

export interface CardPlateOptions {
  readonly shelfmark: string;
  readonly dpi: number;
  /** Of the words on the plate itself; its captions come in all. */
  readonly language: CardLanguage;
}

/** The face at natural size, a matrix turned over to read as its impression. */
export function facePlate(prepared: PreparedScan, { shelfmark, dpi, language }: CardPlateOptions): Promise<CardPlate> {
  const { face, kind } = prepared;
  const view = face.sense === 'intaglio' ? 'turnedOver' : 'asItIs';
  const options = { printScale: 1, dpi, simulated: isSimulated(prepared) };
  const plate = printPlate([{ face, kind, view, shelfmark }], { ...options, language });
  return painted(
    plate,
    25.4 / dpi,
    inEveryLanguage((each) => printCaption({ ...options, language: each })),
  );
}

/** Letters of a legend on a plate are so many times natural size: lines of a page, not of a seal. */
const legendTimes = 3;

/** The legend laid out straight, three times natural size, in the look that parts its strokes best. */
export function legendPlate(
  prepared: PreparedScan,
  band: Band,
  { dpi, language }: Omit<CardPlateOptions, 'shelfmark'>,
): Promise<CardPlate> {
  const pitchMm = 25.4 / dpi / legendTimes;
  const { relief } = prepared.face;
  const readable = readableStrip(relief, band);
  const { facing, arcs, startDeg } = readable;
  const [look] = stripLooks({}, readable.strip, language);
  const strip = unroll(relief, band, { pitchMm, facing, arcs, startDeg });
  const picture = look.draw(strip.grid);
  const captions = inEveryLanguage((each) => {
    const w = captionWords[each];
    const simulated = isSimulated(prepared) ? [w.simulated.one] : [];
    const high = printed((legendTimes * letterHeight(band)).toFixed(1), w);
    return [...simulated, stripWords(readable, each), w.strip.sized(high, dpi), lookCaption(picture, each)].join(' ');
  });
  const row = { name: prepared.scan.name, note: look.name, strip, picture, hours: true };
  return painted(stripPlate([row], { dpi, caption: captions[language] }), strip.grid.pitch, captions);
}

async function painted(plate: PrintPlate, mmPerDot: number, captions: InEveryLanguage): Promise<CardPlate> {
  const png = paintPlate(plate, 'png', await rasteriser()) as Uint8Array;
  // Width and height stand in the header chunk (PNG specification, section 11.2.2).
  const header = new DataView(png.buffer, png.byteOffset);
  const [width, height] = [header.getUint32(16), header.getUint32(20)];
  return { png, plate: { format: 'image/png', width, height, mmPerDot, captions } };
}

import type { Band } from '../core/design/index.ts';
import type { PreparedScan } from '../core/pipeline.ts';
import { type ManifestPlate, readableStrip, unroll } from '../core/read/index.ts';
import { type PrintPlate, paintPlate, printPlate, saysSimulated, stripPlate } from '../core/report/index.ts';
import { stripWords } from '../core/report/words/index.ts';
import { rasteriser } from './rasterise.ts';
import { letterHeight, lookCaption, stripLooks } from './stripPlates.ts';

/** A plate as a file, and what a manifest says of it. */
export interface CardPlate {
  readonly png: Uint8Array;
  readonly plate: Pick<ManifestPlate, 'format' | 'width' | 'height' | 'mmPerDot' | 'caption'>;
}

const isSimulated = ({ scan }: PreparedScan): boolean => scan.simulated === true || saysSimulated(scan.name);

/** The face at natural size, a matrix turned over to read as its impression. */
export function facePlate(prepared: PreparedScan, { shelfmark, dpi }: { shelfmark: string; dpi: number }) {
  const { face, kind } = prepared;
  const view = face.sense === 'intaglio' ? 'turnedOver' : 'asItIs';
  const plate = printPlate([{ face, kind, view, shelfmark }], { printScale: 1, dpi, simulated: isSimulated(prepared) });
  return painted(plate, 25.4 / dpi);
}

/** Letters of a legend on a plate are so many times natural size: lines of a page, not of a seal. */
const legendTimes = 3;

/** The legend laid out straight, three times natural size, in the look that parts its strokes best. */
export function legendPlate(prepared: PreparedScan, band: Band, dpi: number): Promise<CardPlate> {
  const pitchMm = 25.4 / dpi / legendTimes;
  const { relief } = prepared.face;
  const readable = readableStrip(relief, band);
  const { facing, arcs, startDeg } = readable;
  const [look] = stripLooks({}, readable.strip);
  const strip = unroll(relief, band, { pitchMm, facing, arcs, startDeg });
  const picture = look.draw(strip.grid);
  const words = [
    ...(isSimulated(prepared) ? ['Simulated scan.'] : []),
    `${stripWords(readable)} Letters ${(legendTimes * letterHeight(band)).toFixed(1)} mm high at ${dpi} dots per inch.`,
    lookCaption(picture),
  ].join(' ');
  const row = { name: prepared.scan.name, note: look.name, strip, picture, hours: true };
  return painted(stripPlate([row], { dpi, caption: words }), strip.grid.pitch);
}

async function painted(plate: PrintPlate, mmPerDot: number): Promise<CardPlate> {
  const png = paintPlate(plate, 'png', await rasteriser()) as Uint8Array;
  // Width and height stand in the header chunk (PNG specification, section 11.2.2).
  const header = new DataView(png.buffer, png.byteOffset);
  const [width, height] = [header.getUint32(16), header.getUint32(20)];
  return { png, plate: { format: 'image/png', width, height, mmPerDot, caption: plate.caption } };
}

import type { WavelengthBand } from '../../condition/index.ts';
import { type DrawnMark, line, words } from '../drawing/index.ts';
import { along, bottomAxis, leftAxis, numeral, type Scale } from './axes.ts';
import { type Figure, plain } from './figure.ts';

const width = 350;
const height = 214;

/** What is left of the reference's relief on the subject, octave by octave of wavelength. */
export function wavelengthsFigure(bands: readonly WavelengthBand[]): Figure {
  const edges = [bands[0].fromMm, ...bands.map((band) => band.toMm)];
  const x: Scale = { from: Math.log2(edges[0]), to: Math.log2(edges[edges.length - 1]), start: 34, end: width - 58 };
  const most = Math.max(1.2, ...bands.map((band) => band.gain).filter(Number.isFinite));
  const y: Scale = { from: 0, to: most, start: height - 38, end: 16 };
  const marks: DrawnMark[] = [
    ...leftAxis(y, x.start, x.end, [0, 0.5, 1]),
    ...steps(bands, 'coherence', x, y),
    ...steps(bands, 'gain', x, y),
    ...bottomAxis(x, y.start, edges.map(Math.log2), 'wavelength, mm', (log) =>
      numeral(Number((2 ** log).toPrecision(2))),
    ),
  ];
  const [finest] = bands;
  const caption = `Gain (full line), the share of the reference’s relief that the subject shows in each octave, above 1 where it shows more, and coherence (broken line), how far the two go together there; 1 is all of it. Where the coherence is low the gain says little, and between two matrices it is no wear. In the finest octave, ${plain(finest.fromMm)} to ${plain(finest.toMm)} mm: gain ${plain(finest.gain)}, coherence ${plain(finest.coherence)}.`;
  const title = 'Gain and coherence of the relief by wavelength';
  return { id: 'wavelengths', drawing: { width, height, title, marks }, heading: 'Relief kept by wavelength', caption };
}

/** One level piece per octave, joined where neighbours both have a value, and its name at the right end. */
function steps(bands: readonly WavelengthBand[], what: 'gain' | 'coherence', x: Scale, y: Scale): DrawnMark[] {
  const run: number[][] = [[]];
  for (const band of bands) {
    if (!Number.isFinite(band[what])) {
      run.push([]);
      continue;
    }
    const at = along(y, band[what]);
    run[run.length - 1].push(along(x, Math.log2(band.fromMm)), at, along(x, Math.log2(band.toMm)), at);
  }
  const style = what === 'gain' ? { tone: 'accent', width: 1.5 } : { tone: 'ink', width: 1 };
  const lines = run
    .filter((points) => points.length > 0)
    .map((points) => line(points, style.tone as 'ink', style.width, what === 'coherence' ? { dash: [4, 3] } : {}));
  return [...lines, ...nameAtEnd(bands, what, x, y)];
}

function nameAtEnd(bands: readonly WavelengthBand[], what: 'gain' | 'coherence', x: Scale, y: Scale): DrawnMark[] {
  const last = bands[bands.length - 1];
  if (!Number.isFinite(last[what])) return [];
  const other = last[what === 'gain' ? 'coherence' : 'gain'];
  // Two names on one line would cover each other.
  const apart = (along(y, last[what]) - along(y, other)) as number;
  const shift = Math.abs(apart) < 11 ? ((apart === 0 ? what === 'gain' : apart < 0) ? -5 : 7) : 0;
  const tone = what === 'gain' ? 'accent' : 'ink';
  return [words(x.end + 5, along(y, last[what]) + 3.5 + shift, what, 10.5, tone, { face: 'italic' })];
}

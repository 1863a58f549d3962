import { apply, quantile } from '../../geometry/index.ts';
import type { Constellation, PlacedLandmark } from '../../judge/index.ts';
import { type DrawnMark, line, words } from '../drawing/index.ts';
import { type Figure, numeralMm } from './figure.ts';
import { lampPhrase, onRelief } from './lit.ts';
import type { Plates } from './plates.ts';
import { barLength, scaleBar } from './scaleBar.ts';

const pageWidth = 350;
const tallest = 420;
const { ink, halo, stroke } = onRelief;
const stretches = [1, 2, 5, 10, 20, 50];

/** Where each landmark lies against the place that all others give it, with its error ellipse. */
export function constellationFigure({ landmarks, found, smoothMm, outside }: Constellation, plates: Plates): Figure {
  const { width, height, pitch, left, top } = plates.ground.grid;
  const perMm = Math.min(pageWidth / width, tallest / height) / pitch;
  const [across, down] = [width * pitch * perMm, height * pitch * perMm];
  const start = (pageWidth - across) / 2;
  const place = (x: number, y: number): [number, number] => {
    const [px, py] = apply(plates.plateFromReference, [x, y, 0]);
    return [start + (px - left + pitch / 2) * perMm, (top + pitch / 2 - py) * perMm];
  };
  const times = stretchOf(landmarks);
  const marks: DrawnMark[] = [
    { kind: 'picture', x: start, y: 0, width: across, height: down, picture: plates.ground.picture },
    ...landmarks.flatMap((landmark) => landmarkMarks(landmark, place, times)),
    ...scaleBar(pageWidth / 2, down + 9, perMm, barLength(width * pitch)),
    words(pageWidth / 2, down + 33, `shifts and ellipses drawn × ${times}`, 10, 'soft', { align: 'middle' }),
  ];
  const count = Math.round(outside * landmarks.length);
  return {
    id: 'constellation',
    heading: 'Places of letters and ornaments',
    drawing: {
      width: pageWidth,
      height: down + 39,
      title: `${landmarks.length} landmarks on the relief of the reference, with the shift of each and its error ellipse`,
      marks,
    },
    caption: `The relief of the reference in the impression’s sense, ${lampPhrase}. Landmarks found on the reference and seen on the subject: ${landmarks.length} of ${found}. Stroke: how far each lies from where all others put it, after one scale and a smooth bending (median ${numeralMm(smoothMm)}). Ring: the 95 % error ellipse of its place. Strokes and rings drawn × ${times}; the scale bar is for the relief. With 20 µm (1 σ) added to each ellipse for the local flow of wax, which the rings leave out, ${count} of ${landmarks.length} lie outside; of one matrix fewer than one in twenty would. A copyist moves each letter by a little; a matrix does not, but warped or flowing wax can.`,
  };
}

type Place = (x: number, y: number) => [number, number];

function landmarkMarks({ x, y, aloneSmooth: [dx, dy], ellipse }: PlacedLandmark, place: Place, times: number) {
  const turn = (ellipse.deg * Math.PI) / 180;
  const ring: number[] = [];
  for (let k = 0; k < 24; k++) {
    const u = times * ellipse.majorMm * Math.cos((k * Math.PI) / 12);
    const v = times * ellipse.minorMm * Math.sin((k * Math.PI) / 12);
    ring.push(...place(x + u * Math.cos(turn) - v * Math.sin(turn), y + u * Math.sin(turn) + v * Math.cos(turn)));
  }
  const shift = [...place(x, y), ...place(x + times * dx, y + times * dy)];
  return [
    line(ring, halo, 1.6, { closed: true }),
    line(ring, ink, 0.7, { closed: true }),
    line(shift, halo, 2.4),
    line(shift, stroke, 1.3),
  ];
}

/** The greatest stretch at which nine in ten shifts stay shorter than half the usual distance of neighbours. */
function stretchOf(landmarks: readonly PlacedLandmark[]): number {
  const most = quantile(
    landmarks.map(({ aloneSmooth: [dx, dy] }) => Math.hypot(dx, dy)),
    0.9,
  );
  const nearest = landmarks.map((a) =>
    Math.min(...landmarks.filter((b) => b !== a).map((b) => Math.hypot(a.x - b.x, a.y - b.y))),
  );
  return [...stretches].reverse().find((times) => times * most <= 0.5 * quantile(nearest, 0.5)) ?? 1;
}

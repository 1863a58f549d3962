import { type Difference, differenceColour, levelGrey } from '../../compare/index.ts';
import { insidePolygon } from '../../face/index.ts';
import { type HeightGrid, turnedClockwise, withHeights } from '../../geometry/index.ts';
import type { Picture } from '../drawing/index.ts';
import { fieldGrey } from './lit.ts';
import { layOn, type Plates } from './plates.ts';

/** What is drawn of a difference. */
export type DrawnDifference = Pick<Difference, 'map' | 'levelOfDetection' | 'levelOfDetectionMm' | 'significant'>;

/** By how much each difference goes beyond its level of detection, mm; below 0 too where chance alone would do it. */
function excessOf({ map, levelOfDetection, levelOfDetectionMm, significant }: DrawnDifference): HeightGrid {
  const z = new Float32Array(map.z.length);
  for (let i = 0; i < z.length; i++) {
    const level = levelOfDetection.mask[i] ? levelOfDetection.z[i] : levelOfDetectionMm;
    const beyond = Math.abs(map.z[i]) - level;
    z[i] = significant && !significant[i] ? Math.min(beyond, -level) : beyond;
  }
  return withHeights(map, z);
}

/** Cells from one line of the hatching to the next, along a row. */
const hatchStep = 9;
const hatchGrey = 118;

/**
 * The depth differences as colour over the reference's lit relief: grey where the difference is within that cell's
 * level of detection or does not stand against chance over the whole image, hatched over the pale relief where nothing is compared, clear beyond the rim.
 */
export function differencePicture(difference: DrawnDifference, plates: Plates, endMm: number): Picture {
  const { grid: window, grey } = plates.ground;
  const upright = turnedClockwise(plates.turnDeg);
  const map = layOn(window, difference.map, upright);
  const excess = layOn(window, excessOf(difference), upright);
  const data = new Uint8Array(4 * map.z.length);
  const colours = colourTable(endMm);
  const inside = insidePolygon(window, plates.referenceRim);
  for (let row = 0, i = 0; row < map.height; row++)
    for (let col = 0; col < map.width; col++, i++) {
      if (map.mask[i]) {
        const entry = excess.mask[i] && excess.z[i] > 0 ? entryOf(map.z[i], endMm) : 0;
        shade(data, i, colours, entry, window.mask[i] ? grey[i] : fieldGrey);
      } else if (window.mask[i] || inside[i]) hatch(data, i, row + col, window.mask[i] ? grey[i] : fieldGrey);
    }
  return { width: map.width, height: map.height, channels: 4, data };
}

/** Steps of the colour table on each side of zero: finer than the eye. */
const tableSteps = 200;

/** Grey first, then the colours from −endMm to +endMm; so that no colour is mixed twice. */
function colourTable(endMm: number): Uint8Array {
  const table = new Uint8Array(3 * (2 * tableSteps + 1));
  table.set(levelGrey);
  for (let k = 0; k < 2 * tableSteps; k++)
    table.set(differenceColour(((k + 0.5) / tableSteps - 1) * endMm, endMm), 3 * (k + 1));
  return table;
}

const entryOf = (differenceMm: number, endMm: number): number =>
  1 + Math.min(2 * tableSteps - 1, Math.max(0, Math.floor((differenceMm / endMm + 1) * tableSteps)));

function shade(data: Uint8Array, i: number, colours: Uint8Array, entry: number, grey: number): void {
  const light = Math.min(1.1, 0.5 + (0.5 * grey) / fieldGrey);
  for (let c = 0; c < 3; c++) data[4 * i + c] = Math.min(255, colours[3 * entry + c] * light);
  data[4 * i + 3] = 255;
}

/** Slanting lines over a relief so pale that nobody reads it as measured. */
function hatch(data: Uint8Array, i: number, along: number, grey: number): void {
  const phase = along % hatchStep;
  const stroke = Math.max(0, 1 - Math.abs(phase - 2) / 1.5);
  const pale = 214 + (grey - fieldGrey) * 0.2;
  const value = Math.min(255, Math.max(0, pale + stroke * (hatchGrey - pale)));
  data.fill(value, 4 * i, 4 * i + 3);
  data[4 * i + 3] = 255;
}

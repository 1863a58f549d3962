import { turnGridOver } from '../../geometry/index.ts';
import { capital } from '../../scan/index.ts';
import { type Drawing, type DrawnMark, words } from '../drawing/index.ts';
import type { LaidPair, PreparedScan } from '../input.ts';
import type { Figure } from './figure.ts';
import { type LitRelief, lampPhrase, lit, plateLamps } from './lit.ts';
import type { Plates } from './plates.ts';
import { barLength, lampSign, scaleBar } from './scaleBar.ts';

export interface Panel {
  readonly relief: LitRelief;
  readonly label: string;
  readonly note: string;
}

const gap = 18;
const pageWidth = 720;
/** Tallest panel, so that a plate and its caption stay on one page. */
const tallest = 500;
const labelHeight = 62;

/** Both faces in the impression's sense, and beside them every negative as it is, at one scale under one light. */
export function facesFigure(pair: LaidPair, plates: Plates): Figure {
  const panels = panelsOf(pair, plates);
  const { drawing, perMm } = panelsDrawing(panels, plates);
  return { id: 'faces', drawing, heading: 'The faces', caption: captionOf(pair, panels, perMm) };
}

/** Where panels of one window stand: their size, page units a mm, and the upper left corner of each. */
export interface PanelLayout {
  readonly wide: number;
  readonly high: number;
  readonly perMm: number;
  corner(panel: number): readonly [x: number, y: number];
}

/** Side by side at one scale, two to a row where there are four. */
export function panelLayout(count: number, { width, height, pitch }: LitRelief['grid']): PanelLayout {
  const columns = count === 4 ? 2 : count;
  const perCell = Math.min((pageWidth - gap * (columns - 1)) / columns / width, tallest / height);
  const [wide, high] = [width * perCell, height * perCell];
  const left = (pageWidth - columns * wide - (columns - 1) * gap) / 2;
  return {
    wide,
    high,
    perMm: perCell / pitch,
    corner: (i) => [left + (i % columns) * (wide + gap), Math.floor(i / columns) * (high + labelHeight)],
  };
}

/** Reliefs of one window at one scale, under the plates' lamps; and the scale, units a mm. */
export function panelsDrawing(panels: readonly Panel[], plates: Plates): { drawing: Drawing; perMm: number } {
  const layout = panelLayout(panels.length, plates.reference.grid);
  const marks: DrawnMark[] = panels.flatMap((panel, i) => panelMarks(panel, i, layout));
  // Pictures under everything else, where they are painted soonest; panels lie beside one another.
  marks.sort((a, b) => Number(b.kind === 'picture') - Number(a.kind === 'picture'));
  marks.push(...lampSign(layout.corner(0)[0] + 9, 10, plateLamps[0].azimuthDeg));
  const drawing: Drawing = {
    width: pageWidth,
    height: layout.corner(panels.length - 1)[1] + layout.high + labelHeight,
    title: `${panels.map(({ label, note }) => `${label}, ${note}`).join('; ')}; lit from the upper left at one scale`,
    marks,
  };
  return { drawing, perMm: layout.perMm };
}

function panelMarks(panel: Panel, index: number, { wide, high, perMm, corner }: PanelLayout): DrawnMark[] {
  const [x, y] = corner(index);
  const middle = x + wide / 2;
  return [
    { kind: 'picture', x, y, width: wide, height: high, picture: panel.relief.picture },
    ...scaleBar(middle, y + high + 9, perMm, barLength(panel.relief.grid.width * panel.relief.grid.pitch)),
    words(middle, y + high + 39, `${'abcd'[index]}\u00a0 ${panel.label}`, 12.5, 'ink', { align: 'middle' }),
    words(middle, y + high + 53, panel.note, 11, 'soft', { align: 'middle', face: 'italic' }),
  ];
}

/** The two faces as impressions, then every negative as it is. */
export function panelsOf({ reference, subject }: LaidPair, plates: Plates): Panel[] {
  const [a, b] = [reference, subject].map(({ scan }) => shortened(scan.name));
  const panels: Panel[] = [
    { relief: plates.reference, label: a, note: noteOf(reference) },
    { relief: plates.subject, label: b, note: noteOf(subject) },
  ];
  if (reference.face.sense === 'intaglio')
    panels.push({ relief: turned(plates.reference), label: a, note: `${reference.kind}, as it is` });
  if (subject.face.sense === 'intaglio')
    panels.push({ relief: turned(plates.subject), label: b, note: `${subject.kind}, as it is` });
  return panels;
}

/** Each is called by its file, and beside it by what it is. A name has half of the page: of a long one its beginning and its end are left. */
const shortened = (name: string): string => (name.length > 34 ? `${name.slice(0, 19)}…${name.slice(-14)}` : name);

const turned = ({ grid }: LitRelief): LitRelief => lit(turnGridOver(grid));

const noteOf = ({ face, kind }: PreparedScan): string =>
  face.sense === 'intaglio' ? `${kind}, turned over as its impression` : `${kind}, as it is`;

/** Width of the text on the printed page, mm. */
const printedMm = 180;

function captionOf({ fit }: LaidPair, panels: readonly Panel[], perMm: number): string {
  const times = (perMm * printedMm) / pageWidth;
  const turned = fit.found
    ? 'b is turned as the fit found it and shown at its own size.'
    : 'No fit was found: each face lies as it was found on its scan.';
  const which = panels.map(({ label, note }, i) => `${'abcd'[i]}, ${label}: ${note}`).join('. ');
  return `${which}. One scale throughout; printed on A4, ${times.toFixed(2)} times natural size. ${turned} ${capital(lampPhrase)}, locked to the picture. The form of each face (a plane and a second-order bend) is removed; blank where there is no data.`;
}

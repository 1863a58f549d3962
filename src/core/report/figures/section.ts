import { ticks } from 'd3-array';
import type { Groove, Section } from '../../compare/index.ts';
import type { Sense } from '../../face/index.ts';
import { type DrawnMark, line, words } from '../drawing/index.ts';
import { along, bottomAxis, leftAxis, numeral, type Scale } from './axes.ts';
import { type Figure, plain } from './figure.ts';

const width = 720;
const left = 40;
const right = width - 40;
/** Heights are stretched by one of these where the relief is flat. */
const stretches = [1, 2, 4, 5, 8, 10, 20];
const wantedHeight = 110;
const closeUpMm = 8;
const tallestCloseUp = 190;

/** Heights as the impression shows them: a negative's are measured above a plane that the wax lay under. */
function inImpressionSense(section: Section, referenceSense: Sense): Section {
  if (referenceSense === 'relief') return section;
  const over = (z: Float64Array): Float64Array => z.map((value) => -value);
  return { ...section, reference: over(section.reference), subject: over(section.subject) };
}

/** Whether there is a piece of surface to draw. */
export const hasProfile = ({ reference, subject }: Section): boolean =>
  reference.some(Number.isFinite) && subject.some(Number.isFinite);

/** Both surfaces cut along one line, with a true-scale close-up where they differ most. */
export function sectionFigure(measured: Section, referenceSense: Sense): Figure {
  const section = inImpressionSense(measured, referenceSense);

  const whole = profile(section, 0, section.at[section.at.length - 1], 14, wantedHeight);
  const close = closeUp(section, whole.bottom + 22);
  const marks: DrawnMark[] = [
    ...whole.marks,
    words(left, 10, 'A', 12, 'ink', { face: 'italic', align: 'middle' }),
    words(right, 10, 'B', 12, 'ink', { face: 'italic', align: 'middle' }),
    ...close.marks,
    ...key(close.bottom + 6),
  ];
  const drawing = { width, height: close.bottom + 16, title: 'Section along A to B through both surfaces', marks };
  return { id: 'section', drawing, heading: 'Section', caption: captionOf(section, whole.stretch, close.stretch) };
}

interface Profile {
  readonly marks: DrawnMark[];
  readonly bottom: number;
  readonly stretch: number;
}

/** The part of the section from `fromMm` to `toMm`, in a frame that starts at `top`. */
function profile(section: Section, fromMm: number, toMm: number, top: number, wanted: number): Profile {
  const kept = [...section.at.keys()].filter((i) => section.at[i] >= fromMm && section.at[i] <= toMm);
  const heights = kept.flatMap((i) => [section.reference[i], section.subject[i]]).filter(Number.isFinite);
  const [low, high] = heights.length > 0 ? [Math.min(...heights), Math.max(...heights)] : [0, 1];
  const perMm = (right - left) / (toMm - fromMm);
  const stretch = [...stretches].reverse().find((k) => k * perMm * (high - low) <= wanted) ?? 1;
  const x: Scale = { from: fromMm, to: toMm, start: left, end: right };
  const space = (high - low) * perMm * stretch;
  const y: Scale = { from: low, to: high, start: top + 8 + space, end: top + 8 };
  const bottom = y.start + 8;
  return {
    marks: [
      ...leftAxis(y, left, right, ticks(low, high, Math.min(4, Math.max(1, space / 28)))),
      ...curves(section, kept, 'reference', x, y),
      ...curves(section, kept, 'subject', x, y),
      ...bottomAxis(x, bottom, ticks(fromMm, toMm, 10), `mm along the line; heights in mm, drawn × ${stretch}`),
    ],
    bottom: bottom + 34,
    stretch,
  };
}

/** The section round its greatest difference, heights and lengths at one scale wherever that fits. */
function closeUp(section: Section, top: number): Profile {
  const length = section.at[section.at.length - 1];
  const most = greatestDifference(section);
  if (most < 0 || length < 1.5 * closeUpMm) return { marks: [], bottom: top - 12, stretch: 0 };
  const from = Math.min(length - closeUpMm, Math.max(0, section.at[most] - closeUpMm / 2));
  return profile(section, from, from + closeUpMm, top, tallestCloseUp);
}

/** Place of the greatest difference, or −1 where the two never lie over one another. */
function greatestDifference({ reference, subject }: Section): number {
  let best = -1;
  for (let i = 0; i < reference.length; i++) {
    const size = Math.abs(subject[i] - reference[i]);
    if (size > (best < 0 ? 0 : Math.abs(subject[best] - reference[best]))) best = i;
  }
  return best;
}

/** Unbroken runs of one surface: nothing is drawn across a gap in the scan. */
function curves(
  section: Section,
  kept: readonly number[],
  which: 'reference' | 'subject',
  x: Scale,
  y: Scale,
): DrawnMark[] {
  const runs: number[][] = [[]];
  for (const i of kept) {
    const z = section[which][i];
    if (Number.isNaN(z)) runs.push([]);
    else runs[runs.length - 1].push(along(x, section.at[i]), along(y, z));
  }
  const tone = which === 'reference' ? 'ink' : 'accent';
  const stroke = which === 'reference' ? {} : { dash: [5, 2] as const };
  return runs.filter((run) => run.length > 2).map((run) => line(run, tone, 1.25, stroke));
}

const key = (y: number): DrawnMark[] => [
  line([left, y, left + 26, y], 'ink', 1.25),
  words(left + 32, y + 3.5, 'reference', 10.5),
  line([left + 104, y, left + 130, y], 'accent', 1.25, { dash: [5, 2] }),
  words(left + 136, y + 3.5, 'subject', 10.5),
];

function captionOf({ groove }: Section, stretch: number, closeStretch: number): string {
  const close =
    closeStretch === 0
      ? ''
      : ` Below, ${closeUpMm} mm round the greatest difference, ${closeStretch === 1 ? 'lengths and heights at one scale' : `heights × ${closeStretch}`}.`;
  const scale = stretch === 1 ? 'lengths and heights at one scale' : `heights drawn × ${numeral(stretch)}`;
  return `Both surfaces cut along the line from A to B in the map, in the impression’s sense, ${scale}. Full line: reference; broken line: subject, brought to the reference’s size.${close} Gaps are gaps in the scan.${groove ? grooveSentence(groove) : ''}`;
}

function grooveSentence({ depthMm, widthMm, flankDeg, on, sunk, atMm }: Groove): string {
  const what = sunk === undefined ? 'groove or ridge' : sunk ? 'groove' : 'ridge';
  const where = `${on ? ` on the ${on}` : ''}${atMm === undefined ? '' : ` at ${plain(atMm, 1)} mm`}`;
  return ` Most prominent ${what}${where}, whatever it belongs to (a letter, the figure or a mark; as that object carries it, so what is sunk in a matrix stands up in the drawing): ${plain(depthMm, 3)} mm ${sunk === false ? 'high' : 'deep'}, ${plain(widthMm, 2)} mm wide at half depth, flanks ${plain(flankDeg[0], 0)}° and ${plain(flankDeg[1], 0)}° to the line of its shoulders.`;
}

import { sampleEntries } from './catalogue.ts';
import type { ObjectName, Scenario, StoryMark } from './scenario.ts';

type SampleObject = (typeof sampleEntries)[number]['object'];

/**
 * What happened to the priory's matrix and to what was made from it, as the generator did it: the truth that the samples are
 * checked against. Places in the impression's sense, clockwise from 12 o'clock, lengths in mm.
 */
export interface SampleStory {
  readonly simulated: true;
  /** Marks of the matrix, each with the state, from 1, in which it first was there. All stand up on an impression. */
  readonly marks: ReadonlyArray<{
    readonly id: string;
    readonly shape: string;
    readonly sinceState: number;
    readonly at: { readonly deg: number; readonly hour: number; readonly radiusMm: number };
    readonly lengthMm: number;
    readonly widthMm: number;
    readonly depthMm: number;
    /** Points along it, x to the right and y up from the face's centre. */
    readonly way: ReadonlyArray<readonly [number, number]>;
  }>;
  /** Every object of the matrix with the state that it shows, the marks it therefore carries, and what it was made from. */
  readonly objects: ReadonlyArray<{
    readonly file: string;
    readonly made: string;
    readonly state: number;
    readonly marks: readonly string[];
    /** A file of the samples; null: the matrix itself. */
    readonly from: string | null;
  }>;
  /** Pieces broken off, as a share of the image; what was cast after the break repeats it. */
  readonly lost: ReadonlyArray<{
    readonly file: string;
    readonly share: number;
    readonly repeatedBy: readonly string[];
  }>;
  /** Of the same pattern, cut separately. */
  readonly otherMatrix: readonly string[];
}

/** The story from the scenario that made the objects; `coverageOf`: share of an object that was scanned after its loss. */
export function storyOf({ life }: Scenario, coverageOf: (object: SampleObject) => number): SampleStory {
  const carried = (state: number): string[] => life.added.slice(0, state).flatMap((marks) => marks.map(({ id }) => id));
  return {
    simulated: true,
    marks: life.added.flatMap((marks, k) => marks.map((mark) => markOf(mark, k + 1))),
    objects: life.objects.map(({ object, made, state, from }) => ({
      file: fileOf(object),
      made,
      state,
      marks: carried(state),
      from: from && fileOf(from),
    })),
    lost: sampleEntries
      .filter(
        ({ object }) => coverageOf(object) < 1 && life.objects.some((l) => l.object === object && l.from === null),
      )
      .map(({ object, file }) => ({
        file,
        share: rounded(1 - coverageOf(object), 3),
        repeatedBy: life.objects.filter(({ from }) => from === object).map((copy) => fileOf(copy.object)),
      })),
    otherMatrix: [fileOf('otherMatrixImpression')],
  };
}

function fileOf(object: ObjectName): string {
  const entry = sampleEntries.find((each) => each.object === object);
  if (!entry) throw new RangeError(`No sample shows ${object}.`);
  return entry.file;
}

function markOf({ id, accident }: StoryMark, sinceState: number): SampleStory['marks'][number] {
  const { kind, polyline, depthMm, widthMm, lengthMm } = accident;
  const way = Array.from({ length: polyline.length / 2 }, (_, i): [number, number] => [
    rounded(polyline[2 * i], 2),
    rounded(polyline[2 * i + 1], 2),
  ]);
  const [x, y] = way[Math.floor(way.length / 2)];
  const deg = ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360;
  return {
    id,
    shape: kind,
    sinceState,
    at: { deg: rounded(deg, 1), hour: Math.round(deg / 30) % 12 || 12, radiusMm: rounded(Math.hypot(x, y), 1) },
    lengthMm: rounded(lengthMm, 2),
    widthMm: rounded(widthMm, 2),
    depthMm: rounded(depthMm, 2),
    way,
  };
}

const rounded = (value: number, places: number): number => Number(value.toFixed(places));

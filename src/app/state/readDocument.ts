import type { LookInput, Transcription, View } from '../../core/read/index.ts';

/** How a lamp stands in the reading room. */
export interface ReadLamp {
  readonly azimuthDeg: number;
  readonly heightDeg: number;
}

/** What the user set about one ring of a legend; what is left out is as the tool found it. */
export interface RingEdits {
  readonly outerMm?: number;
  readonly innerMm?: number;
  /** Clockwise from 12 o'clock on the impression. */
  readonly startDeg?: number;
  readonly facing?: 'inward' | 'outward';
}

/** A reading that was put aside, so that another reads without seeing it, or that came from a file. */
export interface Reading {
  /** Who read, or the file it came from. */
  readonly name: string;
  readonly transcription: Transcription;
}

/** The legend of one scan: which ring is laid out, what was moved, and what was read. */
export interface Legend {
  readonly ring: number;
  /** By number of the ring. */
  readonly rings: Readonly<Record<string, RingEdits>>;
  readonly transcription: Transcription;
  /** Who writes the transcription; left out where nobody said. */
  readonly reader?: string;
  /** Readings put aside, the first put aside first. */
  readonly aside?: readonly Reading[];
}

/** What was written into a card's fields; a field that is not here is filled from the scan. */
export type CardDraft = Readonly<Record<string, string>>;

/** All that the reading room keeps, undoes and saves. Plain data. */
export interface ReadDocument {
  /** Names of the looks in use. */
  readonly faceLook: string;
  readonly stripLook: string;
  /** The user's own, as JSON steps. */
  readonly looks: readonly LookInput[];
  /** Moved from where the look has it; null: as in the look. */
  readonly lamp: ReadLamp | null;
  /** Null: an engraved face as its impression, a raised one as it is. */
  readonly view: View | null;
  /** By scan. */
  readonly legends: Readonly<Record<string, Legend>>;
  readonly cards: Readonly<Record<string, CardDraft>>;
}

export const emptyLegend: Legend = { ring: 0, rings: {}, transcription: { language: 'la', items: [], sources: [] } };

export const emptyRead: ReadDocument = {
  faceLook: 'Raking light',
  stripLook: 'Faint legend',
  looks: [],
  lamp: null,
  view: null,
  legends: {},
  cards: {},
};

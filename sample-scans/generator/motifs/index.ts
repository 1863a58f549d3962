import { tower } from './buildings.ts';
import { fleur, rosette, starAndCrescent } from './flowers.ts';
import type { Motif } from './kit.ts';

/** The motif families by name. */
export const motifs = { fleur, rosette, starAndCrescent, tower } as const satisfies Record<string, Motif>;

export type MotifName = keyof typeof motifs;
export const motifNames = Object.keys(motifs) as MotifName[];

export type { Kit, Motif } from './kit.ts';

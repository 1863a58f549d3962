import { bird, eagle, fishes, lamb, lion } from './beasts.ts';
import { tower } from './buildings.ts';
import { figure } from './figure.ts';
import { fleur, rosette, starAndCrescent } from './flowers.ts';
import type { Motif } from './kit.ts';
import { hand, headFacing, keys, merchantMark, shieldOfArms, ship, tree } from './things.ts';

/** The motif families by name. */
export const motifs = {
  figure,
  bird,
  eagle,
  lamb,
  lion,
  fishes,
  fleur,
  rosette,
  starAndCrescent,
  tree,
  tower,
  ship,
  hand,
  keys,
  merchantMark,
  shieldOfArms,
  headFacing,
} as const satisfies Record<string, Motif>;

export type MotifName = keyof typeof motifs;
export const motifNames = Object.keys(motifs) as MotifName[];

export type { Kit, Motif } from './kit.ts';

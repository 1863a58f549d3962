import { bird } from './bird.ts';
import { eagle } from './eagle.ts';
import { figure } from './figure.ts';
import { fishes } from './fishes.ts';
import { fleur } from './fleur.ts';
import { hand } from './hand.ts';
import { headFacing } from './headFacing.ts';
import { keys } from './keys.ts';
import type { Motif } from './kit.ts';
import { lamb } from './lamb.ts';
import { lion } from './lion.ts';
import { merchantMark } from './merchantMark.ts';
import { rosette } from './rosette.ts';
import { shieldOfArms } from './shieldOfArms.ts';
import { ship } from './ship.ts';
import { starAndCrescent } from './starAndCrescent.ts';
import { tower } from './tower.ts';
import { tree } from './tree.ts';

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

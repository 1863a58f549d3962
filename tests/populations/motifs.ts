import { cross, ship, tower } from './motifsBuilt.ts';
import { beast, bird, tree, vine } from './motifsLiving.ts';
import { knot, lattice, star } from './motifsPattern.ts';
import type { Motif } from './pen.ts';

export const motifs: Readonly<Record<string, Motif>> = {
  beast,
  tree,
  cross,
  tower,
  bird,
  lattice,
  star,
  knot,
  vine,
  ship,
};
export const motifKinds = Object.keys(motifs);

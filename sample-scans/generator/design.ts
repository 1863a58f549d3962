import type { Random } from '../../src/core/geometry/index.ts';
import { chanceFor, smoothField, subSeed } from './chance.ts';
import { type Cut, cutCentre, moveCut } from './cuts.ts';
import { type HandName, type HandOf, handNames } from './hands.ts';
import { layLegend, type PlacedLetter, type Stop } from './legend.ts';
import { diaper, fillers } from './motifs/fillers.ts';
import { type Motif, type MotifName, motifs } from './motifs/index.ts';
import { clockwiseFromTop, depthInside, dieOutline, inset, type Ring } from './outline.ts';
import type { DieShape } from './types.ts';
import { inventLegend } from './words.ts';

/** What was to be cut: outline, border, legend and motif, before any hand has cut it. */
export interface Design {
  readonly outline: Ring;
  readonly shape: DieShape;
  readonly sizeMm: number;
  readonly cuts: readonly Cut[];
  readonly letters: readonly PlacedLetter[];
  readonly legend: string;
  readonly bandInnerOuterMm: readonly [number, number];
}

export interface DesignChoice {
  readonly shape: DieShape;
  readonly sizeMm: number;
  readonly motif: MotifName;
  readonly symmetryFold?: number;
  /** Fixes outline, borders and motif. */
  readonly patternSeed: number;
  /** Fixes hand and wording. */
  readonly legendSeed: number;
  /** Overrides the invented wording. */
  readonly legend?: string;
  readonly hand?: HandName;
}

export function designSeal(choice: DesignChoice, handOf: HandOf): Design {
  const random = chanceFor(choice.patternSeed, 'layout');
  const slim =
    choice.shape === 'pointedOval'
      ? random.between(0.58, 0.68)
      : choice.shape === 'oval'
        ? random.between(0.74, 0.88)
        : random.between(0.8, 0.9);
  const outline = dieOutline(choice.shape, choice.sizeMm, slim);
  const short = choice.shape === 'round' || choice.shape === 'square' ? choice.sizeMm : choice.sizeMm * slim;
  const bandOuterMm = 0.025 * short + random.between(0.5, 1.1);
  const letterMm = Math.max(1.5, Math.min(5, short * random.between(0.085, 0.115)));
  const bandInnerMm = bandOuterMm + letterMm / 0.74;
  const cuts: Cut[] = [];
  border(outline, bandOuterMm - 0.25, random, cuts);
  border(outline, bandInnerMm + 0.2, random, cuts);
  const legend = legendOf(choice, handOf, outline, bandOuterMm, bandInnerMm, letterMm);
  const firstLetter = cuts.length;
  cuts.push(...legend.cuts);
  const letters = legend.letters.map((letter) => ({ ...letter, cut: letter.cut + firstLetter }));
  cuts.push(...motifCuts(choice, inset(outline, bandInnerMm + 0.7)));
  return {
    outline,
    shape: choice.shape,
    sizeMm: choice.sizeMm,
    cuts,
    letters,
    legend: legend.text,
    bandInnerOuterMm: [bandOuterMm, bandInnerMm],
  };
}

function legendOf(
  choice: DesignChoice,
  handOf: HandOf,
  outline: Ring,
  bandOuterMm: number,
  bandInnerMm: number,
  letterMm: number,
): { cuts: readonly Cut[]; letters: readonly PlacedLetter[]; text: string } {
  const random = chanceFor(choice.legendSeed, 'legend');
  const hand = handOf(choice.hand ?? random.pick(handNames));
  const band = clockwiseFromTop(inset(outline, (bandOuterMm + bandInnerMm) / 2)).length;
  const text = choice.legend ?? inventLegend(random, Math.floor(band / (letterMm * 1.02)));
  const strokeMm = Math.max(0.22, Math.min(0.7, letterMm * random.between(0.13, 0.19)));
  const style = {
    hand,
    text,
    bandOuterMm,
    bandInnerMm,
    initialCross: random.next() < 0.85,
    stop: random.pick<Stop>(['pellet', 'colon', 'lozenge', 'star', 'none']),
    facingOutward: random.next() < 0.1,
    depthMm: Math.max(0.15, Math.min(0.6, strokeMm * random.between(0.75, 1.1))),
    strokeMm,
    section: random.pick(['vee', 'round', 'flat', 'round'] as const),
  };
  return { ...layLegend(style, outline, chanceFor(choice.legendSeed, 'letters')), text };
}

/** A border line inside the outline: plain, double, beaded, cabled, or a plain line with beads. */
function border(outline: Ring, insetMm: number, random: Random, cuts: Cut[]): void {
  const style = random.pick(['plain', 'double', 'beaded', 'cable', 'plain', 'beaded'] as const);
  const radius = random.between(0.14, 0.24);
  const add = (points: Float64Array, depthMm: number): void => {
    cuts.push({
      kind: 'stroke',
      part: 'border',
      section: 'round',
      mode: 'deepen',
      depthMm,
      flankMm: 0,
      chatterMm: 0.008,
      points,
    });
  };
  if (style === 'plain' || style === 'double') add(closedStroke(inset(outline, insetMm), radius), radius * 0.9);
  if (style === 'double') add(closedStroke(inset(outline, insetMm - 2.6 * radius), radius * 0.7), radius * 0.6);
  if (style !== 'beaded' && style !== 'cable') return;
  const path = clockwiseFromTop(inset(outline, insetMm));
  const bead = radius * random.between(1.1, 1.4);
  const count = Math.floor(path.length / (bead * random.between(2.15, 2.7)));
  for (let i = 0; i < count; i++) {
    const at = path.at((path.length * (i + 0.08 * random.normal())) / count);
    if (style === 'beaded') add(Float64Array.from([at.x, at.y, bead]), bead * 1.1);
    else {
      const dx = (at.tangentX - at.tangentY * 0.8) * bead;
      const dy = (at.tangentY + at.tangentX * 0.8) * bead;
      add(
        Float64Array.from([
          at.x - dx,
          at.y - dy,
          bead * 0.4,
          at.x,
          at.y,
          bead * 0.75,
          at.x + dx,
          at.y + dy,
          bead * 0.4,
        ]),
        bead * 0.8,
      );
    }
  }
}

function closedStroke(ring: Ring, radius: number): Float64Array {
  const n = ring.length / 2;
  const points = new Float64Array((n + 1) * 3);
  for (let i = 0; i <= n; i++) {
    points[3 * i] = ring[2 * (i % n)];
    points[3 * i + 1] = ring[2 * (i % n) + 1];
    points[3 * i + 2] = radius;
  }
  return points;
}

/** The motif, as large as its rectangle fits the inner field, and what fills the field about it. */
function motifCuts(choice: DesignChoice, inner: Ring): Cut[] {
  const motif = motifs[choice.motif];
  const random = chanceFor(choice.patternSeed, 'motif');
  const unitMm = largestUnit(motif, inner, choice.sizeMm);
  const cuts: Cut[] = [];
  const depthMm = Math.max(0.5, Math.min(3, unitMm * random.between(0.075, 0.12)));
  const kit = { random, cuts, unitMm, depthMm };
  if (random.next() < 0.14) diaper(kit, inner);
  motif.draw(kit, choice.symmetryFold);
  if (choice.symmetryFold === undefined) fillers(kit, motif, inner);
  return cuts;
}

/** mm per motif unit at which the rectangle's corners, eased to a rounder form unless the motif is boxy, touch. */
function largestUnit(motif: Motif, inner: Ring, sizeMm: number): number {
  const round = [
    [1, 0],
    [0, 1],
    [0.84, 0.72],
    [0.6, 0.9],
    [0.84, -0.72],
    [0.6, -0.9],
    [0, -1],
  ];
  const corners = motif.boxy ? [...round, [0.96, -0.98], [0.94, 0.72]] : round;
  let unitMm = sizeMm;
  for (const [u, v] of corners) {
    let low = 0;
    let high = sizeMm;
    for (let step = 0; step < 20; step++) {
      const middle = (low + high) / 2;
      if (depthInside(inner, u * motif.aspect * middle, v * middle) > 0) low = middle;
      else high = middle;
    }
    unitMm = Math.min(unitMm, low);
  }
  return unitMm;
}

/**
 * The same design as another hand (or the same hand on another day) cuts it: the drawing drifts smoothly over the
 * face, and every stroke is shifted, turned, scaled and cut to another depth, by about `jitterMm`.
 */
export function recut(design: Design, jitterMm: number, seed: number): Design {
  const random = chanceFor(seed, 'copyist');
  const cell = design.sizeMm * 0.22;
  const driftX = smoothField(random, cell);
  const driftY = smoothField(random, cell);
  const cuts = design.cuts.map((cut): Cut => {
    const [cx, cy] = cutCentre(cut);
    const own = cut.part === 'letter' ? 1 : cut.part === 'border' ? 0.15 : 0.45;
    const dx = own * jitterMm * random.normal();
    const dy = own * jitterMm * random.normal();
    const turn = own * 0.35 * jitterMm * random.normal();
    const sx = 1 + own * 0.25 * jitterMm * random.normal();
    const sy = 1 + own * 0.25 * jitterMm * random.normal();
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    const move = (x: number, y: number): readonly [number, number] => {
      const u = (x - cx) * sx;
      const v = (y - cy) * sy;
      return [
        cx + c * u - s * v + dx + 1.3 * jitterMm * driftX(x, y),
        cy + s * u + c * v + dy + 1.3 * jitterMm * driftY(x, y),
      ];
    };
    const wide = cut.part === 'border' && cut.kind === 'stroke' && cut.points.length > 60;
    const whole = (x: number, y: number): readonly [number, number] => [
      x + 1.3 * jitterMm * driftX(x, y),
      y + 1.3 * jitterMm * driftY(x, y),
    ];
    return moveCut(cut, wide ? whole : move, 1 + 0.06 * random.normal(), 1 + 0.1 * random.normal());
  });
  const letters = design.letters.map((letter) => {
    const [x, y] = cutCentre(cuts[letter.cut]);
    const [x0, y0] = cutCentre(design.cuts[letter.cut]);
    return { ...letter, x: letter.x + x - x0, y: letter.y + y - y0 };
  });
  return { ...design, cuts, letters };
}

/** Seed of the tool's chatter in one cut. */
export const chatterSeed = (handSeed: number, cut: number): number => subSeed(handSeed, `chatter ${cut}`);

/** What made a line, as far as its section and way tell. */
export type LineKind = 'cut' | 'crack' | 'scratch';

/** The mean section of a line and what is read from it. Line turned upward, mm; `Sd`: one standard deviation of the mean over pieces of the line. */
export interface MeanSection {
  /** Distances aside, even and symmetric about the middle. */
  readonly asideMm: Float64Array;
  readonly heightMm: Float64Array;
  readonly heightSdMm: Float64Array;
  readonly depthMm: number;
  readonly depthSdMm: number;
  /** Greatest height anywhere across: more than the depth where something else stands higher beside the line. */
  readonly mostMm: number;
  /** Full width at half depth. */
  readonly widthMm: number;
  readonly widthSdMm: number;
  /** Section area of the line itself, mm²: what a scan's blur does not change. */
  readonly areaMm2: number;
  readonly areaSdMm2: number;
  /** Flank to the right and left of the way along, degrees from the surface. */
  readonly flankDeg: readonly [number, number];
  /** Width at three quarters of the depth over that at one quarter: V 1/3, parabola 0.58, trough 1. */
  readonly fullness: number;
  /** Where the line is wide enough in cells to tell. */
  readonly bottom: 'vee' | 'round' | 'flat' | 'unresolved';
  /** Mean height against the line's own sense beside its feet, right and left: what was thrown up; negative where the ground falls away. */
  readonly lipMm: readonly [number, number];
  readonly lipSdMm: readonly [number, number];
  /** Spread of the width along the line, as a share of it. */
  readonly widthSpread: number;
  /** Pieces of a millimetre that the mean was taken over. */
  readonly pieces: number;
}

/** How a line's height follows the design along its way. Heights in the positive's sense, mm. */
export interface LineLevel {
  /** What the height of the design is taken from: the other face, or the line's own sides, which a stroke beside it can raise. */
  readonly ground: 'design' | 'sides';
  /** Height of the design under the line that a tenth and nine tenths of the steps do not exceed. */
  readonly lowMm: number;
  readonly highMm: number;
  /** Level of the crest (of a groove: of its floor) if a tool kept one level. */
  readonly levelMm: number;
  /** What is left of the crests by either reading: one level over the design, or one height of its own. */
  readonly offLevelMm: number;
  readonly offHeightMm: number;
  /** Half the difference of the two sums of squares, in units of the smaller, for each independent piece: above 0 for one level. */
  readonly forLevel: number;
  /** Pieces of the line where the design lies beyond that level, and those of them where the line is not seen. */
  readonly beyond: number;
  readonly beyondWithout: number;
}

/** What a line's section and way show. Lengths mm. */
export interface LineNumbers {
  readonly section: MeanSection;
  /** Null with too few steps. */
  readonly level: LineLevel | null;
  /** Length over which it was followed. */
  readonly lengthMm: number;
  /** Root mean square distance of its middle from the straight line, and from the best parabola. */
  readonly strayMm: number;
  readonly wanderMm: number;
  /** Share of the length at which it was seen. */
  readonly seen: number;
  /** Cells of the surface it was measured on. */
  readonly pitchMm: number;
}

/** One of the grounds of a verdict: what it adds to each kind, in powers of ten. */
export interface LineGround {
  readonly name: 'level' | 'size' | 'wander' | 'steepness' | 'lips';
  readonly cut: number;
  readonly crack: number;
  readonly scratch: number;
}

export interface LineVerdict {
  readonly verdict: LineKind | 'cannotTell';
  /** False where even the best of the three fits badly, or the line was not measured well enough. */
  readonly fits: boolean;
  /** The kinds by their sums, the best first; empty where the line was not measured well enough. */
  readonly order: readonly LineKind[];
  /** Lead of the best kind over the next, in powers of ten as weighed here: a score and no likelihood ratio. */
  readonly lead: number;
  readonly grounds: readonly LineGround[];
}

/** What of a line's verdict and grounds is to be said, lengths mm. */
export interface LineReading {
  readonly end:
    | { readonly code: 'tooUneven' | 'higherBeside' | 'likeNone' }
    | { readonly code: 'oneOfTwo'; readonly kinds: readonly [LineKind, LineKind] }
    | { readonly code: 'plain'; readonly kind: LineKind }
    | { readonly code: 'rather'; readonly kind: LineKind; readonly than: LineKind };
  /** How it runs: within `offMm` r.m.s. of a straight line or of one bow, or wandering by as much. */
  readonly way: { readonly code: 'straight' | 'oneBow' | 'wandering'; readonly offMm: number };
  /** Its width at half depth, or that it is no wider than the scan resolves. */
  readonly width: { readonly code: 'wide' | 'unresolved'; readonly widthMm: number };
  /** What was thrown up beside it; null where that could not be seen. */
  readonly lips:
    | { readonly code: 'none'; readonly overMm: number }
    | { readonly code: 'lips' | 'furrows'; readonly sides: 1 | 2; readonly heightMm: number; readonly sdMm: number }
    | null;
  /** How its height goes with the design; null where that says nothing. */
  readonly level:
    | {
        readonly code: 'absentBeyond';
        readonly ground: LineLevel['ground'];
        readonly side: 'higher' | 'lower';
        readonly levelMm: number;
      }
    | { readonly code: 'keepsLevel'; readonly levelMm: number }
    | { readonly code: 'follows'; readonly rangeMm: number }
    | null;
}

/** Verdict on a line mark, the numbers it rests on (null without enough data) and what of both is to be said. */
export interface LineSection extends LineVerdict {
  /** Raised in the positive's sense on the face it was measured on. */
  readonly ridge: boolean;
  readonly measured: LineNumbers | null;
  /** Null where nothing was measured. */
  readonly reading: LineReading | null;
}

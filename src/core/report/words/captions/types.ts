import type { BandDoubt } from '../../../design/index.ts';
import type { FacingDoubt, LookStep, StandardLookName } from '../../../read/index.ts';

/** Ways a picture shows its object: of an object turned over, what it then looks like. */
export type WayShown = 'asItIs' | 'mirrored' | 'asImpression' | 'asMatrix' | 'turnedOver';

/** A step of a look; lengths and angles as they are printed, lamps in words. */
export type StepWords = (step: LookStep, number: (value: number) => string, lamps: string) => string;

/**
 * All words of captions and plates in one language. Numbers come as they are printed. A further language is a further file of
 * this type.
 */
export interface CaptionWords {
  /** What parts a number's whole from its decimals. */
  readonly decimal: '.' | ',';
  readonly and: string;
  /** Names of the looks to begin with; a user's own keep the name that they were given. */
  readonly looks: Readonly<Record<StandardLookName, string>>;
  readonly simulated: { readonly one: string; readonly several: string };
  /** "Natural size", or how many times it (null: natural). */
  readonly times: (times: string | null) => string;
  readonly atDpi: (size: string, dpi: number) => string;
  /** Of a positive the outline is that of the wax or plaster, not that of the seal. */
  readonly piece: (size: string) => string;
  readonly formRemoved: string;
  readonly light: {
    readonly lamp: (azimuth: string, height: string, strength: string | null) => string;
    /** Lamps of a plate, one sentence with how angles are counted. */
    readonly plate: (lamps: readonly string[]) => string;
    readonly from: (lamps: readonly string[]) => string;
    readonly evenSky: (radius: string) => string;
    readonly soft: (percent: number, radius: string) => string;
    readonly castShadows: string;
    /** Where the brightest parts are held below white. */
    readonly held: string;
    readonly heightsTimes: (factor: string) => string;
    readonly angles: string;
    readonly across: (stroke: string, from: string, to: string, middle: string, height: string) => string;
  };
  readonly ways: Readonly<Record<WayShown, string>>;
  readonly step: StepWords;
  readonly strip: {
    readonly title: string;
    readonly twoWays: string;
    readonly facing: Readonly<Record<'inward' | 'outward', string>>;
    readonly from: (degrees: string) => string;
    readonly letters: (mm: string) => string;
    readonly turnedOver: string;
    readonly asItIs: string;
    readonly plain: string;
    readonly oneLamp: string;
    readonly strokeContrast: (value: string) => string;
    readonly composite: string;
    readonly cross: (degrees: string) => string;
    readonly noCross: string;
    readonly startsWhole: string;
    readonly sized: (mm: string, dpi: number) => string;
  };
  readonly card: {
    readonly simulated: string;
    /** Under the legend's strip where its look is told already; `turned`: a matrix was turned over for it. */
    readonly sameLook: (turned: boolean) => string;
    /** Behind a strip's look. */
    readonly matrixTurned: string;
  };
  readonly senses: Readonly<Record<'undecided' | 'upright' | 'upsideDown' | 'mirrored' | FacingDoubt, string>>;
  readonly band: {
    readonly confidence: (value: string) => string;
    readonly doubts: Readonly<Record<BandDoubt, string>>;
    readonly noLetters: string;
  };
  readonly composite: {
    readonly refused: string;
    /** `parts`: "A 60 %". */
    readonly of: (parts: readonly string[]) => string;
    /** Over the map of who gives most at each place. */
    readonly contributors: (parts: ReadonlyArray<{ readonly name: string; readonly grey: number }>) => string;
    readonly stateUntold: (names: readonly string[]) => string;
    readonly leftOut: (each: readonly string[]) => string;
    readonly why: {
      readonly notSupported: (finding: string) => string;
      readonly otherState: string;
      readonly stateNotJudged: string;
      readonly notInRegister: string;
      readonly copyOf: (other: string) => string;
      readonly oneDescentWith: (other: string) => string;
    };
    readonly findings: Readonly<Record<'supported' | 'against' | 'otherDesign' | 'undecided' | 'notJudged', string>>;
  };
  readonly fragments: {
    /** "3 fragments in their places, each fitted to the matrix A: …" */
    readonly title: (names: readonly string[], reference: string) => string;
    readonly undecided: (names: readonly string[]) => string;
    readonly share: (percent: number) => string;
    readonly meet: (edge: FragmentEdge) => string;
    readonly noEdges: string;
    readonly overlap: (one: string, two: string, mm2: string, depth: string) => string;
    readonly nothingFilled: string;
    /** Under the picture. */
    readonly name: string;
  };
}

/** How the edges of two fragments meet, numbers as they are printed. */
export interface FragmentEdge {
  readonly one: string;
  readonly two: string;
  readonly length: string;
  readonly gap: string;
  readonly gap90: string;
  /** Which stands higher beyond the gap and by how much; null: neither, within `within`. */
  readonly step: { readonly higher: 'one' | 'two'; readonly by: string } | null;
  readonly within: string;
}

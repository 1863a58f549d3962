import { type Accident, wanderFrom } from '../accidents.ts';
import { chanceFor, subSeed } from '../chance.ts';
import { crackAlong, strikeThrough } from '../damage.ts';
import { type Design, designSeal, recut } from '../design.ts';
import { type Die, engrave } from '../die.ts';
import { copyField } from '../field.ts';
import type { HandOf } from '../hands.ts';
import { yearsLater } from '../laterDate.ts';
import { castOf, type ImpressionChoice, impressionFrom, type Made, matrixFrom, recastFrom } from '../made.ts';

/** The objects of the fictional priory of Averholt, before they are scanned. */
export interface Scenario {
  readonly priory: Design;
  readonly secondMatrix: Design;
  readonly hospital: Design;
  readonly odric: Design;
  readonly objects: Readonly<Record<ObjectName, Made>>;
  readonly life: MatrixLife;
}

/** A mark that the priory's matrix acquired, in the design frame, which is the impression's. */
export interface StoryMark {
  readonly id: string;
  readonly accident: Accident;
}

/** What happened to the priory's matrix, and what each object comes from. */
export interface MatrixLife {
  /** From the first state on: the marks that each added to those before. */
  readonly added: ReadonlyArray<readonly StoryMark[]>;
  /** Objects that carry the priory's design: the state of the matrix that they show, from 1, and of what they were made; null: of the matrix. */
  readonly objects: ReadonlyArray<{
    readonly object: ObjectName;
    readonly made: 'matrix' | 'impression' | 'cast' | 'recast';
    readonly state: number;
    readonly from: ObjectName | null;
  }>;
}

export type ObjectName =
  | 'matrix'
  | 'goodImpression'
  | 'wornImpression'
  | 'testImpression'
  | 'castOfWorn'
  | 'otherMatrixImpression'
  | 'recastMatrix'
  | 'odricMatrix'
  | 'odricImpression'
  | 'odricLater'
  | 'hospitalImpression'
  | 'odricCounterseal';

const seed = 1287;

/** Gentle handling: what most of the impressions share. */
const fresh: ImpressionChoice = {
  wear: 0.08,
  shrink: 0.008,
  clutter: 0.15,
  underfilled: 0,
  flattened: 0,
  slipMm: 0,
  blurMm: 0,
  clogged: 0,
};

/**
 * The life of the priory's matrix: cut; good impression; a crack opens and grows; second impression; struck through
 * when the priory was dissolved; test impression today. A second matrix was cut after the first; somebody moulded
 * the good impression and cast a copy of the matrix from it.
 */
export function priorySeals(handOf: HandOf): Scenario {
  const priory = designSeal(
    {
      shape: 'pointedOval',
      sizeMm: 62,
      motif: 'figure',
      patternSeed: subSeed(seed, 'priory'),
      legendSeed: subSeed(seed, 'priory legend'),
      legend: 'SIGILLVM PRIORIS ET CAPITVLI DE AVERHOLT',
      hand: 'metamorphous',
    },
    handOf,
  );
  const first = engrave(priory, subSeed(seed, 'first engraver'), 0.055);
  const { outline, sizeMm } = priory;
  const { die: cracked, marks: cracks } = withCrack(first);
  const cancelled: Die = { design: priory, depth: copyField(cracked.depth) };
  const cut = strikeThrough(cancelled, chanceFor(seed, 'cancelled'), { angle: 0.62, offset: 2.5 });
  const states = [first, cracked, cancelled];
  const dieOf = (object: ObjectName): Die => states[lifeOf(object).state - 1];
  const good = impressionFrom(dieOf('goodImpression'), { ...fresh, clutter: 0.1 }, subSeed(seed, 'well kept'));
  const worn = impressionFrom(
    dieOf('wornImpression'),
    { wear: 0.7, shrink: 0.021, clutter: 0.9, underfilled: 0.12, flattened: 0.3, slipMm: 0, blurMm: 0.05, clogged: 1 },
    subSeed(seed, 'worn'),
  );
  const sources: Partial<Record<ObjectName, Made>> = { goodImpression: good, wornImpression: worn };
  const sourceOf = (object: ObjectName): Made => {
    const source = sources[lifeOf(object).from ?? object];
    if (!source) throw new RangeError(`${object} is made from nothing.`);
    return source;
  };
  const secondMatrix = recut(priory, 0.22, subSeed(seed, 'second engraver'));
  const second = engrave(secondMatrix, subSeed(seed, 'second hand'), 0.055);
  const hospital = designSeal(
    {
      shape: 'round',
      sizeMm: 34,
      motif: 'keys',
      patternSeed: subSeed(seed, 'hospital'),
      legendSeed: subSeed(seed, 'hospital legend'),
      legend: "S' HOSPITALIS DE AVERHOLT",
      hand: 'uncial-antiqua',
    },
    handOf,
  );
  const odric = designSeal(
    {
      shape: 'round',
      sizeMm: 14.6,
      motif: 'bird',
      patternSeed: subSeed(seed, 'odric 2'),
      legendSeed: subSeed(seed, 'odric legend'),
      legend: 'SECRETVM ODRIC DE TARVEN',
      hand: 'cinzel',
    },
    handOf,
  );
  const odricDie = engrave(odric, subSeed(seed, 'odric engraver'), 0.03);
  const odricWax = impressionFrom(odricDie, { ...fresh, wear: 0.15 }, subSeed(seed, 'odric impression'));
  const hospitalDie = engrave(hospital, subSeed(seed, 'hospital engraver'), 0.05);
  return {
    priory,
    secondMatrix,
    hospital,
    odric,
    life: { added: [[], cracks, [{ id: 'cut', accident: cut }]], objects: lives },
    objects: {
      matrix: matrixFrom(dieOf('matrix'), 0.7, subSeed(seed, 'matrix')),
      goodImpression: good,
      wornImpression: worn,
      testImpression: impressionFrom(
        dieOf('testImpression'),
        { ...fresh, wear: 0, clutter: 0, shrink: 0.003 },
        subSeed(seed, 'test'),
      ),
      castOfWorn: castOf(sourceOf('castOfWorn'), outline, sizeMm, 0.4, subSeed(seed, 'plaster')),
      otherMatrixImpression: impressionFrom(second, { ...fresh, wear: 0.25, clutter: 0.4 }, subSeed(seed, 'other')),
      recastMatrix: recastFrom(sourceOf('recastMatrix'), outline, sizeMm, 0.3, subSeed(seed, 'recast')),
      odricMatrix: matrixFrom(odricDie, 0.4, subSeed(seed, 'odric matrix')),
      odricImpression: odricWax,
      odricLater: yearsLater(odricWax, subSeed(seed, 'odric later')),
      hospitalImpression: impressionFrom(
        hospitalDie,
        { ...fresh, wear: 0.3, clutter: 0.3 },
        subSeed(seed, 'hospital impression'),
      ),
      odricCounterseal: impressionFrom(odricDie, { ...fresh, wear: 0.1, shrink: 0 }, subSeed(seed, 'counterseal')),
    },
  };
}

/** The state that each object is made in and what it is made from: the objects are made after it, and the story is told from it. */
const lives: MatrixLife['objects'] = [
  { object: 'matrix', made: 'matrix', state: 3, from: null },
  { object: 'goodImpression', made: 'impression', state: 1, from: null },
  { object: 'wornImpression', made: 'impression', state: 2, from: null },
  { object: 'testImpression', made: 'impression', state: 3, from: null },
  { object: 'castOfWorn', made: 'cast', state: 2, from: 'wornImpression' },
  { object: 'recastMatrix', made: 'recast', state: 1, from: 'goodImpression' },
];

function lifeOf(object: ObjectName): MatrixLife['objects'][number] {
  const found = lives.find((life) => life.object === object);
  if (!found) throw new RangeError(`${object} has no part in the matrix's life.`);
  return found;
}

/** The crack from the rim at the lower right, through the legend into the canopy's post, and its fork. */
function withCrack(die: Die): { die: Die; marks: StoryMark[] } {
  const cracked = { design: die.design, depth: copyField(die.depth) };
  const random = chanceFor(seed, 'crack');
  const line = wanderFrom(10, -11, 2.5, 17, 0.06, random);
  const crack = crackAlong(cracked, line, 0.28, 0.4);
  const fork = crackAlong(cracked, wanderFrom(line[20], line[21], 3.3, 6, 0.06, random), 0.18, 0.25);
  return {
    die: cracked,
    marks: [
      { id: 'crack', accident: crack },
      { id: 'fork', accident: fork },
    ],
  };
}

import type { ObjectName } from './scenario.ts';

/** One sample scan, as `samples.json` lists it. Everything is simulated; the priory and its people are invented. */
export interface SampleEntry {
  readonly file: string;
  readonly title: string;
  readonly kind: 'matrix' | 'impression' | 'cast';
  readonly material: string;
  /** Unit of the numbers in the file. */
  readonly unitInFile: 'mm' | 'm';
  /** Whether the format says so; else the reader has to. */
  readonly unitStated: boolean;
  /** Longest side of the face, mm. */
  readonly faceMm: number;
  readonly wholeObject: boolean;
  readonly description: string;
}

export interface SuggestedPair {
  readonly reference: string;
  readonly subject: string;
  readonly title: string;
  /** What there is to see. */
  readonly look: string;
}

/** Two scans of one object. */
export interface SuggestedDates {
  readonly earlier: string;
  readonly later: string;
  readonly title: string;
  readonly look: string;
}

export interface SampleIndex {
  readonly simulated: true;
  readonly samples: readonly SampleEntry[];
  /** The pair to show first. */
  readonly opening: { readonly reference: string; readonly subject: string };
  readonly pairs: readonly SuggestedPair[];
  readonly dates: readonly SuggestedDates[];
}

export const sampleEntries: ReadonlyArray<SampleEntry & { readonly object: Exclude<ObjectName, 'odricCounterseal'> }> =
  [
    {
      object: 'matrix',
      file: 'averholt-matrix.glb',
      title: 'Matrix of the priory of Averholt, cancelled',
      kind: 'matrix',
      material: 'brass',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 62,
      wholeObject: true,
      description:
        'Pointed oval with a pierced upright handle, cracked at the rim and struck through by a cut; as it survives.',
    },
    {
      object: 'goodImpression',
      file: 'averholt-impression-good.glb',
      title: 'Impression of the priory seal, well preserved',
      kind: 'impression',
      material: 'beeswax',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 61.5,
      wholeObject: true,
      description: 'Thick cake of wax with back and wall, made before the crack opened and long before the cut.',
    },
    {
      object: 'wornImpression',
      file: 'averholt-impression-worn.glb',
      title: 'Impression of the priory seal, worn and chipped',
      kind: 'impression',
      material: 'beeswax',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 60.7,
      wholeObject: false,
      description:
        'Face alone: rubbed, chipped, shrunk by 2.1 %, a piece lost; made after the crack opened and before the cut.',
    },
    {
      object: 'testImpression',
      file: 'averholt-impression-test.glb',
      title: 'Test impression of the priory matrix, modern',
      kind: 'impression',
      material: 'dental wax',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 61.8,
      wholeObject: false,
      description: 'Face alone, sharp; shows the crack and the cut of the cancelled matrix standing up.',
    },
    {
      object: 'castOfWorn',
      file: 'averholt-cast-of-worn.glb',
      title: 'Plaster cast of the worn impression',
      kind: 'cast',
      material: 'plaster',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 60.7,
      wholeObject: false,
      description:
        'Same wear, chips and loss as the worn impression, a little softer, with bubbles and pits of its own.',
    },
    {
      object: 'otherMatrixImpression',
      file: 'averholt-second-matrix-impression.glb',
      title: 'Impression of a second matrix of the same pattern',
      kind: 'impression',
      material: 'beeswax',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 61.5,
      wholeObject: false,
      description:
        'Face alone: the same figure and legend cut again by another hand, every part a little out of place.',
    },
    {
      object: 'recastMatrix',
      file: 'averholt-matrix-recast.glb',
      title: 'Recast copy of the priory matrix',
      kind: 'matrix',
      material: 'bronze',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 60.5,
      wholeObject: true,
      description:
        'Cast in metal from a mould of the well preserved impression: smaller, softer, without crack or cut.',
    },
    {
      object: 'odricMatrix',
      file: 'odric-matrix.glb',
      title: 'Personal seal matrix of Odric of Tarven',
      kind: 'matrix',
      material: 'brass',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 14.6,
      wholeObject: true,
      description: 'Small, round, with a turned handle that ends in a ring.',
    },
    {
      object: 'odricImpression',
      file: 'odric-impression.ply',
      title: 'Impression of Odric of Tarven’s seal',
      kind: 'impression',
      material: 'beeswax',
      unitInFile: 'mm',
      unitStated: false,
      faceMm: 14.5,
      wholeObject: false,
      description:
        'Face alone. The file states no unit, and both mm and cm would give a plausible seal: it must be stated.',
    },
    {
      object: 'odricLater',
      file: 'odric-impression-later.glb',
      title: 'Impression of Odric of Tarven’s seal, scanned again years later',
      kind: 'impression',
      material: 'beeswax',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 14.5,
      wholeObject: false,
      description: 'The same piece of wax: a flake gone, a crack opened at the rim, a film on the field.',
    },
    {
      object: 'hospitalImpression',
      file: 'hospital-impression-counterseal.glb',
      title: 'Seal of the hospital of Averholt with Odric’s counterseal',
      kind: 'impression',
      material: 'beeswax',
      unitInFile: 'm',
      unitStated: true,
      faceMm: 33.7,
      wholeObject: true,
      description:
        'One piece of wax with two sealed faces: the hospital’s round seal in front, Odric’s personal seal on the back.',
    },
  ];

export const suggestedPairs: readonly SuggestedPair[] = [
  {
    reference: 'averholt-matrix.glb',
    subject: 'averholt-impression-good.glb',
    title: 'The surviving matrix and the good impression',
    look: 'Same matrix; the crack and the cut are on the matrix alone, so the impression is the earlier.',
  },
  {
    reference: 'averholt-matrix.glb',
    subject: 'averholt-impression-worn.glb',
    title: 'The surviving matrix and the worn impression',
    look: 'Same matrix; the crack is on both, the cut on the matrix alone; wear, chips, 2.1 % shrinkage, a piece lost.',
  },
  {
    reference: 'averholt-matrix.glb',
    subject: 'averholt-impression-test.glb',
    title: 'The surviving matrix and a modern test impression',
    look: 'Same matrix in the same state: crack and cut stand up on the wax.',
  },
  {
    reference: 'averholt-matrix.glb',
    subject: 'averholt-second-matrix-impression.glb',
    title: 'The matrix and an impression of the other matrix',
    look: 'Same pattern, another matrix: parts shifted by tenths of a millimetre, other tool marks.',
  },
  {
    reference: 'averholt-matrix-recast.glb',
    subject: 'averholt-impression-good.glb',
    title: 'The recast copy and the impression it comes from',
    look: 'The copy is smaller than the wax it should have made.',
  },
  {
    reference: 'averholt-matrix.glb',
    subject: 'averholt-cast-of-worn.glb',
    title: 'The matrix and the plaster cast',
    look: 'Turned over like an impression; carries the accidents of the worn wax.',
  },
  {
    reference: 'averholt-impression-good.glb',
    subject: 'averholt-impression-worn.glb',
    title: 'Two impressions',
    look: 'Both made from one matrix; the crack grew between them.',
  },
  {
    reference: 'averholt-impression-worn.glb',
    subject: 'averholt-cast-of-worn.glb',
    title: 'An impression and its cast',
    look: 'Accidents of the wax are shared: one is a cast of the other.',
  },
  {
    reference: 'odric-matrix.glb',
    subject: 'odric-impression.ply',
    title: 'A personal seal, unit not stated',
    look: 'The unit of the impression follows from its partner or must be stated.',
  },
  {
    reference: 'odric-matrix.glb',
    subject: 'hospital-impression-counterseal.glb',
    title: 'A personal seal and a counterseal',
    look: 'The matching face is the smaller one on the back.',
  },
];

export const suggestedDates: readonly SuggestedDates[] = [
  {
    earlier: 'odric-impression.ply',
    later: 'odric-impression-later.glb',
    title: 'Odric’s impression on two dates',
    look: 'One piece of wax scanned twice: a flake is gone, a crack has opened, a film was left.',
  },
];

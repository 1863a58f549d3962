import { acrossDefaults, exaggeratedDefaults } from '../../../read/index.ts';
import type { CaptionWords, StepWords } from './types.ts';

const step: StepWords = (step, n, lamps) => {
  switch (step.do) {
    case 'fromStart':
      return 'again from the relief as scanned';
    case 'removeForm':
      return step.order === 1 ? 'plane removed' : 'second-order form removed';
    case 'formRemoved':
      return `form above ${n(step.wavelengthMm)} mm removed (rings at cracks)`;
    case 'smooth':
      return `smoothed below ${n(step.wavelengthMm)} mm`;
    case 'bandPass':
      return `band ${n(step.fromMm)} to ${n(step.toMm)} mm kept (rings at cracks)`;
    case 'edgeAwareBase':
      return `smoothed at ${n(step.sizeMm)} mm except at edges over ${n(step.edgeMm)} mm`;
    case 'edgeAwareDetail':
      return `detail finer than ${n(step.sizeMm)} mm, edges over ${n(step.edgeMm)} mm left out`;
    case 'localHeight':
      return `local height over ${n(step.meanMm)} mm (rings at cracks)`;
    case 'exaggerate':
      return `heights × ${n(step.factor)}`;
    case 'light':
      return `light from ${lamps}${step.castShadows ? ', cast shadows' : ''}`;
    case 'lightAcross': {
      const { strokeMm, middleAzimuthDeg, heightDeg } = { ...acrossDefaults, ...step };
      return `lit across strokes of ${n(strokeMm)} mm from ${n(middleAzimuthDeg)}° ± 90°, height ${n(heightDeg)}°`;
    }
    case 'skyView':
      return `sky-view factor within ${n(step.radiusMm)} mm`;
    case 'openness':
      return `openness within ${n(step.radiusMm)} mm`;
    case 'curvature':
      return `${step.show === 'both' ? 'ridges and valleys' : step.show} at ${n(step.scaleMm)} mm (rings at cracks)`;
    case 'heights':
      return 'heights as grey';
    case 'principalShading':
      return `principal component ${step.component} of 16 shadings, height ${n(step.heightDeg ?? 35)}°`;
    case 'exaggeratedShading': {
      const { finestMm, scales } = { ...exaggeratedDefaults, ...step };
      return `exaggerated shading, ${scales} scales from ${n(finestMm)} mm, ${lamps} (soft border at cracks)`;
    }
  }
};

export const en: CaptionWords = {
  decimal: '.',
  and: ' and ',
  looks: {
    'Faint legend': 'Faint legend',
    'Raking light': 'Raking light',
    'Low raking light with shadows': 'Low raking light with shadows',
    'Across the strokes': 'Across the strokes',
    'Soft light': 'Soft light',
    'Light from everywhere': 'Light from everywhere',
    'Every scale in raking light': 'Every scale in raking light',
    'Ridges and valleys': 'Ridges and valleys',
  },
  simulated: { one: 'Simulated scan.', several: 'Simulated scans.' },
  times: (times) => (times === null ? 'Natural size' : `${times} times natural size`),
  atDpi: (size, dpi) => `${size} at ${dpi} dots per inch.`,
  piece: (size) => `the piece ${size}`,
  formRemoved: 'The form of each face is removed; blank where there is no data.',
  light: {
    lamp: (azimuth, height, strength) =>
      `azimuth ${azimuth}, height ${height}${strength === null ? '' : `, strength ${strength}`}`,
    plate: (lamps) =>
      `Lit from ${lamps.join(' and from ')}, azimuth clockwise from the top of the picture, height above the face plane.`,
    from: (lamps) => `${lamps.length === 1 ? 'Lamp' : `${lamps.length} lamps`} from ${lamps.join('; ')}`,
    evenSky: (radius) => `Soft light from an even sky, horizon within ${radius} mm`,
    soft: (percent, radius) => `${percent} % soft light, horizon within ${radius} mm`,
    castShadows: 'with cast shadows',
    held: 'Slopes brighter than the field are held below white.',
    heightsTimes: (factor) => `heights × ${factor}`,
    angles: 'Azimuth clockwise from the top of the picture, height above the face plane.',
    across: (stroke, from, to, middle, height) =>
      `Lit across each stroke (${stroke} mm), azimuth between ${from}° and ${to}° by way of ${middle}°, height ${height}°`,
  },
  ways: {
    asItIs: 'shown as it is',
    mirrored: 'shown mirrored (no object looks like this)',
    asImpression: 'shown as its impression (turned over)',
    asMatrix: 'shown as its matrix (turned over)',
    turnedOver: 'shown turned over',
  },
  step,
  strip: {
    title: 'Legend strip',
    twoWays: 'letters face two ways, each arc laid out so that it reads',
    facing: { inward: 'clockwise, feet to the centre', outward: 'against the clock, feet to the rim' },
    from: (degrees) => `from ${degrees}° clockwise from 12 o'clock on the impression`,
    letters: (mm) => `letters ${mm} mm high`,
    turnedOver: 'matrix turned over to read as its impression',
    asItIs: 'read as it is',
    plain: 'plain light',
    oneLamp: 'one lamp',
    strokeContrast: (value) => `stroke contrast ${value}`,
    composite: 'Composite',
    cross: (degrees) => `A cross is seen at ${degrees}°.`,
    noCross: 'No cross is seen.',
    startsWhole: 'The strip begins where the broken legend is whole again.',
    sized: (mm, dpi) => `Letters ${mm} mm high at ${dpi} dots per inch.`,
  },
  card: {
    simulated: 'Simulated: computed, not scanned.',
    sameLook: (turned) =>
      `The legend laid out straight, in the same look${turned ? '; the matrix turned over to read as its impression' : ''}.`,
    matrixTurned: 'the matrix turned over to read as its impression',
  },
  senses: {
    undecided: 'Which way the letters stand could not be told.',
    upright: 'The letters stand upright on the strip.',
    upsideDown: 'The letters stand upside down: the legend faces the other way.',
    mirrored: 'The legend is retrograde: its letters read as in a mirror on the impression. It is shown as it is.',
    cutUnsure: 'Where the letters change their facing, if they do, is doubtful.',
    senseUnsure: 'Which of the arcs stand upright is doubtful: all of them may stand upside down.',
  },
  band: {
    confidence: (value) => `Band found with confidence ${value}.`,
    doubts: {
      noInnerLine: 'No inner border line was seen.',
      noOuterLine: 'No outer border line was seen.',
      noLine: 'No border line was seen: the band is where letters seem to be.',
      uncertain: 'The band is uncertain: check both edges.',
    },
    noLetters: 'Nothing like letters was made out in it: it may be no legend.',
  },
  composite: {
    refused: 'No composite: fewer than two witnesses are left.',
    of: (parts) => `Composite of ${parts.length} witnesses (${parts.join(', ')}): no single object shows this.`,
    contributors: (parts) =>
      `Who gives most: ${parts.map(({ name, grey }) => `${name} grey ${grey}`).join(', ')}; white none`,
    stateUntold: (names) =>
      `Whether ${names.join(' and ')} show${names.length === 1 ? 's' : ''} the same state of the matrix cannot be judged.`,
    leftOut: (each) => `Left out: ${each.join('; ')}.`,
    why: {
      notSupported: (finding) => `that it is of one matrix with the first is not supported: ${finding}`,
      otherState: 'another state of the matrix',
      stateNotJudged: 'its state was not judged',
      notInRegister: 'not in register with the others',
      copyOf: (other) => `a copy of ${other}: the two count once`,
      oneDescentWith: (other) =>
        `of one descent with ${other}, which of them is the copy is not known: the two count once`,
    },
    findings: {
      supported: 'supported',
      against: 'against',
      otherDesign: 'otherDesign',
      undecided: 'undecided',
      notJudged: 'not judged',
    },
  },
  fragments: {
    title: (names, reference) =>
      `${names.length} fragments in their places, each fitted to ${reference}: ${names.join(', ')}.`,
    undecided: (names) => `Whether ${names.join(' and ')} came from it is not decided.`,
    share: (percent) => `Together they hold ${percent} % of the face they were fitted to; its outline is dashed.`,
    meet: ({ one, two, length, gap, gap90, step, within }) =>
      `The edges of ${one} and ${two} face one another along ${length} mm: the scans end ${gap} mm apart in the middle, nine tenths less than ${gap90} mm; ${
        step === null
          ? `both stand at one height within ${within} mm`
          : `${step.higher === 'one' ? one : two} stands ${step.by} mm higher`
      }.`,
    noEdges: 'No two of them meet.',
    overlap: (one, two, mm2, depth) =>
      `${one} and ${two} both carry ${mm2} mm², up to ${depth} mm in from their edges: fragments of one impression cannot overlap, so they are of two.`,
    nothingFilled: 'Nothing was filled in between.',
    name: 'fragments in their places',
  },
};

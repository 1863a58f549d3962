import type { Difference, Section } from '../../src/core/compare/index.ts';
import type { MarkReading } from '../../src/core/condition/index.ts';
import type { Face, Sense } from '../../src/core/face/index.ts';
import type { Fit } from '../../src/core/fit/index.ts';
import {
  compose,
  emptyGrid,
  type HeightGrid,
  identity,
  invert,
  median,
  medianAbsoluteDeviation,
  quantile,
  rootMeanSquare,
  rotationAbout,
  type Similarity,
  seededRandom,
  turnGridOver,
  turnOver,
  xOf,
  yOf,
} from '../../src/core/geometry/index.ts';
import type { Judgement } from '../../src/core/judge/index.ts';
import type { Comparison, PreparedScan } from '../../src/core/pipeline.ts';
import type { Paradata } from '../../src/core/report/index.ts';
import type { Kind } from '../../src/core/scan/index.ts';

/**
 * A made-up pair for the tests of the report: a pointed-oval matrix, cut across since, and a wax impression that is
 * 1.5 % smaller, rubbed, chipped and turned by 20° in its file. Heights come from formulas, so the truth is known.
 */
export const shrinkage = 0.985;
export const turnDeg = 20;
const halfHeight = 28;
const halfWidth = 18;
/** Radius and centre distance of the two arcs that make the pointed oval. */
const arcRadius = (halfHeight ** 2 + halfWidth ** 2) / (2 * halfWidth);
const arcCentre = arcRadius - halfWidth;

/** Distance inward from the rim, mm; negative outside. */
export const inside = (x: number, y: number): number => arcRadius - Math.hypot(Math.abs(x) + arcCentre, y);

const step = (value: number, from: number, width: number): number => 1 / (1 + Math.exp(-(value - from) / (width / 4)));
const ridge = (value: number, at: number, width: number): number => Math.exp(-(((value - at) / width) ** 2));

const capsule = (x: number, y: number, ax: number, ay: number, bx: number, by: number): number => {
  const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
};
/** A standing figure of rounded limbs: ends and radius, mm. */
const limbs = [
  [0, 9, 0, 9.6, 2.4],
  [0, 5, 0, -4, 3.4],
  [-1.6, -4, -2.6, -13, 2.2],
  [1.6, -4, 2.6, -13, 2.2],
  [-2.6, 4, -6.2, -1.5, 1.3],
  [2.6, 4, 6.4, 1.8, 1.3],
  [6.6, 11, 6.6, -13, 0.5],
] as const;

const letters = (() => {
  const random = seededRandom(7).next;
  return Array.from({ length: 64 }, () => [random() < 0.82, random(), random()] as const);
})();

function legend(x: number, y: number, depth: number): number {
  if (depth < 1.6 || depth > 4.6) return 0;
  const along = (Math.atan2(x, y) / (2 * Math.PI) + 0.5) * 64;
  const [present, lean, bar] = letters[Math.floor(along) % 64];
  if (!present) return 0;
  const u = along - Math.floor(along) - 0.5 + (lean - 0.5) * 0.25 * (depth - 3.1);
  const stem = ridge(u, -0.16, 0.12) + ridge(u, 0.2, 0.12) * (bar > 0.4 ? 1 : 0);
  const cross = ridge(depth, bar > 0.5 ? 3.1 : 4.2, 0.28) * (Math.abs(u) < 0.25 ? 1 : 0);
  return 0.42 * Math.min(1, stem + cross);
}

/** Height of the impression as it left the matrix, mm. */
export function design(x: number, y: number): number {
  const depth = inside(x, y);
  const rims = 0.35 * ridge(depth, 1, 0.3) + 0.3 * ridge(depth, 5.3, 0.25);
  let figure = 0;
  for (const [ax, ay, bx, by, r] of limbs) {
    const d = capsule(x, y, ax, ay, bx, by);
    if (d < r) figure = Math.max(figure, 0.95 * Math.sqrt(1 - (d / r) ** 2) * Math.min(1, r / 1.6));
  }
  return rims + legend(x, y, depth) + figure;
}

/** The cut across the matrix, as a ridge on what it would print today. */
export const cut = (x: number, y: number): number =>
  0.45 * ridge((x * 0.8 + y * 0.6 - 4) / 1, 0, 0.35) * step(14 - Math.abs(x * 0.6 - y * 0.8), 0, 1);

/** What the wax has lost since, mm, at the design's own size. */
const worn = (x: number, y: number, height: number): number =>
  Math.max(0, height - 0.62) * 0.7 * step(-Math.hypot(x, y - 4), -9, 6) +
  0.5 * step(-Math.hypot(x + 13, y + 11), -4, 0.8);

export const lost = (x: number, y: number): boolean => y < -20.5 + 0.8 * Math.sin(x * 1.3) + 0.15 * x;

function gridOf(pitch: number, height: (x: number, y: number) => number): HeightGrid {
  const grid = emptyGrid(-halfWidth - 1, halfWidth + 1, -halfHeight - 1, halfHeight + 1, pitch);
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      const value = height(xOf(grid, col), yOf(grid, row));
      if (Number.isNaN(value)) continue;
      grid.mask[i] = 1;
      grid.z[i] = value;
    }
  return grid;
}

const rim = (scale: number): Float64Array => {
  const angles = Array.from({ length: 180 }, (_, i) => (i / 180) * 2 * Math.PI);
  return Float64Array.from(
    angles.flatMap((a) => {
      let r = halfHeight;
      for (let k = 0; k < 60; k++) r -= inside(r * Math.cos(a), r * Math.sin(a)) < 0 ? 0.2 : -0.02;
      return [r * scale * Math.cos(a), r * scale * Math.sin(a)];
    }),
  );
};

function faceOf(sense: Sense, detail: HeightGrid, polygon: Float64Array, faceFromScan: Similarity): Face {
  return {
    sense,
    senseConfidence: 0.97,
    senseFrom: 'stated',
    faceFromScan,
    upFrom: 'longAxis',
    outline: { shape: 'pointedOval', widthMm: 2 * halfWidth, heightMm: 2 * halfHeight, polygon, confidence: 0.6 },
    relief: detail,
    detail,
    image: detail,
    noiseMm: 0.012,
    noiseLengthMm: 0.2,
    filled: 0.96,
    holes: 0,
    candidates: [{ outward: [0, 0, 1], areaMm2: 1400, detailMm: 0.2, score: 1 }],
    candidate: 0,
  };
}

function prepared(name: string, kind: Kind, face: Face, offset: [number, number, number]): PreparedScan {
  return {
    scan: {
      name,
      format: 'ply',
      sha256: name.length.toString(16).padStart(2, '0').repeat(32),
      unit: 'mm',
      unitFrom: 'assumed',
      mesh: { positions: new Float32Array(9), triangles: Uint32Array.of(0, 1, 2), offset },
      repairs: {
        notANumber: 0,
        cornerNotANumber: 0,
        degenerate: 12,
        duplicate: 0,
        unreferenced: 3,
        welded: 0,
        flipped: 0,
        strayPieces: 2,
        strayTriangles: 41,
      },
      vertices: 101_204,
      triangles: 202_380,
    },
    face,
    kind,
    kindFrom: 'stated',
    material: kind === 'matrix' ? 'brass' : 'wax',
    scaleUncertaintyPercent: 0.3,
    scaleUncertaintyFrom: 'assumed',
  };
}

const turn = (deg: number): Similarity => ({
  ...identity,
  rotation: rotationAbout([0, 0, 1], (deg * Math.PI) / 180),
});

const referenceFaceFromScan: Similarity = {
  scale: 1,
  rotation: rotationAbout([1, 0, 0], 0.4),
  translation: [0.2, -0.1, 0.3],
};
const subjectFaceFromScan: Similarity = {
  scale: 1,
  rotation: rotationAbout([0, 1, 0], 2.1),
  translation: [-0.4, 0.3, 0.1],
};

/** Reference face ← subject face: turned by 20°, grown by what the wax shrank, laid face to face. */
export const faceFromFace: Similarity = compose(turnOver, { ...turn(turnDeg), scale: 1 / shrinkage });

/** The relief of both as the impression shows it, upright, at the matrix's own size. */
const asImpression = (pitch: number): HeightGrid =>
  gridOf(pitch, (x, y) => (inside(x, y) < 0 ? Number.NaN : design(x, y) + cut(x, y)));

const surviving = (x: number, y: number): number => {
  if (inside(x, y) < 0 || lost(x, y)) return Number.NaN;
  const height = design(x, y);
  return height - worn(x, y, height);
};

export interface FixtureOptions {
  readonly pitch?: number;
  readonly found?: boolean;
  readonly bothPositive?: boolean;
}

export function comparisonFixture(options: FixtureOptions = {}): Comparison {
  const { pitch = 0.12, found = true, bothPositive = false } = options;
  const shown = asImpression(pitch);
  const reference = bothPositive
    ? prepared(
        'simulated-first-impression.ply',
        'impression',
        faceOf('relief', shown, rim(1), referenceFaceFromScan),
        [512, -88, 4.5],
      )
    : prepared(
        'simulated-priory-matrix.ply',
        'matrix',
        faceOf('intaglio', turnGridOver(shown), rim(1), referenceFaceFromScan),
        [512, -88, 4.5],
      );
  const c = Math.cos((turnDeg * Math.PI) / 180) / shrinkage;
  const s = Math.sin((turnDeg * Math.PI) / 180) / shrinkage;
  const random = seededRandom(3).next;
  const own = gridOf(pitch, (x, y) => {
    const height = surviving(c * x - s * y, s * x + c * y);
    return height * shrinkage + 0.008 * (random() - 0.5);
  });
  const subject = prepared(
    'simulated-priory-impression-worn.ply',
    'impression',
    faceOf('relief', own, rim(shrinkage), subjectFaceFromScan),
    [-20.25, 1033, 77],
  );
  const difference = found ? differenceOf(shown) : null;
  return {
    reference,
    subject,
    fit: fitOf(found, bothPositive),
    difference,
    judgement: judgementOf(found, bothPositive ? -1 : 1),
  };
}

function fitOf(found: boolean, bothPositive: boolean): Fit {
  const motion = compose(
    invert(referenceFaceFromScan),
    compose(bothPositive ? { ...turn(turnDeg), scale: 1 / shrinkage } : faceFromFace, subjectFaceFromScan),
  );
  return {
    found,
    chance: { location: 5, spread: 0.5, log10P: found ? -20 : -0.3, mirror: 5 },
    doubts: found ? [] : [{ code: 'noBetterThanUnrelated' }],
    chosen: 'oneScale',
    turnedOver: !bothPositive,
    mirrored: false,
    overlap: found ? 0.86 : 0.4,
    score: found ? 0.83 : 0.09,
    rivalScore: 0.08,
    significance: found ? 14.2 : 1.1,
    models: [
      {
        model: 'rigid',
        referenceFromSubject: { ...motion, scale: 1 },
        scale: 1,
        scaleSd: 0,
        rmsMm: 0.148,
        heldOutRmsMm: 0.151,
      },
      {
        model: 'oneScale',
        referenceFromSubject: motion,
        scale: 1 / shrinkage,
        scaleSd: 0.0004,
        rmsMm: 0.036,
        heldOutRmsMm: 0.038,
      },
      {
        model: 'smoothWarp',
        referenceFromSubject: motion,
        scale: 1 / shrinkage,
        scaleSd: 0.0005,
        rmsMm: 0.035,
        heldOutRmsMm: 0.04,
        warpRmsMm: 0.021,
      },
    ],
    rotationSdDeg: 0.011,
    translationSdMm: 0.004,
    covariance: new Float64Array(49),
    degenerate: [],
    rivalTurns: found ? [{ turnDeg: 181.2, score: 0.08 }] : [],
  };
}

function differenceOf(shown: HeightGrid): Difference {
  const random = seededRandom(11).next;
  const z = new Float32Array(shown.z.length);
  const mask = new Uint8Array(shown.z.length);
  const values: number[] = [];
  for (let i = 0; i < z.length; i++) {
    if (!shown.mask[i]) continue;
    const x = xOf(shown, i % shown.width);
    const y = yOf(shown, Math.floor(i / shown.width));
    const height = surviving(x, y);
    if (Number.isNaN(height)) continue;
    mask[i] = 1;
    z[i] = height - shown.z[i] + 0.05 * (random() - 0.5);
    values.push(z[i]);
  }
  const whole = {
    medianMm: median(values),
    madMm: medianAbsoluteDeviation(values),
    rmsMm: rootMeanSquare(values),
    p95Mm: quantile(values.map(Math.abs), 0.95),
    coveredFraction: 0.88,
  };
  return {
    perVertexMm: new Float32Array(3),
    map: { ...shown, z, mask },
    levelOfDetection: { ...shown, z: new Float32Array(z.length).fill(0.041), mask },
    levelOfDetectionMm: 0.041,
    whole,
    zones: [
      { ...whole, zone: 'legend', medianMm: -0.006 },
      { ...whole, zone: 'field', medianMm: 0.004, rmsMm: 0.03 },
      { ...whole, zone: 'motif', medianMm: -0.09 },
    ],
    size: {
      ratio: shrinkage,
      sd: 0.0043,
      x: 0.9846,
      y: 0.9852,
      depth: 0.981,
      favours: 'neither',
      copyIs: 'either',
      reading: [{ code: 'ratio', ratio: shrinkage, sd: 0.0043, same: false }],
    },
  };
}

const readings = (code: MarkReading['code'], shape: MarkReading['shape']): MarkReading[] => [
  { code, shape, referenceSense: 'intaglio', subjectSense: 'relief', otherIsSound: true, first: true },
];

const emptyOutline = new Float64Array(0);

/** `side` is −1 where the reference's face frame is the impression's own. */
function judgementOf(found: boolean, side: number): Judgement {
  const cells = [];
  for (let y = -18; y <= 18; y += 6)
    for (let x = -12; x <= 12; x += 6) {
      if (inside(x, y) < 2 || lost(x, y)) continue;
      const worse = Math.hypot(x, y - 4) < 5;
      cells.push({
        x: -x * side,
        y,
        dx: worse ? 0.4 : 0.03,
        dy: worse ? -0.3 : -0.02,
        turnDeg: 0.2,
        offsetMm: worse ? 0.5 : 0.036,
        correlation: worse ? 0.41 : 0.86,
        congruent: !worse,
      });
    }
  const congruent = cells.filter((cell) => cell.congruent).length;
  const cutOutline = Float64Array.from(
    [0, 1, 2, 3].flatMap((k) => {
      const along = k === 0 || k === 3 ? 13.5 : -13.5;
      const across = k < 2 ? 0.8 : -0.8;
      const [x, y] = [(4 + across) * 0.8 + along * 0.6, (4 + across) * 0.6 - along * 0.8];
      return [-x * side, y];
    }),
  );
  return {
    correlation: found ? 0.83 : Number.NaN,
    topographyDifference: found ? 0.31 : Number.NaN,
    cells: found ? { compared: cells.length, congruent, cells } : { compared: 0, congruent: 0, cells: [] },
    score: found ? 2.4 : 0,
    interval: found ? [1.2, 3.1] : null,
    question: 'madeFrom',
    rolesConfidence: 0.97,
    images: [null, null],
    statedAgainstFit: false,
    gates: [],
    constellation: null,
    secondStrike: null,
    evidence: found
      ? [
          {
            code: 'congruentCells',
            favours: 'sameMatrix',
            over: 'otherMatrix',
            value: congruent,
            compared: cells.length,
            sideMm: 6,
          },
          { code: 'scatter', favours: 'sameMatrix', over: 'otherMatrix', value: 0.021 },
          { code: 'sharpness', favours: 'neither', over: 'neither', value: 0.83 },
        ]
      : [],
    hypotheses: [
      { id: 'sameMatrix', over: 'otherMatrix', verdict: { code: found ? 'supported' : 'notDecided' }, log10Lr: null },
      { id: 'copy', over: 'sameMatrix', verdict: { code: 'notWeighed' }, log10Lr: null },
      {
        id: 'otherMatrix',
        over: 'sameMatrix',
        verdict: { code: found ? 'notSupported' : 'notDecided' },
        log10Lr: null,
      },
      {
        id: 'unrelated',
        over: 'sameMatrix',
        verdict: { code: found ? 'designsAgree' : 'designsNotSeenToAgree' },
        log10Lr: null,
      },
    ],
    state: {
      reading: found ? 'subjectEarlier' : 'cannotJudge',
      marks: found ? ['M1'] : [],
      reason: { code: found ? 'referenceHas' : 'noFit' },
    },
    finding: found ? 'supported' : 'undecided',
    strength: found ? 'moderate' : 'none',
    claim: 'madeFrom',
    counted: found
      ? {
          code: 'places',
          seen: 31,
          halfWithinMm: 0.021,
          outsideEllipse: 1,
          unseen: 0,
          compared: cells.length,
          congruent,
        }
      : { code: 'noFit' },
    descent: null,
    descentBy: { size: false, step: null, losses: null, edge: null },
    caution: null,
    limits: found
      ? [{ code: 'calibration', known: null }, { code: 'copyPasses' }, { code: 'notShown' }]
      : [{ code: 'noFit' }],
    wear: {
      zones: found
        ? [
            { zone: 'motif', state: 'lower', heightKept: 0.81, heightKeptSd: 0.03, fraction: 0.42 },
            { zone: 'legend', state: 'sharp', heightKept: 0.98, heightKeptSd: 0.04, fraction: 0.8 },
            { zone: 'border', state: 'lost', heightKept: Number.NaN, heightKeptSd: Number.NaN, fraction: 0.12 },
          ]
        : [],
      byWavelength: found
        ? [0.4, 0.8, 1.6, 3.2, 6.4].map((fromMm, i) => ({
            fromMm,
            toMm: 2 * fromMm,
            gain: [0.62, 0.8, 0.93, 0.96, 0.98][i],
            coherence: [0.45, 0.78, 0.92, 0.95, 0.9][i],
          }))
        : [],
      zoneOutlines: [],
      areas: [],
      gone: found ? 0.07 : Number.NaN,
    },
    damage: found
      ? [
          {
            id: 'M1',
            carriedBy: 'reference',
            at: { deg: 53, hour: 1.77, radiusMm: 4 },
            areaMm2: 41.2,
            depthMm: 0.45,
            volumeMm3: 12.1,
            shape: 'cut',
            onSubject: 'absent',
            readings: readings('referenceLaterOrNotTaken', 'cut'),
            outline: cutOutline,
          },
          {
            id: 'M2',
            carriedBy: 'subject',
            at: { deg: 229.8, hour: 7.66, radiusMm: 17 },
            areaMm2: 9.7,
            depthMm: 0.5,
            volumeMm3: 4.1,
            shape: 'chip',
            onSubject: 'sunk',
            readings: readings('subjectDamaged', 'chip'),
            outline: Float64Array.from(
              [0, 60, 120, 180, 240, 300].flatMap((a) => [
                side * 13 + 3 * Math.cos((a * Math.PI) / 180),
                -11 + 3 * Math.sin((a * Math.PI) / 180),
              ]),
            ),
          },
          {
            id: 'M3',
            carriedBy: 'subject',
            at: { deg: 10, hour: 0.33, radiusMm: 12 },
            areaMm2: Number.NaN,
            depthMm: 0.2,
            volumeMm3: Number.NaN,
            shape: 'pit',
            onSubject: 'sunk',
            readings: [...readings('subjectDamaged', 'pit'), ...readings('stoodOnMatrixOfSubject', 'pit')],
            outline: emptyOutline,
          },
        ]
      : [],
    calibration: 'simulated population 1; no real pairs',
  };
}

/** A line across the figure, slanted so that it meets the cut, in the reference's face frame: a matrix, heights downward. */
export function sectionFixture(): Section {
  const count = 400;
  const at = Float64Array.from({ length: count }, (_, i) => (i / (count - 1)) * 30);
  const x = (s: number): number => s - 15;
  const y = 2;
  return {
    line: [15, y, -15, y],
    at,
    reference: at.map((s) => -design(x(s), y) - cut(x(s), y)),
    subject: at.map((s) => (s > 24 && s < 25 ? Number.NaN : worn(x(s), y, design(x(s), y)) - design(x(s), y))),
    groove: { depthMm: 0.45, widthMm: 0.71, flankDeg: [44, 41], on: 'reference', sunk: true, atMm: 18.4 },
  };
}

export const paradataFixture: Paradata = {
  version: '0.1.0',
  startedAt: '2025-03-04T09:30:00Z',
  seconds: { read: 0.21, face: 0.34, fit: 0.71, compare: 0.3, judge: 0.12 },
  stated: { kind: 'reference=matrix,subject=impression', seed: 1, cellMm: 6 },
  commandLine: 'ectype compare simulated-priory-matrix.ply simulated-priory-impression-worn.ply --out report',
};

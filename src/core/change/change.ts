import { type Fit, judgeFitDefaults, modelOf } from '../fit/index.ts';
import {
  apply,
  compose,
  type HeightGrid,
  invert,
  median,
  rootMeanSquare,
  rotate,
  type Similarity,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';
import { type Ground, groundOf, laidOn, pitchOf, toFace } from './commonGrid.ts';
import { limitsOf } from './limits.ts';
import { absentParts, covarianceOf, type Measured, measureRegion } from './measure.ts';
import { allTerms, formTerms } from './nuisance.ts';
import {
  cellsBeside,
  changedRegions,
  type NoiseScales,
  noiseScales,
  type Region,
  regionDefaults,
  without,
} from './regions.ts';
import { type Registered, register } from './register.ts';
import { type RepeatNoise, repeatNoise, tailsOf, withoutLone } from './repeats.ts';
import { sensitivityOf } from './sensitivity.ts';
import { sizeOf } from './size.ts';
import type { Change, ChangeFound, ChangeInput, ChangeResult, ChangeSide, Repeat } from './types.ts';

export const changeDefaults = {
  /** Times the registration and the search for changes are done over, each on what the last one found unchanged. */
  passes: 4,
  /** A change is at least so many standard deviations of its volume. */
  volumeSds: 3.5,
  /** Least share of the earlier's face that both dates must show. */
  leastInCommon: 0.2,
  /** A reflection of a symmetrical design reaches as much as its own place; from this correlation on the two lie right all the same. */
  leastCorrelation: 0.8,
};

/**
 * Whether two scans lie on one another, once they are taken to be of one object: it is no mirror image of itself, so that reflections, which
 * rival a fit where matrices are in question, say nothing.
 */
export const liesOn = ({ found, chance, score }: Pick<Fit, 'found' | 'chance' | 'score'>): boolean =>
  found || (chance.log10P <= judgeFitDefaults.mostLog10Chance && score >= changeDefaults.leastCorrelation);

/**
 * What happened to one object between two scans. `fit`: of later to earlier, for a first pose. No question of matrices is
 * asked: the two are taken to be one object.
 */
export function measureChange(
  earlier: ChangeInput,
  later: ChangeInput,
  fit: Fit,
  repeats: { readonly earlier?: Repeat; readonly later?: Repeat } = {},
): ChangeResult {
  if (!liesOn(fit)) return { judged: false, why: 'noFit' };
  if (fit.mirrored) return { judged: false, why: 'mirrored' };
  if (fit.turnedOver) return { judged: false, why: 'otherSense' };
  const pitch = pitchOf(earlier.face, later.face);
  const known = [
    repeats.earlier && repeatNoise(earlier, repeats.earlier.scan, startOf(earlier, repeats.earlier.fit), pitch),
    repeats.later && repeatNoise(later, repeats.later.scan, startOf(later, repeats.later.fit), pitch),
  ].filter((each) => each !== undefined);
  const found = search(earlier, later, startOf(earlier, fit), pitch, known);
  return found ? describe(found, earlier, later, known.length) : { judged: false, why: 'littleInCommon' };
}

const startOf = ({ face }: ChangeSide, fit: Fit): Similarity =>
  toFace(face, modelOf(fit, 'rigid').referenceFromSubject);

interface Searched extends Measured {
  readonly regions: readonly Region[];
  readonly changed: Uint8Array;
  readonly later: HeightGrid;
}

/** Registration and search in turn, until what was found stays as it is. */
function search(
  earlier: ChangeInput,
  later: ChangeInput,
  start: Similarity,
  pitch: number,
  known: readonly RepeatNoise[],
): Searched | null {
  const ground = groundOf(earlier, pitch);
  let changed: Uint8Array | null = null;
  let pose = start;
  let state: { registered: Registered; scales: NoiseScales; regions: Region[] } | null = null;
  for (let pass = 0; pass < changeDefaults.passes; pass++) {
    const registered = withoutLone(register(ground, later, pose, changed), ground, known);
    pose = registered.faceFromLater;
    const inCommon = count(registered.difference.mask) / Math.max(1, count(ground.sound));
    if (!(inCommon > changeDefaults.leastInCommon)) return null;
    const { inflation, tails } = tailsOf(known);
    const scales = noiseScales(registered.difference, registered.sigma, changed, inflation, tails);
    const regions = changedRegions(registered.difference, scales);
    const before: number = changed ? count(changed) : 0;
    changed = cellsBeside(registered.difference, regions);
    state = { registered, scales, regions };
    if (Math.abs(count(changed) - before) <= 0.002 * count(ground.sound)) break;
  }
  if (!state) return null;
  const measured = {
    ground: state.registered.ground,
    face: earlier.face,
    ...state,
    covariance: covarianceOf(state.registered, state.scales),
    later: laidOn(ground, later.mesh, pose),
  };
  const regions = state.regions.filter((region) => isBeyondItsOwn(measured, region));
  return { ...measured, regions, changed: cellsBeside(state.registered.difference, regions) };
}

/**
 * Whether a change is larger than its own ±, which holds what the registration leaves open at its place: between holes and
 * edges, where nothing else holds the registration, a bending of the fit looks like a change.
 */
function isBeyondItsOwn(measured: Measured, region: Region): boolean {
  const { volumeMm3, volumeSdMm3 } = measureRegion(measured, region, '');
  return Math.abs(volumeMm3) >= changeDefaults.volumeSds * volumeSdMm3;
}

const count = (mask: Uint8Array): number => mask.reduce((sum, m) => sum + m, 0);

function describe(searched: Searched, earlier: ChangeInput, later: ChangeInput, repeats: number): ChangeFound {
  const { ground, registered, regions, covariance } = searched;
  const R = ground.radiusMm;
  const sd = (k: number): number => (covariance ? Math.sqrt(covariance[k * (allTerms + 1)]) : Number.NaN);
  const pose = compose(invert(earlier.face.faceFromScan), registered.faceFromLater);
  const compared = count(registered.difference.mask);
  const sound = count(without(registered.difference, searched.changed).mask);
  const changes = namedChanges(searched, regions);
  const blur = registered.nuisance.blunt;
  const facts = {
    size: sizeOf(registered.faceFromLater, sd(6) / R, earlier, later),
    rotationSdDeg: (Math.hypot(sd(0), sd(1), sd(2)) / R) * (180 / Math.PI),
    translationSdMm: Math.hypot(sd(3), sd(4), sd(5)),
    unchangedShare: compared > 0 ? sound / compared : 0,
    comparedShare: compared / Math.max(1, count(ground.earlier.mask)),
    noise: {
      from: (['pair', 'oneRepeat', 'repeats'] as const)[repeats],
      cellMm: median(registered.sigma.filter((s) => s > 0)) / Math.SQRT2,
      pitchMm: ground.earlier.pitch,
    },
    bendingRmsMm: bendingOf(ground, registered),
    // The later lacks −blunt times the curvature: a blur of variance v takes v/2 of it off.
    blunt: { which: blur < 0 ? ('later' as const) : ('earlier' as const), sigmaMm: Math.sqrt(2 * Math.abs(blur)) },
    changes,
  };
  return {
    judged: true,
    earlierFromLater: rigidOf(pose, later),
    ...facts,
    sensitivity: sensitivityOf(searched, changeDefaults.volumeSds),
    total: totalOf(changes),
    limits: limitsOf(facts, earlier, later),
    ...mapsOf(searched),
  };
}

/** The same pose without its scale, about the middle of the later's face so that it stays where it lies. */
function rigidOf(pose: Similarity, { face }: ChangeSide): Similarity {
  const middle = apply(invert(face.faceFromScan), [0, 0, 0]);
  const [x, y, z] = rotate(pose.rotation, middle);
  const more = pose.scale - 1;
  const [tx, ty, tz] = pose.translation;
  return { scale: 1, rotation: pose.rotation, translation: [tx + more * x, ty + more * y, tz + more * z] };
}

/** Greatest first: by times the least that counts; those without surface last. */
function namedChanges(searched: Searched, regions: readonly Region[]): Change[] {
  const measured = regions
    .map((region) => measureRegion(searched, region, ''))
    .sort((a, b) => b.timesLeast - a.timesLeast);
  return [...measured, ...absentParts(searched, searched.later)].map((change, k) => ({ ...change, id: `c${k + 1}` }));
}

function totalOf(changes: readonly Change[]): ChangeFound['total'] {
  const of = (direction: Change['direction']) => changes.filter((change) => change.direction === direction);
  const sum = (list: readonly Change[]): number => list.reduce((total, { volumeMm3 }) => total + volumeMm3, 0);
  const sd = (list: readonly Change[]): number => Math.hypot(...list.map(({ volumeSdMm3 }) => volumeSdMm3));
  return {
    loweredMm3: sum(of('lowered')),
    loweredSdMm3: sd(of('lowered')),
    raisedMm3: sum(of('raised')),
    raisedSdMm3: sd(of('raised')),
    areaMm2: [...of('lowered'), ...of('raised')].reduce((total, { areaMm2 }) => total + areaMm2, 0),
  };
}

/** Root mean square of the bending over the face, mm, its plane and middle left out. */
function bendingOf({ earlier, sound, radiusMm: R }: Ground, { nuisance: { form } }: Registered): number {
  const values: number[] = [];
  for (let i = 0; i < sound.length; i += 7) {
    if (!sound[i]) continue;
    const u = xOf(earlier, i % earlier.width) / R;
    const v = yOf(earlier, Math.floor(i / earlier.width)) / R;
    const terms = [u * u, u * v, v * v, u ** 3, u * u * v, u * v * v, v ** 3];
    let value = 0;
    for (let k = 0; k < formTerms; k++) value += form[k] * terms[k];
    values.push(value);
  }
  const middle = values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
  return rootMeanSquare(values.map((value) => value - middle));
}

/** What is drawn: the finest mean, the height that counts at that scale, and the cells of changes. */
function mapsOf({ ground, registered, scales, regions }: Searched) {
  const { mean, t } = scales.maps[0];
  const { difference } = registered;
  const least = mean.map((m, i) =>
    difference.mask[i] && t[i] !== 0 ? (regionDefaults.extentSigmas * scales.inflation[0] * m) / t[i] : 0,
  );
  const changed = new Uint8Array(mean.length);
  for (const { cells } of regions) for (const i of cells) changed[i] = 1;
  return {
    map: withHeights(ground.earlier, mean, difference.mask),
    least: withHeights(ground.earlier, least, difference.mask),
    changed,
  };
}

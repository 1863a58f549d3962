import { compose, dot, type Mesh, removeForm, rotationAbout, type Similarity, type Vec3 } from '../geometry/index.ts';
import { ScanError } from '../scan/index.ts';
import { bodyOf } from './body.ts';
import { carriesRelief, type FlatPart, flatPartToward } from './candidate.ts';
import { facingDirections } from './directions.ts';
import { fillOf } from './fill.ts';
import { fineImage } from './fine.ts';
import { imageOf } from './image.ts';
import { noiseOf } from './noise.ts';
import { type FoundOutline, findOutline } from './outline.ts';
import { coarseProxy } from './proxy.ts';
import { reliefMap } from './relief.ts';
import { senseOf, withinWall } from './sense.ts';
import { longSide } from './size.ts';
import type { Face, FaceCandidate, FaceOptions } from './types.ts';

export const findDefaults = {
  /** Two parts that look within this angle of one another are one. */
  sameDirectionDeg: 25,
  /** A second face is listed when its score reaches this share of the best. */
  listedShare: 0.1,
  /** At most this many directions are looked at. */
  directions: 6,
};

/**
 * The flat parts of a surface that could carry the design, best first: for every direction that much of the surface
 * looks toward, the largest flat part seen from there, scored by area × band-passed relief.
 */
export function faceCandidates(mesh: Mesh, options = findDefaults): FlatPart[] {
  const cosSame = Math.cos((options.sameDirectionDeg * Math.PI) / 180);
  const parts: FlatPart[] = [];
  const proxy = coarseProxy(mesh);
  for (const { direction } of facingDirections(proxy).slice(0, options.directions)) {
    const part = flatPartToward(proxy, direction);
    if (!part || !carriesRelief(part)) continue;
    if (parts.every((other) => dot(outwardOf(other), outwardOf(part)) < cosSame)) parts.push(part);
  }
  parts.sort((a, b) => b.score - a.score);
  return parts.filter((part) => part.score >= options.listedShare * parts[0].score);
}

/** Where the part looks, in scan coordinates. */
function outwardOf(part: FlatPart): Vec3 {
  const [, , , , , , x, y, z] = part.partFromScan.rotation;
  return [x, y, z];
}

/**
 * The engraved or impressed face of a scan: found, levelled, turned upright, as a relief map. Lengths are in the
 * mesh's unit. Throws ScanError `noFace` where nothing flat with relief on it is seen. `closed`: what `bodyOf` says, where
 * it was asked already.
 */
export function findFace(
  mesh: Mesh,
  options: FaceOptions = {},
  candidates = faceCandidates(mesh),
  closed?: boolean,
): Face {
  const { part, index, all } = choose(mesh, candidates, options);
  const outline = findOutline(part.grid, part.region);
  const faceFromPart = planarMotion(outline, options.upDeg ?? 0);
  const faceFromScan = compose(faceFromPart, part.partFromScan);
  const relief = reliefMap(mesh, part, faceFromScan, faceFromPart);
  const { detail } = removeForm(relief, 2);
  const read = options.sense ? { sense: options.sense, confidence: 1 } : senseOf(detail, part.longSide);
  const { image, walled } = imageOf(relief, part.longSide, options.sense !== 'intaglio');
  const fine = fineImage(mesh, faceFromScan, image, longSide({ outline }));
  const { sense, confidence } = walled ? withinWall(read) : read;
  return {
    sense,
    senseConfidence: confidence,
    senseFrom: options.sense ? 'stated' : (closed ?? bodyOf(mesh).closed) ? 'closedBody' : 'winding',
    faceFromScan,
    upFrom: options.upDeg !== undefined ? 'stated' : outline.turnDeg !== 0 ? 'longAxis' : 'scan',
    outline: stripped(outline),
    relief,
    detail,
    image,
    ...(fine && { fine }),
    ...noiseOf(detail),
    ...fillOf(relief, outline.polygon),
    candidates: all.map(describe),
    candidate: index,
  };
}

function choose(mesh: Mesh, candidates: readonly FlatPart[], options: FaceOptions) {
  if (options.toward) {
    const part = flatPartToward(coarseProxy(mesh), options.toward);
    if (!part) throw new ScanError('noFace', 'Nothing of the surface looks that way: give another --face-toward.');
    return { part, index: 0, all: [part] };
  }
  if (candidates.length === 0)
    throw new ScanError(
      'noFace',
      'No face was found: nothing flat with relief on it; check the file, or point to the face with --face-toward x,y,z.',
    );
  const index = Math.min(options.candidate ?? 0, candidates.length - 1);
  return { part: candidates[index], index, all: candidates };
}

/** Centre of the outline to the origin, then the turn that brings it upright; `upDeg` clockwise on top. */
function planarMotion(outline: FoundOutline, upDeg: number): Similarity {
  const rotation = rotationAbout([0, 0, 1], (-(outline.turnDeg + upDeg) * Math.PI) / 180);
  const [x, y] = outline.centre;
  const shift: Similarity = { scale: 1, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [-x, -y, 0] };
  return compose({ scale: 1, rotation, translation: [0, 0, 0] }, shift);
}

function stripped({ shape, widthMm, heightMm, polygon, confidence }: FoundOutline) {
  return { shape, widthMm, heightMm, polygon, confidence };
}

const describe = (part: FlatPart): FaceCandidate => ({
  outward: outwardOf(part),
  areaMm2: part.area,
  detailMm: part.detail,
  score: part.score,
});

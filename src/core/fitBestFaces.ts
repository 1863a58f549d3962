import { type Face, findFace } from './face/index.ts';
import { type Fit, type FitSide, facesTriedDefaults, fitSearched, type Searched, searchFaces } from './fit/index.ts';
import { buildSurfaceIndex, type Mesh, partOf, vertexNormals, type Watch } from './geometry/index.ts';
import { cutByFit, type Given, layOut } from './leaveOut.ts';
import type { PreparedScan } from './prepare.ts';
import { settleSenses } from './settleSenses.ts';

/** The faces that were fitted, and the fit. */
export interface Fitted {
  readonly reference: FitSide & PreparedFace;
  readonly subject: FitSide & PreparedFace;
  readonly fit: Fit;
  /** The same two without what was left out: what is compared and judged. */
  readonly cut: { readonly reference: FitSide & PreparedFace; readonly subject: FitSide & PreparedFace };
}

/** What the later steps need of one side. */
interface PreparedFace {
  readonly mesh: Mesh;
  readonly face: Face;
  readonly normals: Float32Array;
  readonly material?: string;
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
}

/**
 * The fit of the two faces; where an object has a second engraved face (a counterseal, a double matrix) and the first
 * pairing does not agree beyond question, every pairing is searched and the most significant one is fitted. `known`: the fit of these
 * two as it was found before with nothing given by hand; `searched`: what a search of these two faces found.
 */
export function fitBestFaces(
  reference: PreparedScan,
  subject: PreparedScan,
  given: Given = {},
  watch: Watch = {},
  known?: Fit,
  searched?: Searched,
): Fitted {
  const a = sideOf(reference, true);
  const b = sideOf(subject, false);
  if (known) return fittedWhole(a, b, known);
  let best = { a, b, searched: searched ?? searchFaces(a.face, b.face, partOf(watch, 0, 0.3)) };
  // Marked places are places on the faces as prepared: no other face can be meant.
  if (best.searched.best.significance < facesTriedDefaults.beyondQuestion && given.start?.from !== 'pairs') {
    const others = [a, ...otherFaces(a)].flatMap((x) => [b, ...otherFaces(b)].map((y) => [x, y] as const)).slice(1);
    for (const [k, [x, y]] of others.entries()) {
      const part = partOf(watch, 0.3 + (0.3 * k) / others.length, 0.3 + (0.3 * (k + 1)) / others.length);
      const other = searchFaces(x.face, y.face, part);
      if (other.best.significance > best.searched.best.significance) best = { a: x, b: y, searched: other };
    }
  }
  return fitLaidOut(best.a, best.b, best.searched, given, partOf(watch, 0.6, 1));
}

/** The surfaces fitted from where search and person leave them, without the regions that were left out. */
function fitLaidOut(
  reference: FitSide & PreparedFace,
  subject: FitSide & PreparedFace,
  found: Searched,
  given: Given,
  watch: Watch,
): Fitted {
  const laid = layOut(reference.face, subject.face, found, given);
  const a = { ...reference, face: laid.reference };
  const fitted = fitSearched(a, { ...subject, face: laid.subject }, laid.searched, watch);
  if (laid.refused) {
    const fit = { ...fitted, found: false, doubts: [laid.refused] };
    return fittedWhole(reference, subject, fit);
  }
  const b = { ...subject, face: cutByFit(reference.face, subject.face, fitted, given) };
  return {
    ...settleSenses({ reference, subject }, fitted),
    fit: fitted,
    cut: settleSenses({ reference: a, subject: b }, fitted),
  };
}

/** Of two faces from which nothing was left out. */
function fittedWhole(reference: FitSide & PreparedFace, subject: FitSide & PreparedFace, fit: Fit): Fitted {
  const pair = settleSenses({ reference, subject }, fit);
  return { ...pair, fit, cut: pair };
}

/** What the later steps need of a prepared scan; the reference is indexed once for fit and comparison. */
function sideOf({ scan: { mesh }, surface, ...prepared }: PreparedScan, indexed: boolean): FitSide & PreparedFace {
  const normals = surface?.normals ?? vertexNormals(mesh);
  const index = surface?.index ?? (indexed ? buildSurfaceIndex(mesh, { normals }) : undefined);
  return { mesh, normals, ...(index && { index }), ...prepared };
}

/** The same side with each other face that scores nearly as well as the best. */
function otherFaces(side: FitSide & PreparedFace): (FitSide & PreparedFace)[] {
  const { candidates, candidate: used } = side.face;
  const likely = candidates
    .map((_, i) => i)
    .filter((i) => i !== used && candidates[i].score > facesTriedDefaults.secondFaceShare * candidates[0].score);
  return likely.map((candidate) => ({ ...side, face: { ...findFace(side.mesh, { candidate }), tried: true } }));
}

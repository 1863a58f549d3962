import { compareFaces, type Difference } from './compare/index.ts';
import { type Face, findFace } from './face/index.ts';
import { type Fit, type FitSide, type FitStart, fitSearched, searchFaces, startByHand } from './fit/index.ts';
import { buildSurfaceIndex, type Mesh, partOf, report, vertexNormals, type Watch } from './geometry/index.ts';
import { type Judgement, judge, type KnownScores } from './judge/index.ts';
import type { PreparedScan } from './prepare.ts';

export {
  type Find,
  type FoundScan,
  type PreparedScan,
  preparePair,
  prepareScan,
  readAndFind,
  type ScanInput,
} from './prepare.ts';

/** The whole of one comparison. */
export interface Comparison {
  readonly reference: PreparedScan;
  readonly subject: PreparedScan;
  readonly fit: Fit;
  /** Null where no fit was found. */
  readonly difference: Difference | null;
  readonly judgement: Judgement;
}

/** What a person gives beside the two scans. */
export interface Given {
  /** Where the fit begins instead of where the search ends; pairs of places belong to the faces as prepared. */
  readonly start?: FitStart;
}

/** A second engraved face is tried when its score reaches this share of the best face's … */
const secondFaceShare = 0.35;
/** … unless the first pairing already agrees so far above chance (unrelated faces stay below 10). */
const beyondQuestion = 25;

/**
 * The job from two prepared scans to the finding: scan → face → **fit → compare → judge** (→ report).
 * An uncertain answer is a result; only a cancelled job throws. `known`: scores of the user's own known pairs; `given`:
 * what a person puts by hand.
 */
export function comparePrepared(
  reference: PreparedScan,
  subject: PreparedScan,
  watch: Watch = {},
  known?: KnownScores,
  given: Given = {},
): Comparison {
  watch.step?.('fit');
  const chosen = fitBestFaces(reference, subject, given, partOf(watch, 0, 0.6));
  watch.step?.('compare');
  report(watch, 0.6, 'Measuring depth differences');
  const difference = chosen.fit.found
    ? compareFaces(chosen.reference, chosen.subject, chosen.fit, partOf(watch, 0.6, 0.85))
    : null;
  watch.step?.('judge');
  report(watch, 0.85, 'Weighing the evidence');
  const judgement = judge(chosen.reference, chosen.subject, chosen.fit, difference, partOf(watch, 0.85, 1), known);
  return {
    reference: { ...reference, face: chosen.reference.face },
    subject: { ...subject, face: chosen.subject.face },
    fit: chosen.fit,
    difference,
    judgement,
  };
}

interface Fitted {
  readonly reference: FitSide & PreparedFace;
  readonly subject: FitSide & PreparedFace;
  readonly fit: Fit;
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
 * pairing does not agree beyond question, every pairing is searched and the most significant one is fitted.
 */
function fitBestFaces(reference: PreparedScan, subject: PreparedScan, { start }: Given, watch: Watch): Fitted {
  const a = sideOf(reference, true);
  const b = sideOf(subject, false);
  let best = { a, b, searched: searchFaces(a.face, b.face, partOf(watch, 0, 0.3)) };
  // Marked places are places on the faces as prepared: no other face can be meant.
  if (best.searched.best.significance < beyondQuestion && start?.from !== 'pairs') {
    const others = [a, ...otherFaces(a)].flatMap((x) => [b, ...otherFaces(b)].map((y) => [x, y] as const)).slice(1);
    for (const [k, [x, y]] of others.entries()) {
      const part = partOf(watch, 0.3 + (0.3 * k) / others.length, 0.3 + (0.3 * (k + 1)) / others.length);
      const searched = searchFaces(x.face, y.face, part);
      if (searched.best.significance > best.searched.best.significance) best = { a: x, b: y, searched };
    }
  }
  const { a: x, b: y } = best;
  const searched = start ? startByHand(x.face, y.face, best.searched, start) : best.searched;
  return { reference: x, subject: y, fit: fitSearched(x, y, searched, partOf(watch, 0.6, 1)) };
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
    .filter((i) => i !== used && candidates[i].score > secondFaceShare * candidates[0].score);
  return likely.map((candidate) => ({ ...side, face: findFace(side.mesh, { candidate }) }));
}

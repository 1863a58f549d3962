import { compose, invert, type Similarity } from '../../core/geometry/index.ts';
import type { Comparison, PreparedScan, Weighed } from '../../core/pipeline.ts';
import { uprightView } from './faceView.ts';
import type { ComparisonView, FaceView } from './protocol.ts';

type ViewOf = (key: string, prepared: PreparedScan) => Promise<FaceView>;

/** Views of faces, each made once however often its pair is shown while it is measured and judged. */
export function viewsOnce(make: ViewOf = uprightView): ViewOf {
  const made = new Map<PreparedScan['face'], Promise<FaceView>>();
  return (key, prepared) => {
    const view = made.get(prepared.face) ?? make(key, prepared);
    made.set(prepared.face, view);
    return view;
  };
}

/** What the screen needs of a comparison: the fits as motions between the two face frames, the map, the judgement. */
export async function comparisonView(
  key: string,
  comparison: Omit<Comparison, 'judgement'> &
    Partial<Pick<Weighed, 'weighed'>> & { readonly judgement: Comparison['judgement'] | null },
  first: PreparedScan,
  second: PreparedScan,
  viewOf: ViewOf = uprightView,
): Promise<ComparisonView> {
  const { reference, subject, fit, difference, weighed, judgement } = comparison;
  const scanFromSubjectFace = invert(subject.face.faceFromScan);
  const byModel: Record<string, Similarity> = {};
  for (const model of fit.models)
    byModel[model.model] = compose(
      reference.face.faceFromScan,
      compose(model.referenceFromSubject, scanFromSubjectFace),
    );
  const [keyA, keyB] = key.split('\n');
  return {
    key,
    ...(reference.face === first.face ? {} : { reference: await viewOf(keyA, reference) }),
    ...(subject.face === second.face ? {} : { subject: await viewOf(keyB, subject) }),
    fit,
    referenceFaceFromSubjectFace: byModel,
    difference: difference && {
      map: difference.map,
      levelOfDetection: difference.levelOfDetection,
      ...(difference.significant && { significant: difference.significant }),
      levelOfDetectionMm: difference.levelOfDetectionMm,
      whole: difference.whole,
      zones: difference.zones,
      size: difference.size,
    },
    ...(weighed && { weighed: { finding: weighed.finding, strength: weighed.strength } }),
    judgement,
  };
}

import type { ComparisonView, FaceView } from '../../../workers/browser/protocol.ts';
import { useDates } from '../../state/dates.ts';
import { useFace } from '../../state/select.ts';
import { useChangeView } from './useChangeWork.ts';

export interface DatedFaces {
  readonly earlier: FaceView | undefined;
  readonly later: FaceView | undefined;
  /** How the later lies on the earlier; undefined until it is known. */
  readonly laid: ComparisonView | undefined;
}

/** The two faces, and how they lie on one another where that is known. */
export function useDatedFaces(): DatedFaces {
  const { earlierId, laterId } = useDates();
  const view = useChangeView();
  const [earlier, later] = [useFace(earlierId?.id ?? null), useFace(laterId?.id ?? null)];
  const laid = view?.laid;
  return { earlier: view?.earlier ?? earlier, later: view?.later ?? later, laid: laid?.fit.found ? laid : undefined };
}

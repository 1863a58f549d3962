import type { ImageSize } from '../../core/judge/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import type { Pair } from '../state/select.ts';
import { sizeMm } from './numbers.ts';

type Sized = Pick<FaceView, 'image' | 'outline'>;

/** The size of what is seen, by its name: of the seal where that is known, a matrix's own or what its partner tells; else of the piece. */
export function sizeWords({ image: own, outline }: Sized, told?: ImageSize | null): string {
  const image = told ?? own;
  const { widthMm, heightMm } = image ?? outline;
  return `${image ? 'seal' : 'piece'} ${sizeMm(widthMm, heightMm)}`;
}

/** The seal's size as the pair on the plate tells it of one of its two. */
export function imageOf(face: FaceView, { reference, subject, comparison }: Pair): ImageSize | null {
  const images = comparison?.judgement?.images;
  return (face === reference ? images?.[0] : face === subject ? images?.[1] : null) ?? null;
}

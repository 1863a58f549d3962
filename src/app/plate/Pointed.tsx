import { sampleGrid } from '../../core/geometry/index.ts';
import type { ComparisonView } from '../../workers/browser/protocol.ts';
import { mm, signedMm } from '../look/numbers.ts';
import { partWords } from '../look/wearWords.ts';
import type { Picture } from '../scene/Painter.tsx';
import { useStore } from '../state/store.ts';
import { toPixels } from './project.ts';

/** What can be read at a place: the differences with what of them counts. */
interface Measured {
  readonly difference: Pick<
    NonNullable<ComparisonView['difference']>,
    'map' | 'levelOfDetection' | 'levelOfDetectionMm'
  > | null;
}

/** A small cross where the hand points, at the same place on every pane, and what is read there. */
export function Pointed({ pictures, comparison }: { pictures: readonly Picture[]; comparison: Measured | undefined }) {
  const pointed = useStore((state) => state.pointed);
  const part = useStore((state) => state.wornPart);
  if (!pointed) return null;
  const words = reading(comparison, pointed[0], pointed[1]);
  return (
    <g className="pointed">
      {pictures.map((picture) => {
        const x = picture.mirror ? -pointed[0] : pointed[0];
        const [px, py] = toPixels(picture.projection, x, pointed[1]);
        if (px < picture.pane.from || px > picture.pane.to) return null;
        // Words that would run out of the pane stand on the other side.
        const beside = px > picture.pane.to - roomPx ? { x: -14, textAnchor: 'end' as const } : { x: 14 };
        return (
          <g key={picture.pane.id} transform={`translate(${px.toFixed(1)} ${py.toFixed(1)})`}>
            <path className="halo" d="M-9 0H-3M3 0H9M0 -9V-3M0 3V9" />
            <path d="M-9 0H-3M3 0H9M0 -9V-3M0 3V9" />
            {words && (
              <text {...beside} y={-10}>
                {words}
              </text>
            )}
            {part && (
              <text {...beside} y={20} fontStyle="italic">
                {partWords(part)}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** What a reading takes beside the cross, pixels. */
const roomPx = 215;

/** The depth difference at a place with its level of detection, in words. */
export function reading(comparison: Measured | undefined, x: number, y: number): string {
  const difference = comparison?.difference;
  if (!difference) return '';
  const value = sampleGrid(difference.map, x, y);
  if (Number.isNaN(value)) return '';
  const level = sampleGrid(difference.levelOfDetection, x, y);
  const within = Number.isNaN(level) ? difference.levelOfDetectionMm : level;
  return `${signedMm(value)} ± ${mm(within)}${Math.abs(value) < within ? ', not measurable' : ''}`;
}

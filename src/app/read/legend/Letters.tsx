import { type PointerEvent, useRef } from 'react';
import type { Item } from '../../../core/read/index.ts';
import { settle } from '../../state/store.ts';
import { legendNow, transcribe } from '../state/acts.ts';
import { moved, ringSpan } from '../state/pen.ts';
import { setRead } from '../state/readStore.ts';
import { glyphOf } from '../state/words.ts';
import { alongAtX, type StripScale, xOnStrip } from './useStripWindow.ts';

/** An item with where it stands, mm along the strip: its own place, or behind the one before it. */
export interface Stood {
  readonly item: Item;
  readonly index: number;
  readonly alongMm: number;
}

/** Where the items of a ring stand. Those without a place of their own follow at the usual distance. */
export function standing(items: readonly Item[], ring: number, advanceMm: number): Stood[] {
  const [from, to] = ringSpan(items, ring);
  let at = 0;
  return items.slice(from, to).map((item, k): Stood => {
    if ('alongMm' in item && item.alongMm !== undefined) at = item.alongMm;
    else if (item.kind === 'letter' || item.kind === 'sign' || item.kind === 'gap') at += advanceMm;
    return { item, index: from + k, alongMm: at };
  });
}

interface LettersProps {
  readonly scanId: string;
  readonly stood: readonly Stood[];
  readonly penAt: number;
  readonly scale: StripScale;
  readonly advanceMm: number;
  readonly top: number;
}

/** The reading under the strip: every letter below the one that it reads, its state as Leiden prints it. */
export function Letters({ scanId, stood, penAt, scale, advanceMm, top }: LettersProps) {
  const group = useRef<SVGGElement>(null);
  const drag = (index: number) => (event: PointerEvent) => {
    if (event.buttons !== 1) return;
    event.stopPropagation();
    const box = group.current?.ownerSVGElement?.getBoundingClientRect();
    if (!box) return;
    const mm = Math.max(0, alongAtX(scale, event.clientX - box.left));
    const { transcription } = legendNow(scanId);
    transcribe(scanId, 'Letter moved', moved(transcription, index, mm), { at: index + 1, alongMm: mm }, 'letter moved');
  };
  return (
    <g className="letters" ref={group} transform={`translate(0 ${top})`}>
      {stood.map(({ item, index, alongMm }) => {
        const x = xOnStrip(scale, alongMm + middleOf(item, advanceMm));
        if (x < -60 || x > scale.widthPx + 60) return null;
        return (
          <g
            key={index}
            className={index === penAt - 1 ? 'glyph chosen' : 'glyph'}
            transform={`translate(${x.toFixed(1)} 0)`}
            onPointerDown={(event) => {
              event.stopPropagation();
              event.currentTarget.setPointerCapture(event.pointerId);
              setRead({ pen: { at: index + 1, alongMm: alongMm + advanceMm } });
            }}
            onPointerMove={drag(index)}
            onPointerUp={settle}
          >
            <Glyph item={item} nextPx={advanceMm * scale.pxPerMm} />
          </g>
        );
      })}
    </g>
  );
}

/** Gaps of several letters stand in the middle of what they stand for. */
const middleOf = (item: Item, advanceMm: number): number =>
  item.kind === 'gap' && item.quantity !== null ? ((item.quantity - 1) * advanceMm) / 2 : 0;

function Glyph({ item, nextPx }: { item: Item; nextPx: number }) {
  if (item.kind === 'expansion')
    return (
      <text className="expansion" y={20} x={6} textAnchor="middle">
        ({item.text ?? '–'})
      </text>
    );
  const words = glyphOf(item);
  if (words === '') return null;
  const doubtful = 'state' in item && item.state === 'doubtful';
  const reach = Math.min(nextPx, 30);
  return (
    <>
      <text textAnchor="middle" className={item.kind === 'gap' ? 'missing' : undefined}>
        {words}
      </text>
      {doubtful && <circle cy={6.5} r={1.7} />}
      {item.kind === 'letter' && item.joined && <path className="tie" d={`M2 -19Q${reach / 2} -26 ${reach - 2} -19`} />}
      {item.kind === 'letter' && item.reversed && <path className="tie" d="M6 -21H-6L-2.5 -24M-6 -21L-2.5 -18" />}
    </>
  );
}

import { placeOnSeal, type Strip } from '../../../core/read/index.ts';
import { letterSenseWords } from '../../../core/report/words/index.ts';
import { number } from '../../look/numbers.ts';
import { LookSelect } from '../light/LookSelect.tsx';
import { SavePicture } from '../light/SavePicture.tsx';
import { letterMm, usePlaces, useRing, useSeenDegrees, useShown } from '../state/current.ts';
import { useRead } from '../state/readStore.ts';
import { placeWords } from '../state/words.ts';
import { stepsOf } from './FaceCaption.tsx';
import { StripZoom } from './StripZoom.tsx';

/** What the strip shows, where the hand is on it, and how it is lit. */
export function StripCaption() {
  const ring = useRing();
  const { seen } = useSeenDegrees();
  const stacked = useRead((state) => state.stacked);
  const strip = useShown('strip');
  const stack = useShown('stack');
  if (!ring) return <NoLegend />;
  const { order, found } = ring;
  const caption = stacked ? stack?.rows[0].picture.caption : strip?.picture.caption;
  const retrograde = found.letters.decided && found.letters.sense.startsWith('mirrored');
  return (
    <div className="read-caption">
      <p className="strip-facts">
        <span>
          Letters {number(letterMm(order.band), 1)} mm high, from {number(seen(order.startDeg), 0)}°{' '}
          {order.arcs
            ? 'arc by arc, letters face two ways'
            : order.facing === 'inward'
              ? 'clockwise'
              : 'against the clock'}
          {order.band.sense === 'intaglio' && '; the matrix turned over'}.
          {retrograde && <b className="flag"> Retrograde: {letterSenseWords(found.letters)}</b>}
        </span>
        <Where />
      </p>
      <p className="read-choices">
        <LookSelect of="strip" />
        <StripZoom />
        <SavePicture of="strip" />
        {!stacked && strip && (
          <span className="soft num">
            stroke contrast {number(strip.contrast.shown, 1)}, plain light {number(strip.contrast.plain, 1)}
          </span>
        )}
        <i className="soft steps" title={caption}>
          {stepsOf(caption)}
        </i>
      </p>
    </div>
  );
}

/** Degrees, clock hour and millimetres along, of the hand or else of the pen. */
function Where() {
  const hovered = useRead((state) => state.hovered);
  const pen = useRead((state) => state.pen);
  const places = usePlaces();
  const { seen } = useSeenDegrees();
  if (!places) return null;
  const column = hovered?.column ?? pen.alongMm / places.grid.pitch;
  const { deg, alongMm } = placeOnSeal(places as unknown as Strip, column);
  return <span className="where num">{placeWords({ deg: seen(deg), alongMm })}</span>;
}

function NoLegend() {
  const bands = useRead((state) => state.slots.bands.state);
  if (bands?.at !== 'ready' || bands.value.length > 0) return <div className="read-caption" />;
  return (
    <div className="read-caption">
      <p>No legend was made out on this face. Its picture can be lit and filtered all the same.</p>
    </div>
  );
}

import { useChange } from './state/changeStore.ts';
import { turnByHand } from './state/useChangeKeys.ts';
import { useDatedFaces } from './state/useDatedFaces.ts';

/** The seal's own control at its foot: which date lies on top, and the way to the other. */
export function DateTurn() {
  const look = useChange((state) => state.look);
  const onTop = useChange((state) => state.onTop);
  const { earlier, later, laid } = useDatedFaces();
  if (!(earlier && later && laid) || look !== 'turn') return null;
  return (
    <button
      type="button"
      className={`date-turn ${onTop}`}
      aria-label={`earlier later: the ${onTop} date lies on top, turn to the ${onTop === 'earlier' ? 'later' : 'earlier'}`}
      onPointerDown={(event) => event.stopPropagation()}
      onDoubleClick={(event) => event.stopPropagation()}
      onClick={turnByHand}
    >
      <span>earlier</span> <i aria-hidden="true" /> <span>later</span>
    </button>
  );
}

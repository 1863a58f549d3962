import { useEffect } from 'react';
import { Progress } from '../frame/Progress.tsx';
import { useDates } from '../state/dates.ts';
import { restingCamera } from '../state/document.ts';
import { amend, setState, useDocument, useStore } from '../state/store.ts';
import { BringDates } from './BringDates.tsx';
import { ChangeCaption } from './ChangeCaption.tsx';
import { ChangePlate } from './ChangePlate.tsx';
import { chooseChange, setChange, useChange } from './state/changeStore.ts';
import { useAlternating } from './state/useAlternating.ts';
import { useChangeKeys } from './state/useChangeKeys.ts';
import { useChangeView, useChangeWork } from './state/useChangeWork.ts';
import './change.css';

/** One object on two dates. No question of matrices is asked in this room. */
export default function ChangeRoom() {
  useChangeWork();
  useChangeKeys();
  useAlternating();
  useEntering();
  useSlide();
  const { earlierId, laterId } = useDates();
  const job = useChange((state) => state.job);
  const both = earlierId && laterId;
  return (
    <section className="change-room" aria-label="One object on two dates">
      {both ? <ChangePlate /> : <BringDates />}
      {both && <ChangeCaption />}
      {both && job?.at === 'working' && (
        <div className="change-working">
          <Progress what="The two dates" doing={job.doing} fraction={job.fraction} />
        </div>
      )}
    </section>
  );
}

/** In the seminar: what the view that is told now shows of the two dates, once it is known. */
function useSlide(): void {
  const at = useStore((state) => state.presenting);
  const asked = useDocument(({ slides }) => (at === null ? undefined : slides[at]?.dates));
  const changes = useChangeView()?.changes;
  useEffect(() => {
    if (!asked) return;
    setChange({ look: asked.look, onTop: 'earlier', alternating: false });
    chooseChange(changes?.find(({ id }) => id === asked.change) ?? null);
  }, [asked, changes]);
}

/** The room begins and is left with nothing in hand. */
function useEntering(): void {
  useEffect(() => {
    const calm = (): void => {
      setState({ hand: 'look', standIn: null, ground: null, selectedMark: null, pointed: null });
      setChange({ chosen: null, pointed: null, alternating: false });
    };
    calm();
    // No act of the user: undo does not begin with it.
    amend((document) => ({ ...document, view: { ...document.view, camera: restingCamera } }));
    return calm;
  }, []);
}

import { onlyOpening } from '../state/document.ts';
import { useDocument } from '../state/store.ts';
import { ChooseFiles } from './ChooseFiles.tsx';
import { LeftWork } from './LeftWork.tsx';
import './bringIn.css';

/** As long as only the pair lies there that the page laid out itself: what it is, and the way to one's own. */
export function OpeningNote() {
  const opening = useDocument(onlyOpening);
  if (!opening) return null;
  return (
    <div className="opening-note">
      <p>A demonstration pair. Drop two scans of your own anywhere on this page, and they take its place.</p>
      <div className="deeds">
        <ChooseFiles quiet />
      </div>
      <LeftWork />
    </div>
  );
}

import { useState } from 'react';
import type { Section as CutSection } from '../../core/compare/index.ts';
import { number } from '../look/numbers.ts';
import { plateXFromReference } from '../state/onPlate.ts';
import { usePair } from '../state/select.ts';
import { actOnView, setState, useDocument } from '../state/store.ts';
import { Profile } from './Profile.tsx';
import { SectionEnds } from './SectionEnds.tsx';
import { useSection } from './useSection.ts';
import { WideProfile } from './WideProfile.tsx';

/** Heights as the plate shows them: an engraved reference lies turned over on it. */
const inImpressionSense = (section: CutSection): CutSection => ({
  ...section,
  reference: section.reference.map((z) => -z),
  subject: section.subject.map((z) => -z),
});

/** The section that was drawn across the plate: both profiles, and the groove where one was crossed. */
export function Section() {
  const line = useDocument((document) => document.view.section);
  const { section, failure } = useSection(line);
  const { reference } = usePair();
  const flip = plateXFromReference(reference);
  const [wide, setWide] = useState(false);
  if (!line) return null;
  const crossed = section && [...section.reference, ...section.subject].some((z) => !Number.isNaN(z));
  const shown = section && crossed && (flip === -1 ? inImpressionSense(section) : section);
  return (
    <>
      <h3>Section A–B</h3>
      {failure && <p role="alert">{failure}</p>}
      {section && !crossed && <p>The line crosses neither face.</p>}
      {shown && !wide && <Profile section={shown} />}
      {shown && wide && <WideProfile section={shown} onClose={() => setWide(false)} />}
      <SectionEnds line={line} />
      {section?.groove && (
        <p className="num">
          The {section.groove.on === 'subject' ? 'groove or ridge on b' : 'groove or ridge on a'} is{' '}
          {number(section.groove.depthMm, 3)} mm deep and {number(section.groove.widthMm, 2)} mm wide at half its depth;
          its flanks stand at {number(section.groove.flankDeg[0], 0)}° and {number(section.groove.flankDeg[1], 0)}°.
        </p>
      )}
      <p className="seats">
        {shown && (
          <button type="button" className="word" aria-pressed={wide} onClick={() => setWide(!wide)}>
            as wide as the plate
          </button>
        )}
        <button type="button" className="word" onClick={() => setState({ hand: 'section' })}>
          draw another
        </button>
        <button type="button" className="word" onClick={() => actOnView('Section put away', { section: null })}>
          put it away
        </button>
      </p>
    </>
  );
}
